//! What leads the days, and with what load. Common practice.

use weekwright::input::plan::Plan;
use weekwright::words::{GroupKind, Pattern, Turn};

use super::shape::{items, plan};
use super::wishes::places;
use crate::rules::check::PLANNER;

const GYM: &str = "equipment: {barbell: {count: 2, mass_kg: 20}, plates_kg: {20: 8, 10: 4, 5: 4, 2.5: 4, 1.25: 4}, squat-rack: 1, \
                   safety-arms: 1, bench: 2, adjustable-bench: 1, dumbbells: {from_kg: 2, to_kg: 40, step_kg: 2}, pull-up-bar: 1, \
                   dip-belt: 1, cable-station: 1, lat-pulldown: 1, leg-curl-machine: 1, ab-wheel: 1}\n";
const BIG: &str = "known_lifts: {back-squat: {load: 120, reps: 5, rir: 2}, bench-press: {load: 85, reps: 5, rir: 2}, \
                   deadlift: {load: 150, reps: 5, rir: 2}}\n";

/// The first exercise of each day.
fn leads(plan: &Plan) -> Vec<&str> {
    let days = plan.sessions.iter().map(|session| {
        let work = session.groups.iter().find(|group| group.is_work());
        work.expect("a day has work").items[0].exercise.as_str()
    });
    days.collect()
}

#[test]
fn three_days_for_strength_are_led_by_squat_bench_and_pull() {
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n";
    let plan = plan(&format!("goal: strength\ntraining_status: intermediate\n{GYM}{BIG}{days}"));
    assert_eq!(leads(&plan), ["back-squat", "bench-press", "deadlift"]);
}

const FOUR: &str = "sessions: [{day: mon, minutes: 75}, {day: tue, minutes: 75}, {day: thu, at: \"18:00\", minutes: 75}, \
                    {day: sat, at: \"10:00\", minutes: 75}]\n";

/// Hulls are turned on Friday: the back is not worn out the evening before.
#[test]
fn the_pull_waits_for_a_day_that_no_hard_work_of_the_back_follows() {
    let hulls = "other_training: [{day: fri, at: \"09:00\", load: hard, muscles: [spinal-erectors, upper-back]}]\n";
    let keys = format!("goal: strength\ntraining_status: advanced\n{GYM}{BIG}{FOUR}");
    let usual = plan(&keys);
    assert_eq!([leads(&usual)[0], leads(&usual)[2]], ["back-squat", "deadlift"]);
    let spared = plan(&format!("{keys}{hulls}"));
    assert_eq!([leads(&spared)[0], leads(&spared)[2]], ["deadlift", "back-squat"]);
}

/// The bench lags and is liked paused: the lift itself is done fresh first, its form on the later day.
#[test]
fn a_form_that_is_liked_has_the_second_day() {
    let likes = "emphasis: {chest: more}\nexercises: {prefer: [paused-bench-press]}\n";
    let plan = plan(&format!("goal: strength\ntraining_status: advanced\n{GYM}{BIG}{FOUR}{likes}"));
    assert_eq!(leads(&plan)[0], "back-squat", "the week opens with the squat whatever is wished");
    let [bench, paused] = ["bench-press", "paused-bench-press"].map(|id| places(&plan, id));
    assert_eq!(bench[0], (1, 0));
    assert!(paused.iter().any(|(day, _)| *day == 3), "{paused:?}");
}

#[test]
fn a_pull_up_for_strength_is_not_done_for_threes() {
    let known = BIG.replace("}}", "}, weighted-pull-up: {load: 15, reps: 5, rir: 2}}");
    let keys =
        format!("goal: strength\ntraining_status: advanced\nbody_mass_kg: 85\n{GYM}{known}{FOUR}");
    let plan = plan(&keys);
    let pulls = items(&plan).filter(|(_, item)| item.exercise.ends_with("pull-up"));
    let reps: Vec<u32> =
        pulls.filter_map(|(_, item)| item.reps.as_ref()?.first().copied()).collect();
    assert!(!reps.is_empty() && reps.iter().all(|reps| *reps > 3), "{reps:?}");
}

