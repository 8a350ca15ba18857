//! Which form of an exercise suits a client. All of it is common practice.

use weekwright::inner::points;

use super::choosing::{left, request, worth};

#[test]
fn older_beginners_press_from_the_wall() {
    let of = left(
        ["wall-push-up", "calf-raise", "incline-push-up"],
        "goal: general-fitness\nequipment: [resistance-band, band-anchor, chair]\nstart: 2027-01-04\n",
    );
    assert_eq!(of("training_status: novice\nbirth_year: 1955"), [true, true, true]);
    assert!(!of("training_status: novice\nbirth_year: 1990")[0]);
    assert_eq!(of("training_status: intermediate\nbirth_year: 1955")[..2], [false, false]);
}

#[test]
fn a_touchy_back_has_no_weights_hanging_from_it() {
    let hinges = ["dumbbell-romanian-deadlift", "romanian-deadlift", "cable-pull-through"];
    let keys = "goal: hypertrophy\ntraining_status: advanced\n\
                equipment: [dumbbells, bench, barbell, squat-rack, cable-station, leg-press]\n";
    let of = left(hinges, keys);
    assert!(!of("limits: [{tag: spinal-compression, allow: light}]")[0]);
    assert!(of("limits: [{tag: spinal-compression, allow: light}]")[2]);
    assert_eq!(of("")[..2], [true, true]);
    let of = left(["dumbbell-row", "barbell-row", "one-arm-cable-row"], keys);
    assert_eq!(of("limits: [{tag: spinal-compression, allow: light}]"), [false, false, true]);
    assert!(of("")[1]);
}

#[test]
fn who_cleans_a_bar_learns_no_kettlebell_clean() {
    let cleans = ["hang-power-clean", "kettlebell-clean", "kettlebell-snatch"];
    let keys =
        "goal: power\ntraining_status: advanced\nequipment: [barbell, squat-rack, kettlebell]\n";
    let of = left(cleans, keys);
    let known = "known_lifts: {hang-power-clean: {load: 50, reps: 3, rir: 2}}";
    assert_eq!(of(known), [true, false, false]);
    assert_eq!(of("exercises: {must: [hang-power-clean]}"), [true, false, false]);
    assert_eq!(of(""), [true; 3]);
}

#[test]
fn a_plank_with_a_long_lever_is_a_plank() {
    let forms = ["plank", "long-lever-plank", "side-plank"];
    let of = left(forms, "goal: general-fitness\ntraining_status: intermediate\n");
    assert_eq!(of("exercises: {never: [plank]}"), [false, false, true]);
    let keys = "goal: general-fitness\ntraining_status: intermediate\n";
    let open = worth(&request(keys), "long-lever-plank");
    let avoided =
        worth(&request(&format!("{keys}exercises: {{avoid: [plank]}}")), "long-lever-plank");
    assert!(avoided < open - 20.0, "{avoided} beside {open}");
}

#[test]
fn past_the_first_steps_a_hinge_has_a_load() {
    let of = left(
        ["single-leg-hinge-reach", "cable-pull-through"],
        "goal: hypertrophy\nlimits: [spinal-shear]\nequipment: [cable-station]\n",
    );
    assert_eq!(
        of("training_status: intermediate"),
        [true, false],
        "the cable bends the back as well"
    );
    let of = left(
        ["single-leg-hinge-reach", "dumbbell-hip-thrust"],
        "goal: hypertrophy\nlimits: [spinal-shear]\nequipment: [dumbbells, bench]\n",
    );
    assert_eq!(of("training_status: intermediate"), [false, true]);
}

