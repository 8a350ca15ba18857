//! How work is spread over the days and pairs of a week. Common practice.

use weekwright::input::catalog::Entry;
use weekwright::input::plan::Plan;
use weekwright::words::{GroupKind, Pattern, Side};

use super::shape::{items, plan};
use super::wishes::places;
use crate::rules::check::PLANNER;

const KIT: &str = "equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, resistance-band, cable-station, lat-pulldown]\n";

fn days(days: &[&str], minutes: u32) -> String {
    let days = days.iter().map(|day| format!("{{day: {day}, minutes: {minutes}}}"));
    format!("sessions: [{}]\n", days.collect::<Vec<_>>().join(", "))
}

/// How often an exercise of a kind comes on a day, or in the week.
fn count(plan: &Plan, day: Option<usize>, is: impl Fn(&Entry) -> bool) -> usize {
    let here = |at: usize| day.is_none_or(|day| day == at);
    let entry = |id: &str| PLANNER.catalog().get(id).unwrap();
    items(plan).filter(|(at, item)| here(*at) && is(entry(&item.exercise))).count()
}

/// A heavy squat and a heavy pull off the floor each open a day of their own.
#[test]
fn a_squat_and_a_deadlift_that_are_asked_for_open_two_days() {
    let plan = plan(&format!(
        "goal: strength\ntraining_status: intermediate\n{KIT}{}\
         exercises: {{must: [back-squat, bench-press, deadlift]}}\n\
         known_lifts: {{back-squat: {{load: 120, reps: 5}}, deadlift: {{load: 140, reps: 5}}}}\n",
        days(&["mon", "tue", "thu", "fri"], 75),
    ));
    let first = |id: &str| places(&plan, id).into_iter().find(|(_, place)| *place == 0);
    let [squat, pull] = ["back-squat", "deadlift"].map(first);
    assert!(squat.is_some() && pull.is_some(), "{squat:?} {pull:?}");
}

/// Of two days that take legs none has three lifts for them.
#[test]
fn legs_have_two_lifts_a_day() {
    let plan = plan(&format!(
        "goal: strength\ntraining_status: intermediate\n{KIT}{}",
        days(&["mon", "wed", "fri"], 75),
    ));
    for day in 0..3 {
        let legs =
            |entry: &Entry| entry.main && entry.pattern.and_then(Pattern::side) == Some(Side::Legs);
        assert!(count(&plan, Some(day), legs) <= 2, "day {day}");
    }
}

/// A day for the whole body has a push and a pull and no second ones while another day has them.
#[test]
fn a_whole_body_day_has_one_push_and_one_pull() {
    let plan = plan(&format!(
        "goal: general-fitness\ntraining_status: intermediate\n{KIT}{}",
        days(&["mon", "wed", "fri"], 45),
    ));
    let of = |day: Option<usize>, side: Side| {
        count(&plan, day, |entry| entry.pattern.and_then(Pattern::press_or_row) == Some(side))
    };
    for day in (0..3).map(Some) {
        let [push, pull] = [Side::Push, Side::Pull].map(|side| of(day, side));
        assert!((1..=2).contains(&push) && (1..=2).contains(&pull), "{day:?}: {push} {pull}");
    }
    assert!(of(None, Side::Push) <= 4, "one a day, and one more at most");
}

/// A pair has two rounds or three, and as many sets of both.
#[test]
fn pairs_have_two_rounds_or_three() {
    let plan = plan(&format!(
        "goal: fat-loss\ntraining_status: intermediate\nsupersets: prefer\n{KIT}{}",
        days(&["mon", "tue", "thu", "fri"], 35),
    ));
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let pairs = groups.filter(|group| group.is_work() && group.kind != GroupKind::Single);
    let rounds: Vec<u32> = pairs
        .map(|group| {
            assert!(group.items.iter().all(|item| item.sets == group.items[0].sets));
            group.items[0].sets
        })
        .collect();
    assert!(rounds.contains(&2) && rounds.contains(&3), "{rounds:?}");
}

/// Where nothing is heavy, what is liked opens a day, be it no main lift.
#[test]
fn a_swing_that_is_liked_opens_a_day() {
    let plan = plan(&format!(
        "goal: fat-loss\ntraining_status: intermediate\nequipment: {{kettlebell: {{masses_kg: [16, 20]}}, resistance-band: 1, band-anchor: 1}}\n{}\
         exercises: {{prefer: [kettlebell-swing]}}\n",
        days(&["mon", "wed", "fri"], 30),
    ));
    assert!(places(&plan, "kettlebell-swing").iter().any(|(_, place)| *place == 0));
}

