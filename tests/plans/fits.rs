//! Which forms fit what the client's body had better not do, and what the place has. All of it is common practice.

use weekwright::input::catalog::StressTag;
use weekwright::input::plan::Plan;
use weekwright::words::{GroupKind, Pattern, Stress};

use super::choosing::{left, request};
use super::shape::{items, plan};
use crate::rules::check::PLANNER;

const GYM: &str = "equipment: [barbell, squat-rack, bench, adjustable-bench, dumbbells, leg-press, landmine, chair]\n";

#[test]
fn a_back_that_carries_little_has_no_bar_on_it() {
    let keys = format!("goal: strength\ntraining_status: intermediate\n{GYM}");
    let of = left(
        ["landmine-squat", "overhead-press", "leg-press", "seated-dumbbell-overhead-press"],
        &keys,
    );
    assert_eq!(of("limits: [{tag: spinal-compression, allow: light}]"), [false, false, true, true]);
    assert_eq!(of("")[1..], [true; 3]);
    let liked =
        "limits: [{tag: spinal-compression, allow: light}]\nexercises: {prefer: [landmine-squat]}";
    assert!(of(liked)[0], "unless it is named");
    let keys = "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack]\n";
    let of = left(["overhead-press"], keys);
    assert_eq!(
        of("limits: [{tag: spinal-compression, allow: light}]"),
        [true],
        "there is no other"
    );
}

#[test]
fn knees_that_bend_little_have_no_weight_near_the_floor() {
    let of = left(
        ["goblet-reverse-lunge", "split-squat", "goblet-box-squat"],
        "goal: endurance\ntraining_status: intermediate\nequipment: [kettlebell, chair]\n",
    );
    assert_eq!(of("limits: [{tag: deep-knee-flexion, allow: light}]"), [false, true, true]);
    assert_eq!(of("")[..2], [true, false]);
}

#[test]
fn a_touchy_shoulder_holds_no_bar_in_front_of_the_neck() {
    let of = left(
        ["front-squat", "bench-press", "goblet-squat", "dumbbell-bench-press"],
        "goal: endurance\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench, dumbbells]\n",
    );
    let sore = "limits: [overhead, shoulder-extension-end-range]\nexercises: {avoid: [back-squat]}";
    assert_eq!(of(sore), [false, false, true, true]);
    assert_eq!(of("")[..3], [true, true, false]);
}

