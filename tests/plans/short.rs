//! Short sessions, and what sport beside them leaves. Common practice.

use weekwright::input::plan::{Item, Plan};
use weekwright::planner::Options;
use weekwright::words::GroupKind;

use super::choosing::left;
use super::shape::{client, items, plan};
use crate::rules::check::PLANNER;

const HOME: &str = "equipment: {kettlebell: {masses_kg: [8, 12, 16]}, resistance-band: 2, band-anchor: 1, chair: 1}\n";

fn days(minutes: [u32; 3]) -> String {
    let [one, two, three] = minutes;
    format!(
        "sessions: [{{day: mon, minutes: {one}}}, {{day: wed, minutes: {two}}}, {{day: fri, minutes: {three}}}]\n"
    )
}

fn rests(plan: &Plan) -> Vec<u32> {
    items(plan).map(|(_, item)| item.rest_s).collect()
}

/// Where minutes are few a pair rests less than a minute; an evening of an hour keeps its rests.
#[test]
fn half_an_hour_rests_briefly_and_has_three_rounds() {
    let keys = format!("goal: fat-loss\ntraining_status: intermediate\nsupersets: prefer\n{HOME}");
    let short = plan(&format!("{keys}{}", days([30, 30, 35])));
    assert!(rests(&short).iter().all(|rest| *rest <= 60), "{:?}", rests(&short));
    let threes = items(&short).filter(|(_, item)| item.sets >= 3).count();
    assert!(2 * threes > items(&short).count(), "{threes} of three sets");
    let long = plan(&format!("{keys}{}", days([60, 60, 60])));
    assert!(rests(&long).iter().any(|rest| *rest > 60), "{:?}", rests(&long));
    let strong = format!("goal: strength\ntraining_status: intermediate\n{HOME}");
    let strong = plan(&format!("{strong}{}", days([30, 30, 35])));
    assert!(rests(&strong).iter().any(|rest| *rest > 60), "what is heavy keeps its rest");
}

/// Nobody goes all out on the spot: what needs no machine rests as long as it lasts.
#[test]
fn bouts_on_the_spot_rest_as_long_as_they_last() {
    let plan = plan(&format!(
        "goal: fat-loss\ntraining_status: intermediate\n{HOME}limits: [impact]\n{}\
         conditioning: {{from_week: 1, minutes: 8, modes: [march-and-step-intervals]}}\n",
        days([35, 35, 35])
    ));
    let weeks = plan.weeks.iter().flat_map(|week| &week.sessions);
    let hard = weeks
        .flat_map(|session| &session.groups)
        .filter(|group| group.kind == GroupKind::Conditioning);
    let bouts: Vec<&Item> = hard
        .flat_map(|group| &group.items)
        .filter(|item| item.exercise == "march-and-step-intervals")
        .collect();
    assert!(!bouts.is_empty());
    for item in bouts {
        let lasts = item.seconds.as_ref().and_then(|seconds| seconds.first()).copied();
        assert_eq!(lasts, Some(item.rest_s));
    }
}

#[test]
fn a_place_with_one_pull_has_a_second_form_of_it_on_many_days() {
    let row = |kit: &str, minutes: &str| {
        let profile = client(&format!(
            "goal: general-fitness\ntraining_status: intermediate\nequipment: [{kit}]\n{minutes}"
        ));
        let request = PLANNER.request(&profile, &Options::default());
        request.candidate("deep-towel-row").is_some()
    };
    let two = "sessions: [{day: mon, minutes: 30}, {day: thu, minutes: 30}]\n";
    assert!(row("resistance-band, chair", &days([30; 3])));
    assert!(!row("resistance-band, chair", two));
    assert!(!row("resistance-band, chair, dumbbells", &days([30; 3])), "a dumbbell is rowed, too");
}

#[test]
fn who_does_few_chin_ups_has_help() {
    let of = left(
        ["chin-up", "band-assisted-pull-up"],
        "training_status: novice\nequipment: [pull-up-bar, resistance-band, dumbbells, bench]\n\
         known_lifts: {chin-up: {reps: 4, rir: 0}}\n",
    );
    assert_eq!(of("goal: hypertrophy\n"), [false, true]);
    assert!(of("goal: hypertrophy\nexercises: {prefer: [chin-up]}\n")[0], "unless it is liked");
    assert!(of("goal: strength\n")[0], "few are what strength asks for");
}

/// Ten of eighteen push-ups leave eight, whatever a card says.
#[test]
fn many_push_ups_are_done_for_many() {
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: novice\nequipment: [pull-up-bar, resistance-band]\n{}\
         exercises: {{must: [push-up]}}\nknown_lifts: {{push-up: {{reps: 16, rir: 2}}}}\n",
        days([45; 3])
    ));
    let most = items(&plan)
        .filter(|(_, item)| item.exercise == "push-up")
        .filter_map(|(_, item)| item.reps.as_ref()?.first().copied())
        .max();
    assert!(most.is_some_and(|reps| (13..=15).contains(&reps)), "{most:?}");
}

