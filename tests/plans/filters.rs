//! What is left to choose from, by what the client wishes, can do and has to lift. Common practice.

use weekwright::words::{GroupKind, Stress};

use super::choosing::left;
use super::shape::plan;
use crate::rules::check::PLANNER;

#[test]
fn who_likes_one_pull_off_the_floor_does_no_other() {
    let of = left(
        ["deadlift", "trap-bar-deadlift", "romanian-deadlift"],
        "goal: power\ntraining_status: advanced\nequipment: [barbell, trap-bar, squat-rack]\n",
    );
    assert_eq!(of(""), [true; 3]);
    assert_eq!(of("exercises: {prefer: [trap-bar-deadlift]}"), [false, true, true]);
    assert_eq!(
        of("exercises: {must: [deadlift, trap-bar-deadlift]}"),
        [true; 3],
        "both are asked for"
    );
}

#[test]
fn a_leg_swung_back_is_no_thrust() {
    let of = left(
        ["cable-hip-kickback", "hip-thrust"],
        "goal: hypertrophy\ntraining_status: advanced\nemphasis: {glutes: more}\n",
    );
    assert_eq!(of("equipment: [cable-station, barbell, bench]"), [false, true]);
    assert!(of("equipment: [cable-station]\nexercises: {prefer: [cable-hip-kickback]}")[0]);
}