/// From 65 on lunges have two sets, and nothing hangs from a stretched band.
#[test]
fn from_65_on_knees_and_arms_are_spared() {
    let plan = plan(&format!(
        "goal: general-fitness\ntraining_status: intermediate\nbirth_year: 1955\n{KIT}{}",
        days(&["mon", "thu"], 50),
    ));
    for (_, item) in items(&plan) {
        let entry = PLANNER.catalog().get(&item.exercise).unwrap();
        assert!(entry.pattern != Some(Pattern::Lunge) || item.sets <= 2, "{}", item.exercise);
        assert_ne!(item.exercise, "band-assisted-pull-up");
    }
}

/// Who begins late gets up from a seat first, whatever the day.
#[test]
fn each_day_of_who_begins_late_opens_with_a_squat_to_a_seat() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1953\nstart: 2027-01-04\n\
         equipment: [dumbbells, chair, resistance-band, band-anchor]\n\
         sessions: [{day: tue, minutes: 40}, {day: fri, minutes: 40}]\n",
    );
    for day in 0..2 {
        let first = items(&plan).find(|(other, _)| *other == day).expect("it has work").1;
        let entry = PLANNER.catalog().get(&first.exercise).unwrap();
        assert_eq!(entry.pattern, Some(Pattern::Squat), "{}", first.exercise);
    }
}

/// A row that is liked follows the legs on a day for the whole body.
#[test]
fn a_liked_row_does_not_open_a_day_for_everything() {
    let plan = plan(
        "goal: endurance\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 65\n\
         equipment: [barbell, squat-rack, bench, dumbbells]\nexercises: {prefer: [one-arm-row]}\n\
         known_lifts: {back-squat: {load: 60, reps: 6}, deadlift: {load: 80, reps: 5}}\n\
         sessions: [{day: tue, minutes: 60}]\n",
    );
    let first = items(&plan).next().expect("it has work").1;
    let entry = PLANNER.catalog().get(&first.exercise).unwrap();
    assert_ne!(entry.pattern, Some(Pattern::HorizontalPull), "{}", first.exercise);
}

/// Between a squat and a pull with the bar on the only day of a week stands a press, be it with dumbbells.
#[test]
fn a_press_with_dumbbells_stands_between_squat_and_pull_on_the_only_day() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\nsex: male\nbody_mass_kg: 85\n\
         equipment: [barbell, squat-rack, bench, dumbbells, resistance-band]\n\
         exercises: {must: [deadlift], never: [bench-press]}\n\
         known_lifts: {back-squat: {load: 110, reps: 5, rir: 2}, deadlift: {load: 140, reps: 4, rir: 2}, \
         dumbbell-bench-press: {load: 30, reps: 8, rir: 2}}\n\
         sessions: [{day: wed, minutes: 85}]\n",
    );
    let [pull, squat, press] =
        ["deadlift", "back-squat", "dumbbell-bench-press"].map(|id| places(&plan, id)[0].1);
    assert!(press > pull.min(squat) && press < pull.max(squat), "{pull} {press} {squat}");
}

/// Where nothing is heavy a squat or pull that is liked opens the day, whatever its repetitions.
#[test]
fn a_liked_pull_opens_the_day_where_nothing_is_heavy() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: intermediate\nsex: female\nbody_mass_kg: 65\n\
         equipment: [barbell, squat-rack, bench, dumbbells, resistance-band]\nexercises: {prefer: [deadlift]}\n\
         known_lifts: {back-squat: {load: 55, reps: 6, rir: 2}, deadlift: {load: 70, reps: 5, rir: 2}}\n\
         sessions: [{day: sat, minutes: 75}]\n",
    );
    assert_eq!(places(&plan, "deadlift"), [(0, 0)]);
}

/// Twenty minutes left of seventy hold another exercise: the day of the pull has small work for the legs as well.
#[test]
fn a_long_day_is_not_left_idle() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\nsex: male\nbody_mass_kg: 82\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, rings, resistance-band, band-anchor, plyo-box, chair]\n\
         sessions: [{day: mon, at: \"07:00\", minutes: 70}, {day: tue, at: \"18:30\", minutes: 60}, {day: thu, at: \"07:00\", minutes: 70}, \
         {day: fri, at: \"18:30\", minutes: 60}]\n\
         known_lifts: {back-squat: {load: 100, reps: 5, rir: 1}, bench-press: {load: 75, reps: 5, rir: 1}, \
         deadlift: {load: 130, reps: 4, rir: 2, cap: 140}}\n",
    );
    for session in &plan.sessions {
        let minutes = session.minutes.as_ref().unwrap();
        assert!(
            minutes.planned_s * 100 >= minutes.limit * 60 * 80,
            "{} {}",
            session.day,
            minutes.planned
        );
    }
}
