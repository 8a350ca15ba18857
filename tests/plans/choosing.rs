//! What a coach passes over among the exercises that a client could do. All of it is common practice.

use std::collections::BTreeSet;

use weekwright::inner::points;
use weekwright::planner::Options;

use crate::rules::check::PLANNER;

const SOMEONE: &str =
    "client: choice-01\nsessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n";

/// The ids that are left for a client.
fn left(keys: &str) -> BTreeSet<String> {
    let profile = serde_yaml::from_str(&format!("{SOMEONE}{keys}")).expect("a profile");
    let request = PLANNER.request(&profile, &Options::default());
    request.candidates.iter().map(|one| one.id.clone()).collect()
}

fn has(left: &BTreeSet<String>, ids: &[&str]) -> Vec<bool> {
    ids.iter().map(|id| left.contains(*id)).collect()
}

const HOME: &str = "goal: hypertrophy\ntraining_status: intermediate\n";

#[test]
fn a_load_comes_before_the_bodys_own_weight() {
    let bare =
        ["reverse-lunge", "supported-single-leg-squat", "single-leg-hinge-reach", "pike-push-up"];
    let without = left(&format!("{HOME}equipment: [chair]"));
    assert_eq!(has(&without, &bare), [false, true, true, true], "its harder form is at hand");
    let with = left(&format!("{HOME}equipment: [dumbbells, chair]"));
    assert_eq!(has(&with, &bare), [false; 4]);
    let named = format!("{HOME}equipment: [dumbbells]\nexercises: {{prefer: [pike-push-up]}}");
    assert_eq!(has(&left(&named), &bare), [false, false, false, true], "who names it has it");
}

#[test]
fn who_learns_keeps_the_first_steps() {
    let first = ["bodyweight-squat", "reverse-lunge", "split-squat"];
    let novice = "goal: general-fitness\ntraining_status: novice\nequipment: [chair]";
    assert_eq!(has(&left(novice), &first), [true; 3]);
    assert_eq!(has(&left(&novice.replace("novice", "intermediate")), &first), [false; 3]);
}

#[test]
fn from_65_on_what_is_fast_is_thrown() {
    let fast = ["squat-jump", "vertical-jump", "ball-chest-throw"];
    let power =
        "goal: power\nequipment: [medicine-ball, dumbbells]\nbirth_year: 1955\nstart: 2027-01-04\n";
    let old = format!("{power}training_status: novice");
    assert_eq!(has(&left(&old), &fast), [false, false, true]);
    assert_eq!(has(&left(&old.replace("1955", "1995")), &fast), [true; 3]);
    assert_eq!(has(&left(&format!("{power}training_status: advanced")), &fast), [true; 3]);
}

const GYM: &str = "goal: hypertrophy\nequipment: [barbell, squat-rack, bench, dumbbells]\n";

#[test]
fn strong_legs_take_the_bar() {
    let in_hands = ["goblet-squat", "dumbbell-squat", "dumbbell-deadlift", "dumbbell-hip-thrust"];
    assert_eq!(has(&left(&format!("{GYM}training_status: intermediate")), &in_hands), [false; 4]);
    assert_eq!(has(&left(&format!("{GYM}training_status: novice")), &in_hands[..3]), [true; 3]);
    let once = "training_status: intermediate\n\
                other_training: [{day: sun, load: hard, muscles: [quads]}]";
    assert_eq!(has(&left(&format!("{GYM}{once}")), &in_hands), [false; 4], "days are left");
    let twice = once.replace("}]", "}, {day: wed, load: hard, muscles: [quads]}]");
    assert_eq!(has(&left(&format!("{GYM}{twice}")), &in_hands), [true; 4], "light work is left");
    let no_bar = "goal: hypertrophy\ntraining_status: intermediate\nequipment: [bench, dumbbells]";
    assert_eq!(has(&left(no_bar), &in_hands), [true; 4]);
}

#[test]
fn what_only_saves_kit_is_for_who_lacks_it() {
    let floor = ["dumbbell-floor-press", "barbell-floor-press", "kettlebell-floor-press"];
    let trained = "training_status: intermediate\n";
    assert_eq!(has(&left(&format!("{GYM}{trained}")), &floor), [false; 3]);
    let no_bench = "goal: hypertrophy\nequipment: [barbell, squat-rack, dumbbells]\n";
    assert_eq!(has(&left(&format!("{no_bench}{trained}")), &floor), [true; 3]);
}