#[test]
fn long_sessions_for_strength_have_a_pair_of_four_rounds() {
    let plan = plan(&format!(
        "goal: strength\ntraining_status: advanced\n{GYM}{BIG}{}",
        FOUR.replace("75", "90")
    ));
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let mut pairs = groups.filter(|group| group.kind == GroupKind::Superset);
    assert!(pairs.any(|pair| pair.items.iter().all(|item| item.sets == 4)));
}

/// Who begins lifts what was lifted, though four sets are asked for: the first weeks are easy anyway.
#[test]
fn who_begins_starts_where_the_known_lift_is() {
    let known = "known_lifts: {back-squat: {load: 60, reps: 5, rir: 3}, bench-press: {load: 47.5, reps: 5, rir: 3}}\n";
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n";
    let plan = plan(&format!("goal: strength\ntraining_status: novice\n{GYM}{known}{days}"));
    let squat = items(&plan).map(|(_, item)| item).find(|item| item.exercise == "back-squat");
    let squat = squat.expect("it is known");
    assert_eq!((squat.sets, squat.load_kg, squat.rir), (4, Some(60.0), Some(3)));
}

/// Past the first steps four sets take a step off, and what is left is there for the last of them.
#[test]
fn a_step_off_for_many_sets_leaves_no_more_in_reserve() {
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n";
    let big = BIG.replace("load: 85, reps: 5", "load: 85, reps: 4");
    let plan = plan(&format!("goal: strength\ntraining_status: intermediate\n{GYM}{big}{days}"));
    let bench = items(&plan).map(|(_, item)| item).find(|item| item.exercise == "bench-press");
    let bench = bench.expect("it is known");
    assert_eq!((bench.sets >= 4, bench.load_kg, bench.rir), (true, Some(82.5), Some(2)));
}

/// Where five went, fours are done with the load that was lifted.
#[test]
fn fives_that_are_known_are_fours_on_the_heavier_day_for_strength() {
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n";
    let plan = plan(&format!("goal: strength\ntraining_status: intermediate\n{GYM}{BIG}{days}"));
    let bench = items(&plan).map(|(_, item)| item).find(|item| item.exercise == "bench-press");
    let bench = bench.expect("it is known");
    assert_eq!((bench.load_kg, bench.rir), (Some(85.0), Some(3)));
    assert!(bench.reps.as_ref().is_some_and(|reps| reps.iter().all(|reps| *reps == 4)));
}

/// Squat and pull have a day each, and the day before hard sport the press.
#[test]
fn the_eve_of_hard_sport_has_the_press_for_strength() {
    let plan = plan(&format!(
        "goal: strength\ntraining_status: advanced\nsex: female\nbody_mass_kg: 74\n{GYM}{BIG}\
         sessions: [{{day: mon, at: \"07:00\", minutes: 80}}, {{day: thu, at: \"07:00\", minutes: 80}}, {{day: fri, at: \"12:30\", minutes: 45}}]\n\
         other_training: [{{day: tue, at: \"18:00\", load: hard, muscles: [quads, glutes, lats, spinal-erectors]}}, \
         {{day: sat, at: \"08:00\", load: hard, muscles: [quads, glutes, lats, spinal-erectors]}}]\n"
    ));
    assert_eq!(leads(&plan)[..2], ["back-squat", "deadlift"]);
    let squat = items(&plan).map(|(_, item)| item).find(|item| item.exercise == "back-squat");
    assert!(
        squat.is_some_and(|squat| squat.rir <= Some(3)),
        "the morning of the day before is no eve"
    );
}

/// A day for the legs is built on what should get more there, and on the lift that is known for it.
#[test]
fn what_should_get_more_leads_the_legs_days() {
    let lead = |more: &str| {
        let plan = plan(&format!(
            "goal: hypertrophy\ntraining_status: intermediate\nsex: male\nbody_mass_kg: 85\n{GYM}{FOUR}\
             emphasis: {{{more}: more}}\n\
             known_lifts: {{romanian-deadlift: {{load: 100, reps: 8, rir: 2}}, back-squat: {{load: 110, reps: 8, rir: 2}}}}\n"
        ));
        let legs = |id: &&str| {
            let pattern = PLANNER.catalog().get(id).unwrap().pattern;
            matches!(pattern, Some(Pattern::Squat | Pattern::Hinge))
        };
        let first = leads(&plan).into_iter().find(legs).map(ToOwned::to_owned);
        first.expect("a day has the legs")
    };
    assert_eq!(lead("hamstrings"), "romanian-deadlift");
    assert_eq!(lead("quads"), "back-squat");
}

