//! Loads, reserves and the way up to them, as a coach writes them. Common practice.

use itertools::Itertools as _;
use weekwright::input::plan::{Item, Session};
use weekwright::words::{Turn, WeekKind};

use super::shape::{items, plan};

/// The first item of an exercise.
fn found<'a>(all: impl Iterator<Item = (usize, &'a Item)>, id: &str) -> &'a Item {
    let mut of_it = all.map(|(_, item)| item).filter(|item| item.exercise == id);
    of_it.next().unwrap_or_else(|| panic!("{id} comes"))
}

fn ramp(item: &Item) -> Vec<(f64, u32)> {
    item.ramp.iter().filter_map(|step| Some((step.load_kg?, step.reps))).collect()
}

#[test]
fn every_known_bar_of_a_day_is_led_up_to() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench, dumbbells]\n\
         sessions: [{day: sat, minutes: 90}]\nexercises: {must: [bench-press, deadlift, back-squat]}\n\
         known_lifts: {back-squat: {load: 120, reps: 5, rir: 2}, bench-press: {load: 80, reps: 5, rir: 2}, \
         deadlift: {load: 140, reps: 5, rir: 2}}",
    );
    let mut steps = 0;
    for id in ["back-squat", "bench-press", "deadlift"] {
        let item = found(items(&plan), id);
        assert!(item.ramp.len() >= 2, "{id}: {:?}", item.ramp);
        steps += item.ramp.len();
    }
    assert!(steps <= 8, "{steps} steps are nine minutes");
}

#[test]
fn a_belt_is_led_up_to_by_the_body_alone() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\nbody_mass_kg: 80\n\
         equipment: [barbell, squat-rack, bench, pull-up-bar, dip-belt, weight-plate]\n\
         sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\nexercises: {must: [weighted-pull-up]}\n\
         known_lifts: {weighted-pull-up: {load: 20, reps: 5, rir: 2}}",
    );
    let pull_up = found(items(&plan), "weighted-pull-up");
    assert_eq!(ramp(pull_up)[0], (0.0, 4), "{pull_up:?}");
    assert!(plan.sessions.iter().all(|session| {
        session.minutes.as_ref().is_some_and(|used| used.planned_s <= used.limit * 60)
    }));
}

#[test]
fn the_lighter_day_of_a_heavy_lift_still_builds() {
    let plan = plan(
        "goal: strength\ntraining_status: advanced\nsex: female\nbody_mass_kg: 66\n\
         equipment: [barbell, squat-rack, bench, dumbbells]\n\
         sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: fri, minutes: 60}]\n\
         known_lifts: {back-squat: {load: 95, reps: 5, rir: 1}, bench-press: {load: 52.5, reps: 5, rir: 1}, \
         deadlift: {load: 120, reps: 3, rir: 1}}",
    );
    let mut lighter = items(&plan)
        .filter(|(_, item)| item.turn == Some(Turn::Lighter) && item.load_kg.is_some())
        .peekable();
    assert!(lighter.peek().is_some(), "a lift comes twice");
    // Behind the deadlift a squat leaves one more.
    let pulls =
        |day: usize| items(&plan).any(|(other, item)| other == day && item.exercise == "deadlift");
    for (day, item) in lighter {
        let most = 3 + u32::from(item.exercise == "back-squat" && pulls(day));
        let (load, rir) = (item.load_kg, item.rir);
        assert!(rir <= Some(most), "{} at {load:?} leaves {rir:?}", item.exercise);
    }
}

#[test]
fn a_known_press_after_another_is_not_told_at_its_fresh_best() {
    let known = "known_lifts: {bench-press: {load: 100, reps: 6, rir: 2}, overhead-press: {load: 60, reps: 6, rir: 2}}";
    let keys = format!(
        "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench]\n\
         sessions: [{{day: sat, minutes: 75}}]\nexercises: {{must: [bench-press, overhead-press]}}\n{known}"
    );
    let plan = plan(&keys);
    let day: Vec<&Item> = items(&plan).map(|(_, item)| item).collect();
    let place = |id: &str| day.iter().position(|item| item.exercise == id).expect("it comes");
    let [first, second] = if place("bench-press") < place("overhead-press") {
        [("bench-press", 100.0), ("overhead-press", 60.0)]
    } else {
        [("overhead-press", 60.0), ("bench-press", 100.0)]
    };
    // The most for one by eight in all (Brzycki), and what five with two left are of it (RM-22: 83 %).
    let fresh = |kg: f64| kg * 36.0 / 29.0 * 0.83;
    let of = |id: &str| day[place(id)];
    let share = |(id, kg): (&str, f64)| of(id).load_kg.unwrap_or(0.0) / fresh(kg);
    assert!(of(first.0).sets >= 3, "the first is done for three sets and more");
    assert!(share(second) < share(first), "{:?} {:?}", of(first.0), of(second.0));
    assert_eq!(of(first.0).rir, of(second.0).rir, "the reserve is told as before");
}

