//! The week of who trains to be fast. Common practice.

use weekwright::input::plan::{Item, Plan};
use weekwright::words::{LoadKind, Pattern, Side};

use super::choosing::left;
use super::shape::{items, plan};
use super::wishes::places;
use crate::rules::check::PLANNER;

const KIT: &str = "equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, plyo-box, medicine-ball, \
                   resistance-band]\n";
const DAYS: &str =
    "sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n";
const KNOWN: &str = "known_lifts: {back-squat: {load: 110, reps: 5, rir: 2}, hang-power-clean: {load: 70, reps: 3, rir: 2}, \
                     bench-press: {load: 75, reps: 5, rir: 2}, deadlift: {load: 130, reps: 5, rir: 2}}\n";
const SPORT: &str = "other_training: [{day: tue, load: hard, muscles: [quads, hamstrings, glutes]}, {day: sat, load: hard, \
                     muscles: [quads, hamstrings, glutes]}]\n";

fn week() -> Plan {
    plan(&format!(
        "goal: power\ntraining_status: intermediate\nsex: male\nbody_mass_kg: 80\n{KIT}{DAYS}{KNOWN}{SPORT}"
    ))
}

/// The working items of a day, each with its pattern.
fn of_day(plan: &Plan, day: usize) -> Vec<(&Item, Pattern)> {
    let of_it = items(plan).filter(|(other, _)| *other == day);
    let with_pattern =
        of_it.filter_map(|(_, item)| Some((item, PLANNER.catalog().get(&item.exercise)?.pattern?)));
    with_pattern.collect()
}

/// Whether an exercise has a load.
fn is_loaded(item: &Item) -> bool {
    PLANNER.catalog().get(&item.exercise).unwrap().is_loaded()
}

/// The week opens with a jump that carries nothing, and the eve of the match has no jump whose load is to be found.
#[test]
fn the_first_jump_and_the_primer_s_carry_nothing() {
    let plan = in_season();
    let jumps = |day: usize| -> Vec<bool> {
        let of_it = of_day(&plan, day).into_iter().filter(|(_, pattern)| *pattern == Pattern::Jump);
        of_it.map(|(item, _)| is_loaded(item)).collect()
    };
    assert_eq!((jumps(0).first(), jumps(2)), (Some(&false), vec![false]));
}

/// The known clean is heavy on the day of fresh legs.
#[test]
fn the_known_clean_has_the_fresh_day() {
    let plan = in_season();
    let cleans = places(&plan, "hang-power-clean");
    assert_eq!(cleans.first().map(|(day, _)| *day), Some(0), "{cleans:?}");
    assert!(cleans.iter().all(|(day, _)| *day < 2), "{cleans:?}");
}

/// Fresh, before the bench and with its own rest.
#[test]
fn a_driven_press_stands_alone_and_before_the_bench() {
    let plan = week();
    let mut driven = 0;
    for session in &plan.sessions {
        let ids: Vec<Vec<&str>> = session
            .groups
            .iter()
            .map(|group| group.items.iter().map(|item| item.exercise.as_str()).collect())
            .collect();
        let at = |id: &str| ids.iter().position(|group| group.contains(&id));
        let Some(place) = at("push-press") else { continue };
        driven += 1;
        assert_eq!(ids[place], ["push-press"]);
        assert!(at("bench-press").is_none_or(|bench| place < bench), "{ids:?}");
    }
    assert!(driven > 0, "a press is driven in the week");
}

#[test]
fn each_day_begins_with_a_jump_or_a_throw_and_the_first_with_a_jump() {
    let plan = week();
    for day in 0..3 {
        let first = of_day(&plan, day)[0].1;
        let allowed: &[Pattern] =
            if day == 0 { &[Pattern::Jump] } else { &[Pattern::Jump, Pattern::Throw] };
        let has = of_day(&plan, day).iter().any(|(_, pattern)| allowed.contains(pattern));
        assert!(has && first.is_explosive(), "day {day}: {first:?}");
    }
}

#[test]
fn the_fast_bar_has_another_day_than_the_pull_off_the_floor() {
    let plan = week();
    let [cleans, pulls] = ["hang-power-clean", "deadlift"].map(|id| places(&plan, id));
    assert!(cleans.len() > 1 && !pulls.is_empty());
    assert!(cleans.iter().all(|(day, _)| pulls.iter().all(|(other, _)| day != other)));
}

/// The reserve of the squat on each day that has it.
fn squats(plan: &Plan) -> Vec<(usize, Option<u32>)> {
    let of_day = (0..3).flat_map(|day| of_day(plan, day).into_iter().map(move |one| (day, one.0)));
    let squats = of_day.filter(|(_, item)| item.exercise == "back-squat");
    squats.map(|(day, item)| (day, item.rir)).collect()
}

/// The practice of the week is no match: the squat on its eve is as heavy as any.
#[test]
fn the_squat_is_heavy_before_practice() {
    assert_eq!(squats(&week()).first(), Some(&(0, Some(3))));
}