#[test]
fn what_is_avoided_passes_nothing_over() {
    let of = left(
        ["back-squat", "goblet-squat"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [barbell, squat-rack, dumbbells]\n\
         exercises: {never: [front-squat]}\n",
    );
    assert_eq!(of(""), [true, false]);
    let of = left(
        ["back-squat", "goblet-squat"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [barbell, squat-rack, dumbbells]\n\
         exercises: {never: [front-squat], avoid: [back-squat]}\n",
    );
    assert_eq!(of(""), [true, true]);
}

#[test]
fn who_must_not_bend_under_a_load_does_not_chop_down() {
    let of = left(
        ["band-chop", "cable-chop", "band-anti-rotation-press"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [resistance-band, band-anchor, cable-station]\n",
    );
    assert_eq!(of("limits: [loaded-spinal-flexion]"), [false, false, true]);
}

#[test]
fn from_65_on_who_must_not_kneel_pushes_the_hips_standing() {
    let of = left(
        ["dumbbell-hip-thrust", "dumbbell-romanian-deadlift"],
        "goal: fat-loss\ntraining_status: novice\nequipment: [dumbbells, bench]\nstart: 2027-01-04\nlimits: [kneeling]\n",
    );
    assert_eq!(of("birth_year: 1950"), [false, true]);
    assert_eq!(of("birth_year: 1990"), [true, true]);
}

#[test]
fn one_heavy_bell_is_no_press_for_who_is_light() {
    let keys = "goal: general-fitness\ntraining_status: novice\nsex: female\nbody_mass_kg: 60\n";
    let of = left(
        [
            "half-kneeling-one-arm-press",
            "overhead-triceps-extension",
            "band-overhead-press",
            "goblet-squat",
        ],
        keys,
    );
    let one = "equipment: {kettlebell: {masses_kg: [12]}, resistance-band: 1}";
    assert_eq!(of(one), [false, false, true, true]);
    let many = "equipment: {kettlebell: {masses_kg: [4, 6, 8, 12]}, resistance-band: 1}";
    assert_eq!(of(many)[..2], [true, true]);
    assert!(of("equipment: {kettlebell: {masses_kg: [12]}}")[0], "there is nothing lighter");
}

#[test]
fn a_wrist_that_hurts_holds_dumbbells_straight() {
    let of = left(
        ["chest-supported-row", "dumbbell-romanian-deadlift", "one-arm-row"],
        "goal: hypertrophy\ntraining_status: novice\nequipment: [dumbbells, adjustable-bench]\n",
    );
    let sore = "limits: [wrist-extension]\nscreening: {active: false, pain: [wrist]}";
    assert_eq!(of(sore), [true, true, false], "one hand leans on the bench");
}

#[test]
fn who_trains_to_last_and_who_learns_beside_the_boat_curls_nothing() {
    let of = left(
        ["biceps-curl", "hammer-curl", "overhead-triceps-extension"],
        "training_status: novice\nequipment: [dumbbells, bench]\n",
    );
    assert_eq!(of("goal: endurance"), [false; 3]);
    assert!(of("goal: endurance\nemphasis: {biceps: more}")[0]);
    assert!(of("goal: endurance\nexercises: {prefer: [hammer-curl]}")[1]);
    let rows = "other_training: [{day: sat, load: hard, muscles: [lats, quads]}]\n";
    assert_eq!(of(&format!("{rows}goal: strength"))[..2], [false, false]);
    assert!(of(&format!("{rows}goal: hypertrophy"))[0]);
    assert!(of("goal: strength")[0]);
}

#[test]
fn the_arm_is_turned_out_for_two_sets() {
    let keys = "goal: strength\ntraining_status: intermediate\nlimits: [overhead]\n\
                equipment: [resistance-band, band-anchor]\n";
    let sets = request(keys).candidate("band-external-rotation").map(|one| one.sets);
    assert_eq!(sets, Some([2, 2]));
}

fn pattern(id: &str) -> Option<Pattern> {
    PLANNER.catalog().get(id).and_then(|entry| entry.pattern)
}

/// The place of the first exercise of a pattern among the work of each day.
fn places(plan: &Plan, wanted: Pattern) -> Vec<Option<usize>> {
    let of_day = |day: usize| items(plan).filter(move |(other, _)| *other == day);
    let place = |day| of_day(day).position(|(_, item)| pattern(&item.exercise) == Some(wanted));
    (0..plan.sessions.len()).map(place).collect()
}

#[test]
fn the_week_of_who_begins_late_is_kind_to_back_and_balance() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1948\nsex: female\nstart: 2027-01-05\n\
         equipment: {dumbbells: {from_kg: 1, to_kg: 6, step_kg: 1}, chair: 1, low-box: 1, resistance-band: 2, band-anchor: 1}\n\
         sessions: [{day: tue, minutes: 35}, {day: fri, minutes: 35}]\n\
         limits: [supine, prone, kneeling]\nexercises: {must: [sit-to-stand]}\n",
    );
    let balance = places(&plan, Pattern::Balance);
    assert!(balance.iter().flatten().all(|place| *place <= 3), "{balance:?}");
    let loaded = |id: &str| id.contains("dumbbell") && pattern(id) == Some(Pattern::Hinge);
    let hinges = items(&plan).filter(|(_, item)| loaded(&item.exercise)).count();
    assert!(hinges <= 1, "{hinges} loaded hinges");
    let rises = items(&plan).any(|(_, item)| item.exercise == "sit-to-stand");
    assert!(rises);
    let calves = places(&plan, Pattern::PlantarFlexion);
    assert!(calves.iter().any(Option::is_some), "{calves:?}");
}

#[test]
fn a_liked_pull_comes_beside_hard_practice() {
    let plan = plan(
        "goal: power\ntraining_status: novice\nsex: male\nbody_mass_kg: 68\nbirth_year: 2009\nstart: 2027-01-11\n\
         equipment: [barbell, trap-bar, squat-rack, bench, dumbbells, medicine-ball, plyo-box, pull-up-bar, resistance-band, \
         band-anchor]\nsessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}]\nemphasis: {hamstrings: more}\n\
         exercises: {prefer: [trap-bar-deadlift]}\nother_training: [{day: tue, load: hard, muscles: [quads, hamstrings, \
         calves, adductors]}, {day: sat, at: \"14:00\", load: hard, muscles: [quads, hamstrings, glutes, calves]}]\n",
    );
    assert!(items(&plan).any(|(_, item)| item.exercise == "trap-bar-deadlift"));
}

/// Common practice: who rides hard two days before and after the one session squats and hinges in it all the same.
#[test]
fn one_day_among_hard_rides_has_its_squat_and_hinge() {
    let plan = plan(
        "goal: endurance\ntraining_status: intermediate\n\
         equipment: [barbell, squat-rack, safety-arms, bench, dumbbells, pull-up-bar, leg-curl-machine]\n\
         known_lifts: {back-squat: {load: 80, reps: 6, rir: 3}, romanian-deadlift: {load: 70, reps: 8, rir: 3}}\n\
         sessions: [{day: thu, at: \"18:30\", minutes: 75}]\n\
         other_training: [{day: tue, at: \"18:30\", load: hard, muscles: [quads, glutes]}, \
         {day: sat, at: \"09:00\", load: hard, muscles: [quads, glutes, hamstrings]}]\n",
    );
    let has = |pattern: Pattern| {
        items(&plan).any(|(_, item)| {
            PLANNER.catalog().get(&item.exercise).and_then(|entry| entry.pattern) == Some(pattern)
        })
    };
    assert!(has(Pattern::Squat) && has(Pattern::Hinge));
}

/// Common practice: who begins late rests longer rather than go home early.
#[test]
fn free_minutes_are_rest_for_older_beginners() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1948\nstart: 2027-01-05\n\
         equipment: [leg-press, chest-press-machine, seated-row-machine, cable-station, dumbbells, adjustable-bench, low-box]\n\
         limits: [impact, kneeling]\nsessions: [{day: tue, minutes: 50}, {day: fri, minutes: 50}]\n",
    );
    let rests = |day: &weekwright::input::plan::Session| {
        let lead = day.groups.iter().find(|group| group.is_work());
        lead.map_or(0, |group| group.items[0].rest_s)
    };
    for day in &plan.sessions {
        let used = day.minutes.as_ref().expect("timed");
        let full = used.planned_s * 100 >= used.limit * 60 * 84;
        assert!(full || rests(day) > 75, "{}: {} s", day.day, used.planned_s);
    }
}