/// Common practice: fewer repetitions are for more load. Where the bar's next step is too far, last week's stay.
#[test]
fn repetitions_do_not_fall_at_the_same_load() {
    let plan = plan(
        "goal: strength\ntraining_status: advanced\nsex: female\nbody_mass_kg: 62\nweeks: 8\n\
         equipment: [barbell, squat-rack, bench, dumbbells]\n\
         sessions: [{day: mon, minutes: 75}, {day: wed, minutes: 75}, {day: fri, minutes: 75}]\n\
         known_lifts: {back-squat: {load: 90, reps: 5, rir: 2}, bench-press: {load: 50, reps: 5, rir: 2}, \
         deadlift: {load: 115, reps: 5, rir: 2}, overhead-press: {load: 35, reps: 5, rir: 2}}",
    );
    let mut same = 0;
    for (last, week) in plan.weeks.iter().tuple_windows() {
        if last.kind != WeekKind::Build || week.kind != WeekKind::Build {
            continue;
        }
        for (before, now) in last.sessions.iter().zip(&week.sessions) {
            let of = |session: &Session| -> Vec<Item> {
                session.groups.iter().flat_map(|group| group.items.clone()).collect()
            };
            for item in of(now) {
                let lasts = of(before);
                let Some(then) = lasts.iter().find(|one| one.exercise == item.exercise) else {
                    continue;
                };
                if item.load_kg.is_some() && item.load_kg == then.load_kg {
                    same += 1;
                    assert!(item.reps >= then.reps, "{} in week {}", item.exercise, week.week);
                }
            }
        }
    }
    assert!(same > 0, "some step of the bar is too far for a week");
}

/// What is known for elevens is told for fifteens as well.
#[test]
fn a_known_raise_has_its_load_for_more_repetitions() {
    let plan = plan(
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [calf-raise-machine, leg-press, dumbbells]\nweeks: 3\n\
         exercises: {must: [machine-calf-raise]}\nknown_lifts: {machine-calf-raise: {load: 120, reps: 11, rir: 1}}\n\
         sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n",
    );
    for week in &plan.weeks {
        let items = week.sessions.iter().flat_map(|one| &one.groups).flat_map(|group| &group.items);
        for raise in items.filter(|item| item.exercise == "machine-calf-raise") {
            let load = raise.load_kg.expect("a load");
            assert!((95.0..=120.0).contains(&load), "{load}");
        }
    }
}

/// Eight with four left are nine with three: the block goes on from what is known. From 65 on it waits.
#[test]
fn what_left_much_is_done_for_more() {
    let reserve = |year: u32| {
        let plan = plan(&format!(
            "goal: strength\ntraining_status: novice\nbirth_year: {year}\nstart: 2027-01-04\nequipment: [dumbbells, bench, lat-pulldown]\n\
             sessions: [{{day: tue, minutes: 60}}, {{day: fri, minutes: 60}}]\nexercises: {{must: [goblet-squat]}}\n\
             known_lifts: {{goblet-squat: {{load: 12, reps: 8, rir: 4}}}}\n"
        ));
        let squats = items(&plan).filter(|(_, item)| item.exercise == "goblet-squat");
        squats.filter_map(|(_, item)| item.rir).min()
    };
    assert_eq!([reserve(1990), reserve(1955)], [Some(3), Some(4)]);
}

/// What the first two lifts move is rehearsed.
#[test]
fn the_first_lifts_of_a_day_are_rehearsed() {
    let plan = plan(
        "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, dumbbells, bench]\n\
         sessions: [{day: mon, minutes: 90}]\nexercises: {must: [back-squat, romanian-deadlift]}\n\
         known_lifts: {back-squat: {load: 100, reps: 5, rir: 2}}\n",
    );
    let all = plan.sessions[0].groups.iter().flat_map(|group| &group.items);
    let ids: Vec<&str> = all.map(|item| item.exercise.as_str()).collect();
    let of = |lift: &str| match lift {
        "back-squat" => "squat-prep",
        "bench-press" => "incline-push-up-prep",
        "romanian-deadlift" => "hinge-prep",
        other => panic!("{other} leads"),
    };
    let lifts = ids.iter().filter(|id| !id.ends_with("-prep") && PREPARED.contains(id));
    for lift in lifts.take(2) {
        assert!(ids.contains(&of(lift)), "{ids:?}");
    }
}

const PREPARED: [&str; 3] = ["back-squat", "bench-press", "romanian-deadlift"];