/// Ten with two left are eight with more on the bar where the kit makes it, on the heavier day.
#[test]
fn the_heavier_day_for_size_has_few_repetitions_and_more_load() {
    let keys = format!(
        "goal: hypertrophy\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 65\n{GYM}\
         emphasis: {{glutes: more}}\nexercises: {{prefer: [hip-thrust]}}\n\
         known_lifts: {{hip-thrust: {{load: 80, reps: 10, rir: 2}}}}\n{FOUR}"
    );
    let plan = plan(&keys);
    let thrusts = items(&plan).map(|(_, item)| item).filter(|item| item.exercise == "hip-thrust");
    let heavier: Vec<_> = thrusts.filter(|item| item.turn == Some(Turn::Heavier)).collect();
    let heavier = heavier.first().expect("it comes first");
    assert!(heavier.reps.as_ref().is_some_and(|reps| reps[0] == 8), "{:?}", heavier.reps);
    assert!(heavier.load_kg.is_some_and(|kg| kg > 80.0), "{:?}", heavier.load_kg);
}

#[test]
fn for_size_the_legs_days_are_built_on_a_squat_and_a_hinge_with_the_bar() {
    let days = "sessions: [{day: mon, minutes: 45}, {day: tue, minutes: 45}, {day: thu, minutes: 45}, {day: fri, minutes: 45}]\n";
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: novice\nsex: male\nbody_mass_kg: 70\n{GYM}{days}"
    ));
    let [squats, hinges] = ["back-squat", "romanian-deadlift"].map(|id| places(&plan, id));
    assert!(squats.iter().any(|(_, place)| *place == 0), "{squats:?}");
    assert!(hinges.iter().any(|(_, place)| *place == 0), "{hinges:?}");
    assert!(squats[0].0 < hinges[0].0);
}

/// Who lasts does a known lift of ten as it is known, with its load.
#[test]
fn who_trains_to_last_does_a_known_lift_as_it_is_known() {
    let keys = format!(
        "goal: endurance\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 62\n{GYM}\
         known_lifts: {{dumbbell-bench-press: {{load: 12, reps: 10, rir: 2}}}}\n\
         sessions: [{{day: mon, minutes: 50}}, {{day: thu, minutes: 50}}]\n"
    );
    let plan = plan(&keys);
    let mut press =
        items(&plan).map(|(_, item)| item).filter(|item| item.exercise == "dumbbell-bench-press");
    assert!(press.any(|item| item.load_kg == Some(12.0)));
}

/// With three left after each set the last of four is no harder than the first was.
#[test]
fn many_sets_far_from_the_limit_take_nothing_off() {
    let keys = format!(
        "goal: endurance\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 58\n{GYM}\
         known_lifts: {{back-squat: {{load: 50, reps: 8, rir: 3}}}}\n\
         sessions: [{{day: mon, minutes: 60}}, {{day: thu, minutes: 60}}]\n"
    );
    let plan = plan(&keys);
    let mut squats =
        items(&plan).map(|(_, item)| item).filter(|item| item.exercise == "back-squat");
    assert!(squats.any(|item| item.load_kg == Some(50.0)));
}

/// On a day for the whole body the big lifts come before a pull-up that is asked for.
#[test]
fn for_strength_a_pull_up_that_is_asked_for_follows_squat_and_pull() {
    let plan = plan(&format!(
        "goal: strength\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 68\n{GYM}{BIG}\
         exercises: {{must: [pull-up]}}\nemphasis: {{lats: more}}\n\
         sessions: [{{day: mon, minutes: 60}}, {{day: wed, minutes: 60}}, {{day: fri, minutes: 60}}]\n"
    ));
    assert!(!leads(&plan).contains(&"pull-up"), "{:?}", leads(&plan));
    assert!(!places(&plan, "pull-up").is_empty());
}