/// Who must not kneel, and who is 65, gets ready on the feet.
#[test]
fn who_must_not_kneel_gets_ready_on_the_feet() {
    let plan = plan(
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1990\nstart: 2027-01-05\nlimits: [kneeling]\n\
         equipment: [dumbbells, bench, foam-roller, resistance-band]\n\
         sessions: [{day: tue, minutes: 50}, {day: fri, minutes: 50}]\n",
    );
    let prep = plan.sessions.iter().flat_map(|session| &session.groups);
    let prep = prep.filter(|group| group.kind == GroupKind::Prep).flat_map(|group| &group.items);
    for item in prep {
        let entry = PLANNER.catalog().get(&item.exercise).expect("it is in the catalog");
        let down = entry.stress.iter().flat_map(StressTag::parts);
        let lies = |stress| matches!(stress, Stress::Prone | Stress::Supine | Stress::Kneeling);
        assert!(!down.into_iter().any(|(stress, _)| lies(stress)), "{}", item.exercise);
        assert!(!item.exercise.starts_with("roll-"), "{}", item.exercise);
    }
}

#[test]
fn in_pregnancy_no_row_presses_the_belly() {
    let of = left(
        ["machine-row", "chest-supported-row", "seated-cable-row"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [row-machine, seated-row-machine, dumbbells, adjustable-bench]\n",
    );
    assert_eq!(of(""), [true; 3]);
    assert_eq!(of("screening: {pregnant: true}\n"), [false, false, true]);
}

#[test]
fn a_neck_that_must_carry_nothing_has_no_bar_on_it() {
    let of = left(
        ["back-squat", "front-squat", "smith-machine-calf-raise"],
        "goal: strength\ntraining_status: intermediate\nequipment: [barbell, squat-rack, smith-machine]\n",
    );
    assert_eq!(of(""), [true; 3]);
    assert_eq!(of("limits: [neck-load]\n"), [false, true, false]);
}

/// Who answered to want moderate work has no hard bouts that nobody asked for.
#[test]
fn moderate_work_is_steady() {
    let hard = |wanted: &str, modes: &str| {
        let plan = plan(&format!(
            "goal: fat-loss\ntraining_status: intermediate\nequipment: [dumbbells, bench, stationary-bike]\n\
             sessions: [{{day: mon, minutes: 50}}, {{day: thu, minutes: 50}}]\nscreening: {{active: true, disease: false, signs: false, intensity: {wanted}}}\n\
             conditioning: {{from_week: 1, minutes: 10, modes: [{modes}]}}\n"
        ));
        let sessions = plan.weeks.iter().flat_map(|week| &week.sessions);
        let mut items = sessions.flat_map(|session| &session.groups).flat_map(|group| &group.items);
        items.any(|item| item.exercise == "stationary-bike-intervals")
    };
    assert!(hard("vigorous", "stationary-bike"));
    assert!(!hard("moderate", "stationary-bike"));
    assert!(hard("moderate", "stationary-bike-intervals"), "unless it is asked for by name");
}