/// Sprints are work for the backs of the thighs: more for them is no hinge on each day around it.
#[test]
fn a_sprinter_hinges_once_or_twice() {
    let plan = plan(&format!(
        "goal: power\ntraining_status: novice\nbirth_year: 2000\nequipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, \
         medicine-ball, low-box, resistance-band, band-anchor]\n{}emphasis: {{hamstrings: more}}\n\
         known_lifts: {{back-squat: {{load: 35, reps: 8, rir: 3}}}}\n\
         other_training: [{{day: tue, load: hard, muscles: [glutes, hamstrings, quads, calves]}}]\n",
        days([60, 55, 60])
    ));
    let hinges =
        items(&plan).filter(|(_, item)| item.exercise.contains("romanian-deadlift")).count();
    assert!((1..=2).contains(&hinges), "{hinges}");
}

/// Who is thrown on the mat pulls on the day that is free of it.
#[test]
fn no_heavy_pull_comes_again_after_a_night_of_pulling() {
    let sport = "other_training: [{day: tue, at: \"19:30\", load: hard, muscles: [lats, upper-back, biceps]}, \
                 {day: thu, at: \"19:30\", load: hard, muscles: [lats, upper-back, biceps]}]\n";
    let keys = "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench, pull-up-bar, dip-belt, dumbbells]\n\
                sessions: [{day: wed, at: \"18:00\", minutes: 60}, {day: fri, at: \"18:00\", minutes: 60}, {day: sun, at: \"10:00\", minutes: 75}]\n\
                known_lifts: {back-squat: {load: 115, reps: 5, rir: 2}, bench-press: {load: 85, reps: 5, rir: 2}, deadlift: {load: 150, reps: 4, rir: 2}}\n";
    let pulls = |plan: &Plan| -> Vec<usize> {
        let pull =
            |id: &str| id.contains("row") || id.contains("pull-up") || id.contains("chin-up");
        items(plan).filter(|(_, item)| pull(&item.exercise)).map(|(day, _)| day).collect()
    };
    let tired = pulls(&plan(&format!("{keys}{sport}")));
    assert!(tired.contains(&2), "{tired:?}");
    assert!(tired.iter().filter(|day| **day < 2).count() < 2, "{tired:?}");
    let rested = pulls(&plan(keys));
    assert!(rested.iter().any(|day| *day < 2), "{rested:?}");
}

/// A thrower's bench has three sets between two days in the circle, and not two.
#[test]
fn between_hard_sport_a_lift_has_its_three_sets() {
    let plan = plan(
        "goal: power\ntraining_status: advanced\nequipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, medicine-ball, plyo-box]\n\
         sessions: [{day: mon, at: \"16:00\", minutes: 75}, {day: tue, at: \"16:00\", minutes: 60}, {day: thu, at: \"16:00\", minutes: 75}, {day: fri, at: \"16:00\", minutes: 50}]\n\
         known_lifts: {bench-press: {load: 140, reps: 3, rir: 1}, back-squat: {load: 180, reps: 3, rir: 1}}\n\
         other_training: [{day: wed, at: \"16:00\", load: hard, muscles: [chest, front-delts, triceps]}, \
         {day: sat, at: \"10:00\", load: hard, muscles: [chest, front-delts, triceps]}]\n",
    );
    let bench = items(&plan).filter(|(_, item)| item.exercise == "bench-press");
    let most = bench.map(|(_, item)| item.sets).max();
    assert!(most.is_some_and(|sets| sets >= 3), "{most:?}");
}

/// What a client of seventy insists on has three sets as well.
#[test]
fn what_is_asked_for_is_no_afterthought_of_who_begins_late() {
    let plan = plan(
        "goal: strength\ntraining_status: novice\nbirth_year: 1950\nstart: 2027-01-04\nlimits: [kneeling, supine, prone]\n\
         equipment: [dumbbells, resistance-band, band-anchor, low-box, chair]\n\
         sessions: [{day: mon, minutes: 45}, {day: thu, minutes: 45}]\nexercises: {must: [step-up]}\n",
    );
    let sets = items(&plan)
        .filter(|(_, item)| item.exercise == "step-up")
        .map(|(_, item)| item.sets)
        .max();
    assert_eq!(sets, Some(3));
}

/// Raises follow the lifts of the day, and the lift that leads comes before a heavier row.
#[test]
fn raises_follow_the_press_and_the_squat_comes_before_the_row() {
    let plan = plan(&format!(
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [dumbbells, bench, adjustable-bench, pull-up-bar, resistance-band]\n\
         emphasis: {{side-delts: more}}\n{}",
        days([60; 3])
    ));
    for session in &plan.sessions {
        let order: Vec<&str> = session
            .groups
            .iter()
            .flat_map(|group| &group.items)
            .map(|item| item.exercise.as_str())
            .collect();
        let alone = |id: &str| {
            session
                .groups
                .iter()
                .any(|group| group.items.len() == 1 && group.items[0].exercise == id)
        };
        let press = order.iter().position(|id| id.contains("overhead-press"));
        let raise = order.iter().position(|id| *id == "lateral-raise" && alone(id));
        if let (Some(press), Some(raise)) = (press, raise) {
            assert!(press < raise, "{order:?}");
        }
    }
}
