//! Which forms fit what the client's body had better not do, and what the place has. All of it is common practice.

use super::choosing::left;

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
fn who_begins_late_leans_on_what_stands_firm() {
    let of = left(
        ["incline-push-up", "wall-push-up", "band-chest-press"],
        "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n",
    );
    let chair = "equipment: [chair, low-box, resistance-band, band-anchor]\n";
    let bench = "equipment: [bench, resistance-band, band-anchor]\n";
    assert_eq!(of(&format!("{chair}birth_year: 1950")), [false, true, true]);
    assert!(of(&format!("{bench}birth_year: 1950"))[0]);
    assert!(of(&format!("{chair}birth_year: 1990"))[0]);
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