#[test]
fn in_pregnancy_the_trunk_is_not_stretched() {
    let of = left(
        ["ab-wheel-rollout", "cable-anti-rotation-press"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [ab-wheel, cable-station]\n",
    );
    assert_eq!(of(""), [true; 2]);
    assert_eq!(of("screening: {pregnant: true}\n"), [false, true]);
}

#[test]
fn who_has_trained_for_years_rows_a_load() {
    let kit = "goal: hypertrophy\nequipment: [barbell, squat-rack, seated-row-machine]\n";
    let of = |status: &str| {
        left(["inverted-row", "seated-cable-row"], &format!("{kit}training_status: {status}\n"))("")
    };
    assert_eq!([of("advanced"), of("intermediate")], [[false, true], [true, true]]);
}

/// A shoulder that must not be taken far back still lifts the arms to the side for size.
#[test]
fn raises_stay_where_only_the_end_of_the_range_is_spared() {
    let kit = "training_status: intermediate\nequipment: [dumbbells, bench]\n";
    let of = |goal: &str, limit: &str| {
        let keys = format!("{kit}goal: {goal}\nlimits: [{limit}]\n");
        left(["lateral-raise", "rear-raise"], &keys)("")[0]
    };
    assert!(of("hypertrophy", "shoulder-extension-end-range"));
    assert!(!of("hypertrophy", "overhead") && !of("strength", "shoulder-extension-end-range"));
}

/// Of a pull-up that goes three times no set of eight is made, nor one of twenty-five.
#[test]
fn what_goes_few_times_or_many_is_done_with_a_load() {
    let of = left(
        ["pull-up", "lat-pulldown"],
        "goal: hypertrophy\ntraining_status: advanced\nbody_mass_kg: 70\nsex: male\n\
         equipment: [pull-up-bar, lat-pulldown]\n",
    );
    let pulls = |kg: u32| format!("known_lifts: {{lat-pulldown: {{load: {kg}, reps: 8, rir: 2}}}}");
    assert_eq!(of(&pulls(45)), [false, true], "it is far from one");
    assert_eq!(of(&pulls(85)), [true, true]);
    let woman = left(
        ["pull-up", "lat-pulldown"],
        "training_status: intermediate\nsex: female\nequipment: [pull-up-bar, lat-pulldown]\ngoal: ",
    );
    assert_eq!(woman("hypertrophy"), [false, true]);
    let known = "hypertrophy\nknown_lifts: {pull-up: {load: 0, reps: 8, rir: 1}}";
    assert!(woman(known)[0]);
}

/// A weight that is light for two legs is one for one.
#[test]
fn a_light_weight_is_lifted_on_one_leg() {
    let of = left(
        [
            "kettlebell-deadlift",
            "supported-single-leg-dumbbell-romanian-deadlift",
            "kettlebell-swing",
        ],
        "goal: fat-loss\nsex: male\nbody_mass_kg: 90\nknown_lifts: {goblet-squat: {load: 40, reps: 10, rir: 2}}\n",
    );
    let trained = of("training_status: intermediate\nequipment: {kettlebell: {masses_kg: [12]}}");
    assert_eq!(trained, [false, true, true], "what is swung is no matter of the load");
    assert!(of("training_status: novice\nequipment: {kettlebell: {masses_kg: [12]}}")[0]);
}

/// From 65 on and for who must not kneel nothing is done on the floor that is done standing, small work included.
#[test]
fn nobody_lies_down_for_small_work_who_need_not() {
    let of = left(
        ["floor-pullover", "one-arm-row", "weighted-push-up"],
        "goal: general-fitness\ntraining_status: intermediate\nstart: 2027-01-04\n\
         equipment: [dumbbells, bench, weight-plate]\n",
    );
    assert_eq!(of("birth_year: 1950"), [false, true, false]);
    assert!(!of("birth_year: 1985\nlimits: [kneeling]")[0]);
}

/// Where the knees may touch down lightly only, the easy holds from the knees are out, and the long ones wait.
#[test]
fn who_spares_the_knees_from_65_on_holds_nothing_on_the_floor() {
    let of = left(
        ["side-plank", "plank", "band-anti-rotation-press"],
        "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n\
         equipment: [resistance-band, band-anchor]\nlimits: [{tag: kneeling, allow: light}]\nbirth_year: ",
    );
    assert_eq!(of("1955"), [false, false, true]);
    assert!(of("1990")[1]);
}

/// A held weight is gripped, and breath is held with it.
#[test]
fn who_must_not_hold_the_breath_holds_no_weight() {
    let of = left(
        ["suitcase-hold", "weighted-plank", "dead-bug"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [dumbbells, weight-plate]\n",
    );
    assert_eq!(of(""), [true; 3]);
    assert_eq!(of("limits: [breath-hold]"), [false, false, true]);
}

/// Presses and squats in one have too little for the legs and too much for the arms.
#[test]
fn who_knows_the_goblet_squat_is_not_led_to_press_it() {
    let of = left(
        ["dumbbell-thruster", "goblet-squat"],
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [dumbbells]\n",
    );
    assert_eq!(of("known_lifts: {goblet-squat: {load: 20, reps: 10, rir: 2}}"), [false, true]);
}

/// Where size and strength are not the goal the trunk holds, and bends only hanging or against a load.
#[test]
fn the_trunk_holds_where_size_and_strength_are_not_the_goal() {
    let of = |goal: &str| {
        left(
            ["crunch", "dead-bug"],
            "training_status: intermediate\nequipment: [pull-up-bar, bench]\ngoal: ",
        )(goal)
    };
    assert_eq!(of("fat-loss"), [false, true]);
    assert_eq!(of("hypertrophy"), [true; 2]);
    assert!(of("fat-loss\nexercises: {prefer: [crunch]}")[0]);
}

/// Who learns and comes seldom to lose fat has better uses for the minutes than arms.
#[test]
fn arms_wait_for_who_begins_to_lose_fat() {
    let of = left(
        ["biceps-curl", "one-arm-row"],
        "goal: fat-loss\nequipment: [dumbbells, bench]\ntraining_status: ",
    );
    assert_eq!(of("novice"), [false, true]);
    assert_eq!(of("novice\nemphasis: {biceps: more}"), [true, true]);
    assert_eq!(of("intermediate"), [true, true]);
}

/// A bar is not rolled over legs that begin at 65 or later, and a shoulder with limits holds no body on its side.
#[test]
fn who_begins_late_thrusts_without_the_bar_and_spares_the_shoulder() {
    let of = left(
        ["hip-thrust", "dumbbell-glute-bridge"],
        "training_status: novice\ngoal: general-fitness\nequipment: [barbell, bench, dumbbells]\nstart: 2027-01-04\n",
    );
    assert_eq!(of("birth_year: 1990"), [true, true]);
    assert_eq!(of("birth_year: 1955"), [false, true]);
    let trunk = left(
        ["side-plank", "band-anti-rotation-press"],
        "training_status: intermediate\ngoal: general-fitness\nequipment: [resistance-band, band-anchor, dumbbells]\n",
    );
    assert_eq!(trunk(""), [true, true]);
    assert_eq!(trunk("limits: [overhead]"), [false, true]);
}

/// A ball in the arms is no carry for who has trained, where a dumbbell weighs twice as much.
#[test]
fn a_carry_is_heavy() {
    let of = left(
        ["bear-hug-carry", "suitcase-carry"],
        "goal: strength\nequipment: {medicine-ball: {masses_kg: [6]}, dumbbells: {from_kg: 4, to_kg: 30, step_kg: 2}}\n\
         training_status: ",
    );
    assert_eq!(of("novice"), [true, true]);
    assert_eq!(of("advanced"), [false, true]);
    assert!(of("advanced\nexercises: {prefer: [bear-hug-carry]}")[0]);
}

/// What hangs at one side trains the trunk, however much two hands could carry.
#[test]
fn a_carry_at_one_side_stays_beside_a_heavier_one() {
    let of = left(
        ["suitcase-carry", "farmer-carry", "trap-bar-carry"],
        "goal: strength\ntraining_status: advanced\nequipment: {dumbbells: {from_kg: 4, to_kg: 40, step_kg: 2}, trap-bar: {}}\n",
    );
    assert!(of("")[0]);
}

/// A beginner holds the plank on the side from the knees, and from the feet where strength or size is built.
#[test]
fn who_builds_strength_holds_the_side_plank_from_the_feet() {
    let of = left(
        ["kneeling-side-plank", "side-plank"],
        "training_status: novice\nbirth_year: 1990\nequipment: [dumbbells, bench]\ngoal: ",
    );
    assert_eq!(of("general-fitness"), [true, false]);
    assert!(of("strength")[1] && of("hypertrophy")[1] && of("power")[1]);
}

#[test]
fn who_neither_kneels_nor_lies_down_moves_the_hips_sitting() {
    let of = left(
        ["side-lying-leg-raise", "band-leg-curl"],
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1953\nequipment: [resistance-band, band-anchor, chair]\n",
    );
    assert!(of("")[0]);
    assert_eq!(of("limits: [kneeling, prone, supine]"), [false, true]);
}

/// What is squatted and pressed in one is too slow for speed, too.
#[test]
fn for_power_nothing_is_squatted_and_pressed_in_one() {
    let of = left(
        ["thruster", "back-squat"],
        "training_status: advanced\nequipment: [barbell, squat-rack]\ngoal: ",
    );
    assert_eq!(of("power"), [false, true]);
    assert!(of("fat-loss")[0]);
}

/// Who names two presses overhead means all of them; a bar in its corner goes up and forward.
#[test]
fn two_presses_overhead_that_are_never_wanted_stand_for_all() {
    let of = left(
        ["wall-handstand-push-up", "dumbbell-overhead-press", "landmine-press"],
        "goal: strength\ntraining_status: advanced\nequipment: [barbell, landmine, dumbbells, bench]\n",
    );
    assert_eq!(of("exercises: {never: [overhead-press]}"), [true, false, true]);
    assert_eq!(of("exercises: {never: [overhead-press, push-press]}"), [false, false, true]);
}

#[test]
fn for_size_the_hinge_starts_from_the_top_unless_the_pull_is_known() {
    let of = left(
        ["deadlift", "trap-bar-deadlift", "romanian-deadlift"],
        "training_status: intermediate\nequipment: [barbell, squat-rack, trap-bar, dumbbells]\n",
    );
    assert_eq!(of("goal: hypertrophy"), [false, false, true]);
    let known = "goal: hypertrophy\nknown_lifts: {deadlift: {load: 100, reps: 8, rir: 2}}";
    assert_eq!(of(known), [true, false, true]);
    assert_eq!(of("goal: strength"), [true, true, true]);
}

#[test]
fn a_leg_raised_to_the_side_without_a_weight_is_behind_a_lunge() {
    let of = left(
        ["side-lying-leg-raise", "side-lying-inner-leg-raise"],
        "training_status: novice\nequipment: [dumbbells, bench]\ngoal: ",
    );
    assert_eq!(of("hypertrophy"), [false, false]);
    assert_eq!(of("hypertrophy\nemphasis: {glutes: more}"), [true, true]);
}

#[test]
fn who_begins_presses_before_a_fly() {
    let of = left(
        ["dumbbell-fly"],
        "goal: hypertrophy\nequipment: [dumbbells, bench]\ntraining_status: ",
    );
    assert_eq!((of("novice"), of("intermediate")), ([false], [true]));
}

/// The pulldown is done on a chair by who must not kneel.
#[test]
fn who_must_not_kneel_pulls_a_band_down_from_a_chair() {
    let of = left(
        ["kneeling-band-pulldown", "seated-band-pulldown"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [resistance-band, band-anchor, chair]\n",
    );
    assert_eq!(of("limits: [kneeling]"), [false, true]);
}

#[test]
fn who_knows_a_clean_comes_back_to_it() {
    let of = left(
        ["power-clean", "hang-power-clean"],
        "training_status: advanced\nequipment: [barbell, squat-rack]\ngoal: power\n",
    );
    assert_eq!(of(""), [true, true]);
    assert_eq!(of("known_lifts: {power-clean: {load: 90, reps: 2, rir: 2}}"), [true, false]);
}

#[test]
fn shoulders_that_should_get_less_are_pressed_over_no_head() {
    let of = left(
        ["dumbbell-overhead-press", "dumbbell-bench-press"],
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [dumbbells, bench]\n",
    );
    assert_eq!(of("emphasis: {front-delts: less, side-delts: less}"), [false, true]);
    assert_eq!(of("emphasis: {side-delts: less}"), [true, true]);
}

#[test]
fn a_heavy_body_that_begins_hangs_on_no_band() {
    let of = left(
        ["band-assisted-pull-up", "kneeling-band-pulldown", "pull-up"],
        "goal: fat-loss\nsex: male\nequipment: [pull-up-bar, resistance-band, band-anchor]\n",
    );
    assert_eq!(of("training_status: novice\nbody_mass_kg: 108"), [false, true, false]);
    assert!(of("training_status: novice\nbody_mass_kg: 70\nheight_cm: 180")[0]);
}

/// Along a bar with one end on the floor, or with a push of the legs: a strict press is slow.
#[test]
fn for_power_no_press_overhead_is_slow() {
    let of = left(
        [
            "dumbbell-overhead-press",
            "machine-shoulder-press",
            "dumbbell-push-press",
            "landmine-press",
        ],
        "training_status: advanced\ngoal: power\nequipment: [dumbbells, shoulder-press-machine",
    );
    assert_eq!(of("]"), [false, false, true, false]);
    assert_eq!(of(", barbell, landmine]"), [false, false, true, true]);
    let strong = left(
        ["dumbbell-overhead-press"],
        "training_status: advanced\ngoal: strength\nequipment: [dumbbells]",
    );
    assert_eq!(strong(""), [true]);
}

#[test]
fn for_power_the_trunk_is_bent_against_no_load() {
    let of = left(
        ["cable-kneeling-crunch", "cable-anti-rotation-press"],
        "training_status: advanced\nequipment: [cable-station]\ngoal: ",
    );
    assert_eq!((of("power"), of("hypertrophy")), ([false, true], [true, true]));
}

/// Three exercises on the floor that are disliked stand for all of them, and for getting ready there.
#[test]
fn who_dislikes_the_floor_stays_on_the_feet() {
    let kit = "goal: fat-loss\ntraining_status: novice\nequipment: [dumbbells, bench, cable-station, lat-pulldown]\n";
    let of = left(["ab-wheel-rollout", "dead-bug", "cable-anti-rotation-press"], kit);
    assert!(of("")[1]);
    let dislikes = "exercises: {avoid: [plank, bird-dog, curl-up]}\n";
    assert_eq!(of(dislikes), [false, false, true]);
    let ready = |keys: &str| -> Vec<String> {
        let days = "sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n";
        let plan = plan(&format!("{kit}{days}{keys}"));
        let groups = plan.sessions.into_iter().flat_map(|session| session.groups);
        let preps = groups.filter(|group| group.kind == GroupKind::Prep);
        preps.flat_map(|group| group.items).map(|item| item.exercise).collect()
    };
    let floor = |id: &String| {
        let catalog = PLANNER.catalog();
        let stress = &catalog.get(id).unwrap().stress;
        let parts = stress.iter().flat_map(weekwright::input::catalog::StressTag::parts);
        parts
            .into_iter()
            .any(|(tag, _)| matches!(tag, Stress::Prone | Stress::Supine | Stress::Kneeling))
    };
    assert!(ready("").iter().any(floor));
    assert!(!ready(dislikes).iter().any(floor));
    let back = ready("limits: [loaded-spinal-flexion]\n");
    assert!(
        !back.iter().any(|id| id == "squat-to-reach-flow" || id == "inchworm-flow"),
        "{back:?}"
    );
    assert!(!ready("exercises: {never: [bird-dog]}\n").contains(&"bird-dog-prep".to_owned()));
}