#[test]
fn the_press_overhead_is_driven_and_who_learns_presses_dumbbells() {
    let presses = left(
        ["overhead-press", "push-press", "bench-press", "dumbbell-bench-press"],
        "goal: power\nequipment: [barbell, squat-rack, bench, dumbbells]\n",
    );
    assert_eq!(presses("training_status: intermediate"), [false, true, true, true]);
    let [overhead, _, bench, held] = presses("training_status: novice");
    assert_eq!([overhead, bench, held], [false, false, true]);
    let plan = plan(&format!(
        "goal: power\ntraining_status: novice\nsex: male\nbody_mass_kg: 70\n{KIT}{DAYS}"
    ));
    let bars = (0..3).flat_map(|day| of_day(&plan, day)).filter(|(item, pattern)| {
        let bar = PLANNER.catalog().get(&item.exercise).unwrap().load == LoadKind::BarTotal;
        bar && pattern.side() == Some(Side::Push)
    });
    assert_eq!(bars.count(), 0);
}

/// The day after hard practice is led by the bench, and the legs do little that day and the eve of the match.
#[test]
fn legs_have_little_to_do_the_day_after_hard_practice() {
    let plan = in_season();
    let wednesday = of_day(&plan, 1);
    let lead = wednesday.iter().find(|(_, pattern)| !pattern.is_explosive()).expect("it has work");
    let legs: u32 = wednesday
        .iter()
        .filter(|(item, pattern)| {
            let compound = matches!(pattern, Pattern::Squat | Pattern::Hinge | Pattern::Lunge);
            compound && item.sets > 0
        })
        .map(|(item, _)| item.sets)
        .sum();
    assert!(legs <= 6, "{legs} sets of {wednesday:?}");
    assert_ne!(lead.1, Pattern::Squat);
}

/// Of two days the first is for the pull that is known and liked, where no squat is.
#[test]
fn a_pull_that_is_liked_opens_two_days_where_no_squat_is_known() {
    let plan = plan(
        "goal: power\ntraining_status: advanced\nsex: female\nbody_mass_kg: 67\n\
         equipment: [barbell, squat-rack, bench, dumbbells, trap-bar, pull-up-bar, plyo-box, medicine-ball]\n\
         exercises: {prefer: [trap-bar-deadlift]}\n\
         known_lifts: {trap-bar-deadlift: {load: 80, reps: 5, rir: 2}}\n\
         sessions: [{day: tue, minutes: 75}, {day: fri, minutes: 50}]\n",
    );
    assert_eq!(places(&plan, "trap-bar-deadlift").first().map(|(day, _)| *day), Some(0));
}

/// A match on Saturday and hard practice on Tuesday, with sessions in the evening of Monday, Wednesday and Friday.
fn in_season() -> Plan {
    let sport = "other_training: [{day: tue, at: \"19:00\", load: hard, muscles: [quads, hamstrings, glutes]}, \
                 {day: sat, at: \"15:00\", load: hard, muscles: [quads, hamstrings, glutes]}]\n";
    plan(&format!(
        "goal: power\ntraining_status: advanced\nsex: male\nbody_mass_kg: 90\n{KIT}{}{KNOWN}{sport}",
        DAYS.replace("minutes", "at: \"18:00\", minutes")
    ))
}

/// The eve of the match wakes the body and tires nothing: a jump, what is known and light, a row, something for the trunk.
#[test]
fn the_eve_of_a_match_is_a_primer() {
    let plan = in_season();
    let friday = of_day(&plan, 2);
    assert!(friday.iter().any(|(_, pattern)| *pattern == Pattern::Jump), "{friday:?}");
    let usual = |pattern: &Pattern| {
        let press_or_pull =
            matches!(pattern, Pattern::HorizontalPull | Pattern::HorizontalPush | Pattern::Hinge);
        pattern.is_explosive() || pattern.is_trunk() || press_or_pull
    };
    assert!(friday.iter().all(|(_, pattern)| usual(pattern)), "{friday:?}");
    let lifts = friday.iter().filter(|(_, pattern)| !pattern.is_trunk());
    assert!(lifts.clone().count() > 2);
    assert!(lifts.clone().all(|(item, _)| item.rir >= Some(4)), "{friday:?}");
}

#[test]
fn the_day_after_practice_has_no_slow_work_for_the_legs_but_a_step_up() {
    let plan = in_season();
    for (item, pattern) in of_day(&plan, 1) {
        let steps = PLANNER.catalog().get(&item.exercise).unwrap().family() == "step-up";
        let known = item.exercise == "deadlift";
        let slow = matches!(
            pattern,
            Pattern::Squat | Pattern::Lunge | Pattern::Hinge | Pattern::HipExtension
        );
        assert!(!slow || steps || known, "{}", item.exercise);
    }
}