#[test]
fn who_never_bench_presses_does_not_with_dumbbells() {
    let of = left(
        ["bench-press", "dumbbell-bench-press", "push-up", "dumbbell-romanian-deadlift"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [barbell, squat-rack, bench, dumbbells]\n",
    );
    assert_eq!(of("exercises: {never: [bench-press, deadlift]}")[..2], [false, false]);
    assert_eq!(
        of("exercises: {never: [bench-press, deadlift]}")[3..],
        [true],
        "it is no deadlift from the floor"
    );
    let named = "exercises: {never: [bench-press], prefer: [dumbbell-bench-press]}";
    assert_eq!(of(named)[..2], [false, true], "unless it is named");
}

#[test]
fn who_avoids_the_plank_avoids_the_one_on_the_side() {
    let keys = "goal: general-fitness\ntraining_status: intermediate\n";
    let open = worth(&request(keys), "side-plank");
    let avoided = worth(&request(&format!("{keys}exercises: {{avoid: [plank]}}")), "side-plank");
    assert!(avoided < open - 20.0, "{avoided} beside {open}");
}

#[test]
fn few_press_themselves_up_head_down() {
    let of = left(
        ["pike-push-up", "band-overhead-press"],
        "goal: endurance\ntraining_status: intermediate\nequipment: [resistance-band, chair]\n",
    );
    assert_eq!(of("sex: female"), [false, true]);
    assert_eq!(of("sex: male")[..1], [true]);
}

#[test]
fn nothing_is_held_over_the_face_from_65_on() {
    let of = left(
        ["weighted-dead-bug", "dead-bug-heel-tap"],
        "goal: general-fitness\nequipment: [kettlebell, chair]\nstart: 2027-01-04\ntraining_status: novice\n",
    );
    assert_eq!(of("birth_year: 1954"), [false, true]);
    assert_eq!(of("birth_year: 1990"), [true, true]);
}

#[test]
fn a_side_lunge_bends_the_knee() {
    let of = left(
        ["side-lunge", "lateral-step-up"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [low-box]\n\
         exercises: {prefer: [side-lunge, lateral-step-up]}\n",
    );
    assert_eq!(of("limits: [deep-knee-flexion]"), [false, false]);
    assert_eq!(of("limits: [{tag: deep-knee-flexion, allow: light}]"), [true, true]);
}

#[test]
fn who_must_not_kneel_presses_standing_or_sitting() {
    let of = left(
        ["dumbbell-floor-press", "band-chest-press"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [dumbbells, resistance-band, band-anchor]\n",
    );
    assert_eq!(of("limits: [kneeling]"), [false, true]);
    assert_eq!(of("")[..1], [true]);
}

#[test]
fn from_65_on_a_beginner_rows_with_a_support() {
    let of = left(
        ["dumbbell-row", "one-arm-row"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [dumbbells, bench]\nstart: 2027-01-04\n",
    );
    assert_eq!(of("birth_year: 1952"), [false, true]);
    assert_eq!(of("birth_year: 1992"), [true, true]);
}

#[test]
fn who_has_long_sat_learns_with_a_seat_and_a_support() {
    let of = left(
        ["goblet-squat", "goblet-box-squat", "goblet-reverse-lunge", "supported-split-squat"],
        "goal: fat-loss\ntraining_status: novice\nequipment: [kettlebell, chair]\n",
    );
    assert_eq!(of("screening: {active: false}"), [false, true, false, true]);
    assert_eq!(of("screening: {active: true}"), [true, false, true, true]);
}

#[test]
fn a_dip_after_the_bench_is_no_set_of_five() {
    let keys = "goal: strength\ntraining_status: advanced\nsex: male\n\
        equipment: [barbell, squat-rack, bench, dip-bars, dip-belt, weight-plate]\n";
    let amount = |keys: &str| request(keys).candidate("weighted-dip").map(|one| one.amount);
    assert_eq!(amount(keys), Some(8));
    let no_bench = keys.replace("barbell, squat-rack, bench, ", "");
    assert_eq!(amount(&no_bench), Some(4), "then it is the press for strength");
}

#[test]
fn where_the_lightest_is_heavy_a_set_is_shorter() {
    let amount = |keys: &str| {
        let all = format!(
            "goal: fat-loss\ntraining_status: novice\nsex: female\nbody_mass_kg: 70\n{keys}"
        );
        request(&all).candidate("half-kneeling-one-arm-press").map(|one| one.amount)
    };
    assert_eq!(amount("equipment: {kettlebell: {masses_kg: [8, 12]}}"), Some(8));
    assert_eq!(amount("equipment: {dumbbells: {from_kg: 1, to_kg: 20, step_kg: 1}}"), Some(10));
}

#[test]
fn who_has_trained_for_a_while_holds_the_plank_on_the_toes() {
    let of = left(
        ["kneeling-plank", "plank"],
        "goal: strength\nequipment: [weight-plate, barbell, squat-rack]\n",
    );
    assert_eq!(of("training_status: intermediate"), [false, true]);
    assert!(of("training_status: novice")[0]);
}

#[test]
fn who_begins_late_without_weights_gets_up_from_a_chair() {
    let of = left(
        ["band-squat", "bodyweight-squat", "sit-to-stand"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [resistance-band, chair]\n",
    );
    assert_eq!(of("birth_year: 1952"), [false, false, true]);
    assert!(of("birth_year: 1992")[1]);
}

#[test]
fn where_nothing_pulls_down_the_straight_arms_do() {
    let of = left(
        ["band-straight-arm-pulldown"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [resistance-band, band-anchor]\n",
    );
    assert_eq!(of("limits: [kneeling]"), [true]);
    assert_eq!(of(""), [false]);
}

/// The second day of a lift for strength is another form of it; who begins does the lift itself again.
#[test]
fn the_second_day_of_a_lift_is_another_form_of_it() {
    let keys =
        "goal: strength\nequipment: [barbell, squat-rack, bench, dumbbells]\ntraining_status: ";
    let paused = |status: &str| {
        let request = request(&format!("{keys}{status}"));
        worth(&request, "paused-back-squat") - worth(&request, "back-squat")
    };
    assert_eq!(paused("intermediate"), 0.0);
    assert!(paused("intermediate") > points::AGAIN_HEAVY, "it comes before the same again");
    let trained = request(&format!("{keys}intermediate"));
    assert!(worth(&trained, "barbell-row") < worth(&trained, "one-arm-row"), "the back is spared");
}

#[test]
fn from_65_on_nothing_is_swung_and_the_whole_body_is_not_pulled_up() {
    let forms = ["kettlebell-swing", "pull-up", "kneeling-band-pulldown"];
    let keys = "goal: general-fitness\nstart: 2027-01-04\nsex: male\n\
                equipment: [kettlebell, pull-up-bar, lat-pulldown, resistance-band, band-anchor]\n";
    let of = left(forms, keys);
    assert_eq!(of("training_status: intermediate\nbirth_year: 1955")[..2], [false, false]);
    assert_eq!(of("training_status: intermediate\nbirth_year: 1985")[..2], [true, true]);
    assert!(of("training_status: advanced\nbirth_year: 1955")[0]);
}

#[test]
fn who_learns_presses_with_the_head_up() {
    let forms = ["incline-pike-push-up", "incline-push-up"];
    let of = left(forms, "goal: fat-loss\nequipment: [kettlebell, chair, bench]\n");
    assert_eq!(of("training_status: novice"), [false, true]);
}

#[test]
fn after_years_of_sitting_a_plank_is_held_from_the_knees_and_a_hinge_has_both_feet_down() {
    let forms = ["plank", "supported-single-leg-dumbbell-romanian-deadlift"];
    let of =
        left(forms, "goal: fat-loss\ntraining_status: novice\nequipment: [dumbbells, bench]\n");
    let rests = "screening: {active: false, disease: false, signs: false, intensity: moderate}";
    assert_eq!(of(rests), [false, false]);
    assert_eq!(of(""), [true, true]);
}

/// Common practice: for strength the pull off the floor comes first, but not beside one that the client knows already.
#[test]
fn who_pulls_with_the_trap_bar_needs_no_other_pull_off_the_floor() {
    let more = |known: &str| {
        let request = request(&format!(
            "goal: strength\ntraining_status: intermediate\nequipment: [barbell, trap-bar]\nknown_lifts: {known}"
        ));
        worth(&request, "deadlift")
    };
    let trap_bar = more("{trap-bar-deadlift: {load: 85, reps: 5, rir: 2}}");
    assert_eq!(more("{}") - trap_bar, points::DEADLIFT);
}