/// One leg on its own holds a fraction of the bar that is known: the thrust comes again, heavy and light.
#[test]
fn a_known_thrust_comes_again_where_the_glutes_should_get_more() {
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 62\n{GYM}{FOUR}\
         emphasis: {{glutes: more}}\nknown_lifts: {{hip-thrust: {{load: 90, reps: 8, rir: 2}}}}\n"
    ));
    let thrusts: Vec<_> = items(&plan)
        .filter(|(_, item)| item.exercise == "hip-thrust")
        .map(|(_, item)| item)
        .collect();
    assert_eq!(thrusts.len(), 2);
    assert!(thrusts[0].load_kg != thrusts[1].load_kg);
}

/// A chest that should get stronger benches in three forms: the lift, and two of it that are lighter.
#[test]
fn a_bench_that_lags_comes_in_three_forms() {
    let more = "emphasis: {chest: more, triceps: more}\n";
    let plan = plan(&format!("goal: strength\ntraining_status: advanced\n{GYM}{BIG}{FOUR}{more}"));
    let forms = ["bench-press", "close-grip-bench-press", "paused-bench-press"];
    let times: usize = forms.map(|id| places(&plan, id).len()).iter().sum();
    assert!(times > 2, "{times}");
    let legs = [0, 2];
    let arms = items(&plan).filter(|(day, item)| {
        let pattern = PLANNER.catalog().get(&item.exercise).unwrap().pattern;
        legs.contains(day) && pattern == Some(Pattern::ElbowExtension)
    });
    assert_eq!(arms.count(), 0, "the legs have their days to themselves");
}

/// Of two long days each has the squat and the bench, heavy and light.
#[test]
fn two_long_days_for_strength_squat_and_bench_twice() {
    let days = "sessions: [{day: tue, minutes: 75}, {day: fri, minutes: 75}]\n";
    let plan = plan(&format!("goal: strength\ntraining_status: intermediate\n{GYM}{BIG}{days}"));
    for pattern in [Pattern::Squat, Pattern::HorizontalPush] {
        let with_the_bar = |day: usize| {
            items(&plan).any(|(other, item)| {
                let entry = PLANNER.catalog().get(&item.exercise).unwrap();
                other == day
                    && entry.pattern == Some(pattern)
                    && entry.load == weekwright::words::LoadKind::BarTotal
            })
        };
        assert!(with_the_bar(0) && with_the_bar(1), "{pattern:?}");
    }
}

/// After a hinge with the bar the thighs are trained where the back rests.
#[test]
fn for_size_a_machine_follows_the_hinge() {
    let days = "sessions: [{day: mon, minutes: 50}, {day: tue, minutes: 50}, {day: thu, minutes: 50}, {day: fri, minutes: 50}]\n";
    let gym = GYM.replace("ab-wheel: 1", "leg-press: 1, ab-wheel: 1");
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: novice\nsex: male\nbody_mass_kg: 63\n{gym}{days}"
    ));
    let [hinges, squats, presses] =
        ["romanian-deadlift", "back-squat", "leg-press"].map(|id| places(&plan, id));
    assert!(!hinges.is_empty() && !presses.is_empty());
    assert!(hinges.iter().all(|(day, _)| squats.iter().all(|(other, _)| day != other)));
}

/// Who begins and knows no lift learns the wished pull-up on both of two days, for a few with as much help as that takes.
#[test]
fn the_first_pull_up_comes_twice_and_for_a_few() {
    let days = "sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n";
    let plan = plan(&format!(
        "goal: strength\ntraining_status: novice\nsex: female\nbody_mass_kg: 60\n\
         equipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, resistance-band]\n\
         exercises: {{must: [band-assisted-pull-up]}}\n{days}"
    ));
    let pulls: Vec<_> =
        items(&plan).filter(|(_, item)| item.exercise == "band-assisted-pull-up").collect();
    assert_eq!(pulls.iter().map(|(day, _)| *day).collect::<Vec<_>>(), [0, 1]);
    assert!(pulls.iter().all(|(_, item)| item.reps.as_ref().is_some_and(|reps| reps[0] == 5)));
}