#[test]
fn a_band_is_no_row_beside_dumbbells() {
    let rows = ["seated-band-row", "one-arm-row", "towel-door-row"];
    let home = "goal: general-fitness\ntraining_status: novice\n";
    let bands = left(&format!("{home}equipment: [resistance-band, chair]"));
    assert_eq!(has(&bands, &rows), [true, false, false], "a towel is no row beside a band");
    let weights = left(&format!("{home}equipment: [resistance-band, dumbbells, chair]"));
    assert_eq!(has(&weights, &rows), [false, true, false]);
}

#[test]
fn side_bends_are_behind_what_holds_the_trunk() {
    let trunk = ["weighted-side-bend", "seated-twist", "side-plank", "plank"];
    let home = "goal: general-fitness\ntraining_status: novice\nequipment: [dumbbells]";
    assert_eq!(has(&left(home), &trunk), [false, false, true, true]);
}

#[test]
fn a_swing_is_no_hinge_for_size() {
    let kit = "training_status: intermediate\nequipment: [kettlebell, barbell]\n";
    let swing = ["kettlebell-swing", "romanian-deadlift"];
    assert_eq!(has(&left(&format!("{kit}goal: hypertrophy")), &swing), [false, true]);
    assert_eq!(has(&left(&format!("{kit}goal: fat-loss")), &swing), [true, true]);
}

#[test]
fn a_loaded_first_step_comes_before_one_without_a_load() {
    let steps = ["bodyweight-squat", "incline-push-up", "leg-press"];
    let gym =
        "goal: endurance\ntraining_status: novice\nequipment: [leg-press, bench, dumbbells]\n";
    assert_eq!(has(&left(gym), &steps), [false, true, true]);
    let older = format!("{gym}birth_year: 1955\nstart: 2027-01-04");
    assert_eq!(has(&left(&older), &steps), [true; 3], "from 65 on both are first steps");
}

#[test]
fn one_kettlebell_is_no_hinge_beside_dumbbells() {
    let kit = "goal: endurance\nequipment: [kettlebell, dumbbells]\n";
    let hinges = ["kettlebell-deadlift", "dumbbell-romanian-deadlift"];
    assert_eq!(has(&left(&format!("{kit}training_status: intermediate")), &hinges), [false, true]);
    assert_eq!(has(&left(&format!("{kit}training_status: novice")), &hinges), [true, true]);
}

#[test]
fn arms_and_side_delts_take_a_weight_before_a_band() {
    let bands = ["band-lateral-raise", "band-curl", "lateral-raise"];
    let kit = "goal: hypertrophy\ntraining_status: intermediate\n";
    let both = left(&format!("{kit}equipment: [dumbbells, resistance-band]"));
    assert_eq!(has(&both, &bands), [false, false, true]);
    let alone = left(&format!("{kit}equipment: [resistance-band]"));
    assert_eq!(has(&alone, &bands), [true, true, false]);
}

#[test]
fn an_empty_bar_is_much_for_arms_that_are_new_to_it() {
    let arms = ["barbell-curl", "lying-triceps-extension", "biceps-curl"];
    let kit = "goal: hypertrophy\nequipment: [barbell, bench, dumbbells]\n";
    let of = |who: &str| has(&left(&format!("{kit}{who}")), &arms);
    assert_eq!(of("training_status: novice"), [false, false, true]);
    assert_eq!(of("training_status: intermediate\nsex: female"), [false, false, true]);
    assert_eq!(of("training_status: intermediate\nsex: male"), [true; 3]);
    assert_eq!(of("training_status: advanced\nsex: female"), [true; 3]);
}

#[test]
fn a_pull_up_of_unknown_number_waits_for_a_form_in_steps() {
    let pulls = ["pull-up", "band-assisted-pull-up", "lat-pulldown"];
    let kit = "goal: hypertrophy\ntraining_status: intermediate\nequipment: [pull-up-bar, resistance-band]\n";
    let of = |keys: &str| has(&left(&format!("{kit}{keys}")), &pulls);
    assert_eq!(of("sex: male"), [true, false, false]);
    assert_eq!(of("sex: female"), [false, true, false]);
    let known = "sex: female\nknown_lifts: {pull-up: {load: 0, reps: 8, rir: 1}}";
    assert!(of(known)[0], "her number is known");
    let lasts = "sex: male\ntraining_status: intermediate\ngoal: endurance\n\
                 equipment: [pull-up-bar, lat-pulldown]";
    assert_eq!(has(&left(lasts), &pulls), [false, false, true]);
}

#[test]
fn the_belt_is_for_who_has_been_strong_for_years() {
    let pulls = ["pull-up", "weighted-pull-up"];
    let kit = "goal: strength\nequipment: [pull-up-bar, dip-belt, weight-plate]\n";
    let of = |keys: &str| has(&left(&format!("{kit}{keys}")), &pulls);
    assert_eq!(of("training_status: advanced\nsex: male"), [false, true]);
    assert_eq!(of("training_status: advanced\nsex: female"), [true, false]);
}

#[test]
fn a_bar_for_the_legs_is_not_learned_from_65_on() {
    let legs = ["back-squat", "deadlift", "goblet-squat", "goblet-box-squat"];
    let kit = "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n\
               equipment: [barbell, squat-rack, bench, dumbbells]\n";
    let of = |year: u32| has(&left(&format!("{kit}birth_year: {year}")), &legs);
    assert_eq!(of(1990), [true, true, true, false], "a seat is for older or limited knees");
    assert_eq!(of(1955), [false, false, false, true], "who begins from 65 on sits down to a seat");
    let never = format!("{kit}exercises: {{never: [goblet-squat]}}");
    assert_eq!(has(&left(&never), &legs), [true, true, false, false], "to a seat it is the same");
}

#[test]
fn who_begins_light_hinges_from_the_top_and_presses_in_steps() {
    let lifts = ["deadlift", "romanian-deadlift", "overhead-press", "dumbbell-overhead-press"];
    let kit = "goal: strength\ntraining_status: novice\n\
               equipment: [barbell, squat-rack, bench, dumbbells]\n";
    let of = |sex: &str| has(&left(&format!("{kit}sex: {sex}")), &lifts);
    assert_eq!(of("male"), [true; 4]);
    assert_eq!(of("female"), [false, true, false, true], "small plates start the bar too low");
    let known = format!("{kit}sex: female\nknown_lifts: {{deadlift: {{load: 60, reps: 5}}}}");
    assert!(has(&left(&known), &lifts)[0], "she has done it");
}

#[test]
fn from_65_on_a_beginner_stands_steadily_and_stays_up() {
    let lifts =
        ["goblet-reverse-lunge", "goblet-split-squat", "dumbbell-split-squat", "prone-pulldown"];
    let kit = "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n\
               equipment: [dumbbells, bench, resistance-band, band-anchor]\n";
    let of = |year: u32| has(&left(&format!("{kit}birth_year: {year}")), &lifts);
    let young = of(1990);
    assert!(young[0] && young[1] && young[2], "{young:?}");
    assert_eq!(of(1957), [false; 4], "a support or a step, and no weights yet");
    let holds = ["supported-split-squat", "kneeling-side-plank", "side-plank"];
    let older = left(&format!("{kit}birth_year: 1957"));
    assert_eq!(has(&older, &holds), [true, true, false], "the easier form of a hold");
    let kneeling = format!("{kit}birth_year: 1990\nlimits: [kneeling]");
    assert!(!has(&left(&kneeling), &lifts)[3], "down and up again without kneeling");
}

#[test]
fn a_go_to_comes_before_its_like() {
    let keys = "goal: hypertrophy\ntraining_status: intermediate\nequipment: [cable-station, dumbbells, bench]\n";
    let profile = serde_yaml::from_str(&format!("{SOMEONE}{keys}")).expect("a profile");
    let request = PLANNER.request(&profile, &Options::default());
    let worths = weekwright::inner::worths(&request);
    let of = |id: &str| {
        worths[request.candidates.iter().position(|one| one.id == id).expect("it is left")]
    };
    let first = of("triceps-pressdown");
    assert_eq!(of("cable-overhead-triceps-extension") - first, points::SECOND_CHOICE);
    assert_eq!(of("lateral-raise"), first, "of different work none is second to another");
}

#[test]
fn what_a_limit_allows_lightly_is_done_sparingly() {
    let keys =
        "goal: hypertrophy\ntraining_status: novice\nequipment: [dumbbells, bench, leg-press]\n";
    let worth = |limits: &str| {
        let text = format!("{SOMEONE}{keys}limits: {limits}");
        let profile = serde_yaml::from_str(&text).expect("a profile");
        let request = PLANNER.request(&profile, &Options::default());
        let worths = weekwright::inner::worths(&request);
        let place =
            request.candidates.iter().position(|one| one.id == "dumbbell-romanian-deadlift");
        worths[place.expect("its light form may stay")]
    };
    let light = "[{tag: spinal-shear, allow: light}]";
    assert_eq!(worth(light) - worth("[]"), points::SPARINGLY);
}
