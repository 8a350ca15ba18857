//! What a coach passes over among the exercises that a client could do. All of it is common practice.

use weekwright::inner::points;
use weekwright::planner::Options;
use weekwright::request::Request;

use crate::rules::check::PLANNER;

const SOMEONE: &str =
    "client: choice-01\nsessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n";

pub(super) fn request(keys: &str) -> Request {
    let profile = serde_yaml::from_str(&format!("{SOMEONE}{keys}")).expect("a profile");
    PLANNER.request(&profile, &Options::default())
}

/// Which of some exercises are left for a client, of whom some keys are given first and the others later.
pub(super) fn left<'a, const N: usize>(
    ids: [&'a str; N],
    keys: &'a str,
) -> impl Fn(&str) -> [bool; N] + 'a {
    assert!(ids.iter().all(|id| PLANNER.catalog().get(id).is_some()), "{ids:?}");
    move |others| {
        let request = request(&format!("{keys}{others}"));
        ids.map(|id| request.candidate(id).is_some())
    }
}

/// What an exercise is worth that is left.
pub(super) fn worth(request: &Request, id: &str) -> f64 {
    let place = request.candidates.iter().position(|one| one.id == id);
    weekwright::inner::worths(request)[place.expect("it is left")]
}

#[test]
fn a_load_comes_before_the_bodys_own_weight() {
    let of = left(
        ["reverse-lunge", "supported-single-leg-squat", "single-leg-hinge-reach", "pike-push-up"],
        "goal: hypertrophy\ntraining_status: intermediate\n",
    );
    assert_eq!(of("equipment: [chair]"), [false, true, true, true], "its harder form is at hand");
    assert_eq!(of("equipment: [dumbbells, chair]"), [false; 4]);
    let named = "equipment: [dumbbells]\nexercises: {prefer: [pike-push-up]}";
    assert_eq!(of(named), [false, false, false, true], "who names it has it");
}

#[test]
fn who_learns_keeps_the_first_steps() {
    let of = left(
        ["bodyweight-squat", "reverse-lunge", "split-squat"],
        "goal: general-fitness\nequipment: [chair]\n",
    );
    assert_eq!(of("training_status: novice"), [true; 3]);
    assert_eq!(of("training_status: intermediate"), [false; 3]);
}

#[test]
fn from_65_on_what_is_fast_is_thrown() {
    let of = left(
        ["squat-jump", "vertical-jump", "ball-chest-throw"],
        "goal: power\nequipment: [medicine-ball, dumbbells]\nstart: 2027-01-04\n",
    );
    assert_eq!(of("training_status: novice\nbirth_year: 1955"), [false, false, true]);
    assert_eq!(of("training_status: novice\nbirth_year: 1995"), [true; 3]);
    assert_eq!(of("training_status: advanced\nbirth_year: 1955"), [true; 3]);
}

#[test]
fn strong_legs_take_the_bar() {
    let in_hands = ["goblet-squat", "dumbbell-squat", "dumbbell-deadlift", "dumbbell-hip-thrust"];
    let gym = "goal: hypertrophy\nequipment: [barbell, squat-rack, bench, dumbbells]\n";
    let of = left(in_hands, gym);
    assert_eq!(of("training_status: intermediate"), [false; 4]);
    assert_eq!(of("training_status: novice")[..3], [true; 3]);
    let once = "training_status: intermediate\n\
                other_training: [{day: sun, load: hard, muscles: [quads]}]";
    assert_eq!(of(once), [false; 4], "days are left");
    let twice = once.replace("}]", "}, {day: wed, load: hard, muscles: [quads]}]");
    assert_eq!(of(&twice), [true; 4], "light work is left");
    let no_bar = left(in_hands, "goal: hypertrophy\nequipment: [bench, dumbbells]\n");
    assert_eq!(no_bar("training_status: intermediate"), [true; 4]);
}

#[test]
fn what_only_saves_kit_is_for_who_lacks_it() {
    let of = left(
        ["dumbbell-floor-press", "barbell-floor-press", "kettlebell-floor-press"],
        "goal: hypertrophy\ntraining_status: intermediate\n",
    );
    assert_eq!(of("equipment: [barbell, squat-rack, bench, dumbbells]"), [false; 3]);
    assert_eq!(of("equipment: [barbell, squat-rack, dumbbells]"), [true; 3]);
}

#[test]
fn a_band_is_the_second_row_where_all_others_are_in_the_hands() {
    let of = left(
        ["seated-band-row", "one-arm-row", "towel-door-row"],
        "goal: general-fitness\ntraining_status: novice\n",
    );
    let bands = of("equipment: [resistance-band, chair]");
    assert_eq!(bands, [true, false, false], "a towel is no row beside a band");
    assert_eq!(of("equipment: [resistance-band, dumbbells, chair]"), [true, true, false]);
    let stack = of("equipment: [resistance-band, dumbbells, chair, seated-row-machine]");
    assert_eq!(stack, [false, true, false], "beside a stack it is");
}

#[test]
fn side_bends_are_behind_what_holds_the_trunk() {
    let of = left(
        ["weighted-side-bend", "seated-twist", "kneeling-side-plank", "plank"],
        "goal: general-fitness\ntraining_status: novice\n",
    );
    assert_eq!(of("equipment: [dumbbells]"), [false, false, true, true]);
}

#[test]
fn a_swing_is_no_hinge_for_size() {
    let of = left(
        ["kettlebell-swing", "romanian-deadlift"],
        "training_status: intermediate\nequipment: [kettlebell, barbell]\n",
    );
    assert_eq!(of("goal: hypertrophy"), [false, true]);
    assert_eq!(of("goal: fat-loss"), [true, true]);
}

#[test]
fn a_loaded_first_step_comes_before_one_without_a_load() {
    let of = left(
        ["bodyweight-squat", "incline-push-up", "leg-press"],
        "goal: endurance\ntraining_status: novice\nequipment: [leg-press, bench, dumbbells]\n",
    );
    assert_eq!(of(""), [false, true, true]);
    let older = "birth_year: 1955\nstart: 2027-01-04";
    assert_eq!(of(older)[1..], [true; 2], "from 65 on both are first steps");
}

#[test]
fn one_kettlebell_is_no_hinge_beside_dumbbells() {
    let of = left(
        ["kettlebell-deadlift", "dumbbell-romanian-deadlift"],
        "goal: endurance\nequipment: [kettlebell, dumbbells]\n",
    );
    assert_eq!(of("training_status: intermediate"), [false, true]);
    assert_eq!(of("training_status: novice"), [true, true]);
}

#[test]
fn arms_and_side_delts_take_a_weight_before_a_band() {
    let of = left(
        ["band-lateral-raise", "band-curl", "lateral-raise"],
        "goal: hypertrophy\ntraining_status: intermediate\n",
    );
    assert_eq!(of("equipment: [dumbbells, resistance-band]"), [false, false, true]);
    assert_eq!(of("equipment: [resistance-band]"), [true, true, false]);
}

#[test]
fn an_empty_bar_is_much_for_arms_that_are_new_to_it() {
    let of = left(
        ["barbell-curl", "lying-triceps-extension", "biceps-curl"],
        "goal: hypertrophy\nequipment: [barbell, bench, dumbbells]\n",
    );
    assert_eq!(of("training_status: novice"), [false, false, true]);
    assert_eq!(of("training_status: intermediate\nsex: female"), [false, false, true]);
    assert_eq!(of("training_status: intermediate\nsex: male"), [true; 3]);
    assert_eq!(of("training_status: advanced\nsex: female"), [true; 3]);
}

#[test]
fn a_pull_up_of_unknown_number_waits_for_a_form_in_steps() {
    let pulls = ["pull-up", "band-assisted-pull-up", "lat-pulldown"];
    let of = left(
        pulls,
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [pull-up-bar, resistance-band]\n",
    );
    assert_eq!(of("sex: male"), [true, false, false]);
    assert_eq!(of("sex: female"), [false, true, false]);
    let known = "sex: female\nknown_lifts: {pull-up: {load: 0, reps: 8, rir: 1}}";
    assert!(of(known)[0], "her number is known");
    let lasts = left(pulls, "goal: endurance\ntraining_status: intermediate\nsex: male\n");
    assert_eq!(lasts("equipment: [pull-up-bar, lat-pulldown]"), [false, false, true]);
}

#[test]
fn the_belt_is_for_who_has_been_strong_for_years() {
    let of = left(
        ["pull-up", "weighted-pull-up"],
        "goal: strength\ntraining_status: advanced\nequipment: [pull-up-bar, dip-belt, weight-plate]\n",
    );
    assert_eq!(of("sex: male"), [false, true]);
    assert_eq!(of("sex: female"), [true, false]);
}

#[test]
fn a_bar_for_the_legs_is_not_learned_from_65_on() {
    let of = left(
        ["back-squat", "deadlift", "goblet-squat", "goblet-box-squat"],
        "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n\
         equipment: [barbell, squat-rack, bench, dumbbells]\n",
    );
    let young = of("birth_year: 1990");
    assert_eq!(young, [true, true, true, false], "a seat is for older or limited knees");
    let older = of("birth_year: 1955");
    assert_eq!(older, [false, false, false, true], "who begins from 65 on sits down to a seat");
    let never = of("exercises: {never: [goblet-squat]}");
    assert_eq!(never, [true, true, false, false], "to a seat it is the same");
}

#[test]
fn who_begins_light_hinges_from_the_top_and_presses_in_steps() {
    let of = left(
        ["deadlift", "romanian-deadlift", "overhead-press", "dumbbell-overhead-press"],
        "training_status: novice\nequipment: [barbell, squat-rack, bench, dumbbells]\ngoal: ",
    );
    assert_eq!(of("strength\nsex: male"), [true; 4]);
    let light = of("hypertrophy\nsex: female");
    assert_eq!(light, [false, true, false, true], "small plates start the bar too low");
    assert_eq!(
        of("strength\nsex: female"),
        [true, true, false, true],
        "the pull is what is learnt"
    );
    let known = "hypertrophy\nsex: female\nknown_lifts: {deadlift: {load: 60, reps: 5}}";
    assert!(of(known)[0], "she has done it");
}

#[test]
fn from_65_on_a_beginner_stands_steadily_and_stays_up() {
    let kit = "goal: general-fitness\ntraining_status: novice\nstart: 2027-01-04\n\
               equipment: [dumbbells, bench, resistance-band, band-anchor]\n";
    let of = left(
        ["goblet-reverse-lunge", "goblet-split-squat", "dumbbell-split-squat", "prone-pulldown"],
        kit,
    );
    assert_eq!(of("birth_year: 1990")[..3], [true; 3]);
    assert_eq!(of("birth_year: 1957"), [false; 4], "a support or a step, and no weights yet");
    let kneeling = of("birth_year: 1990\nlimits: [kneeling]");
    assert!(!kneeling[3], "down and up again without kneeling");
    let holds = left(["supported-split-squat", "kneeling-side-plank", "side-plank"], kit);
    assert_eq!(holds("birth_year: 1957"), [true, true, false], "the easier form of a hold");
}

#[test]
fn a_go_to_comes_before_its_like() {
    let request = request(
        "goal: hypertrophy\ntraining_status: intermediate\nequipment: [cable-station, dumbbells, bench, barbell]\n",
    );
    let first = worth(&request, "biceps-curl");
    let second = worth(&request, "barbell-curl");
    assert_eq!(second - first, points::SECOND_CHOICE);
    let other = worth(&request, "lateral-raise");
    assert_eq!(other, first, "of different work none is second to another");
    let third = worth(&request, "seated-rear-raise");
    assert_eq!(third - first, points::SECOND_CHOICE + points::SECOND_TO, "and to one of its like");
}

/// The foot behind is raised where size is built, and stays on the floor where neither size, strength nor power is.
#[test]
fn the_harder_split_squat_is_for_size() {
    let harder = |goal: &str| {
        let request = request(&format!(
            "goal: {goal}\ntraining_status: intermediate\nequipment: [dumbbells, bench]\n"
        ));
        let [raised, flat] = ["dumbbell-rear-foot-raised-split-squat", "dumbbell-split-squat"];
        worth(&request, raised) - worth(&request, flat)
    };
    assert_eq!(harder("hypertrophy"), -points::SECOND_TO);
    assert_eq!(harder("strength"), 0.0);
    assert_eq!(harder("fat-loss"), points::SECOND_TO);
}

/// A press overhead with dumbbells is done standing for power and to last, sitting for size.
#[test]
fn who_is_to_be_fast_or_to_last_presses_standing() {
    let stands = |keys: &str| {
        let request = request(&format!(
            "training_status: intermediate\nequipment: [dumbbells, adjustable-bench]\n\
             exercises: {{never: [dumbbell-push-press]}}\n{keys}\n"
        ));
        let [stands, sits] = ["dumbbell-overhead-press", "seated-dumbbell-overhead-press"];
        worth(&request, stands) > worth(&request, sits)
    };
    assert!(stands("goal: power") && stands("goal: endurance") && !stands("goal: hypertrophy"));
}

/// Who would rather not press the bar overhead presses it in its corner, and a machine only where no bar stands there.
#[test]
fn a_bar_in_its_corner_comes_before_a_machine_overhead() {
    let worths = |kit: &str| {
        let request = request(&format!(
            "goal: strength\ntraining_status: intermediate\nexercises: {{avoid: [overhead-press]}}\n\
             equipment: [barbell, squat-rack, shoulder-press-machine{kit}]\n"
        ));
        worth(&request, "machine-shoulder-press")
    };
    assert_eq!(worths(", landmine") - worths(""), points::KIN);
}

#[test]
fn what_is_second_to_another_waits_for_it_where_it_is_at_hand() {
    let worths = |keys: &str| {
        let all = format!("goal: hypertrophy\ntraining_status: intermediate\n{keys}");
        let request = request(&all);
        ["one-arm-row", "goblet-squat"].map(|id| worth(&request, id))
    };
    let [row, other] = worths("equipment: [dumbbells, adjustable-bench]\n");
    let alone = row - other;
    let machine = "equipment: [dumbbells, adjustable-bench, seated-row-machine]\n";
    let [row, other] = worths(machine);
    assert_eq!(row - other - alone, points::SECOND_TO);
    let [row, other] = worths(&format!("{machine}exercises: {{prefer: [one-arm-row]}}\n"));
    assert_eq!(row - other - alone, points::PREFERRED, "what is liked is second to nothing");
}

#[test]
fn what_a_limit_allows_lightly_is_done_sparingly() {
    let keys =
        "goal: hypertrophy\ntraining_status: novice\nequipment: [kettlebell, bench, leg-press]\n";
    let limited = |limits: &str| {
        let request = request(&format!("{keys}limits: {limits}"));
        worth(&request, "kettlebell-romanian-deadlift")
    };
    let light = "[{tag: spinal-shear, allow: light}]";
    assert_eq!(limited(light) - limited("[]"), points::SPARINGLY);
    // A back that minds a load when it bends minds one that hangs from it.
    assert_eq!(limited("[loaded-spinal-flexion]") - limited("[]"), points::SPARINGLY);
}

#[test]
fn kit_that_ends_early_is_behind_what_goes_on() {
    let of = left(
        ["dumbbell-romanian-deadlift", "smith-machine-romanian-deadlift"],
        "goal: hypertrophy\ntraining_status: intermediate\nsex: male\nbody_mass_kg: 80\n",
    );
    let dumbbells = "dumbbells: {from_kg: 2, to_kg: 10, step_kg: 2}";
    let smith = "smith-machine: 1, plates_kg: {20: 4, 10: 4}";
    let gym = format!("equipment: {{{smith}, {dumbbells}}}");
    assert_eq!(of(&gym), [false, true], "ten kilograms are no hinge for trained legs");
    assert_eq!(of(&gym.replace("to_kg: 10", "to_kg: 40")), [true, true]);
    let alone = format!("equipment: {{{dumbbells}}}");
    assert_eq!(of(&alone), [false, false], "on one leg they are");
    let novice = alone.clone() + "\nbirth_year: 1950\nstart: 2027-01-04";
    assert_eq!(of(&novice), [true, false], "where nothing else is, they are on two");
}

#[test]
fn who_begins_at_65_steps_up_or_holds_on() {
    let of = left(
        ["split-squat", "supported-split-squat", "step-up"],
        "goal: general-fitness\ntraining_status: novice\nequipment: [low-box]\nstart: 2027-01-04\n",
    );
    assert_eq!(of("birth_year: 1953"), [false, true, true]);
    assert_eq!(of("birth_year: 1993"), [true; 3]);
}

#[test]
fn who_must_not_kneel_nor_lie_down_trains_the_trunk_standing() {
    let of = left(
        ["plank", "side-plank", "band-anti-rotation-press"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [resistance-band, band-anchor]\n",
    );
    assert_eq!(of("limits: [kneeling, supine]"), [false, false, true]);
    assert_eq!(of("limits: [kneeling]")[1..], [true; 2]);
}

#[test]
fn pulling_at_the_air_is_no_pull_beside_a_weight() {
    let of =
        left(["prone-pulldown", "split-stance-row"], "goal: fat-loss\ntraining_status: novice\n");
    assert_eq!(of("equipment: {kettlebell: {masses_kg: [12]}}"), [false, true]);
    assert_eq!(of("equipment: [chair]"), [true, false]);
}

#[test]
fn the_leg_is_moved_out_where_the_glutes_should_get_more() {
    let of = left(
        ["machine-hip-abduction"],
        "goal: strength\ntraining_status: intermediate\nequipment: [hip-abductor-machine, barbell, squat-rack]\n",
    );
    assert_eq!(of(""), [false], "else it serves no wish");
    assert_eq!(of("emphasis: {glutes: more}"), [true]);
}

#[test]
fn a_fly_is_for_size() {
    let of = left(
        ["dumbbell-fly", "dumbbell-bench-press"],
        "training_status: intermediate\nequipment: [dumbbells, bench]\n",
    );
    assert_eq!(of("goal: general-fitness"), [false, true]);
    assert_eq!(of("goal: general-fitness\nemphasis: {chest: more}"), [false, true]);
    assert_eq!(of("goal: hypertrophy"), [true, true]);
    let of = left(
        ["dumbbell-pullover", "one-arm-row"],
        "training_status: intermediate\nequipment: [dumbbells, bench]\n",
    );
    assert_eq!(of("goal: fat-loss"), [false, true]);
    assert_eq!(of("goal: hypertrophy"), [true, true]);
}

#[test]
fn small_work_takes_a_load_where_a_machine_has_one() {
    let of = left(
        ["clam", "machine-hip-abduction"],
        "goal: hypertrophy\nemphasis: {glutes: more}\nequipment: [hip-abductor-machine, mini-band]\n",
    );
    assert_eq!(of("training_status: intermediate"), [false, true]);
    assert_eq!(of("training_status: novice"), [true, true]);
}

#[test]
fn years_of_training_are_past_plain_push_ups() {
    let of = left(["push-up", "dip"], "goal: fat-loss\nequipment: [dip-bars]\n");
    assert_eq!(of("training_status: advanced"), [false, true]);
    assert_eq!(of("training_status: intermediate"), [true, true]);
    let bare = left(["push-up"], "goal: fat-loss\ntraining_status: advanced\n");
    assert_eq!(bare("equipment: [chair]\nexercises: {prefer: [push-up]}"), [true]);
}

#[test]
fn a_woman_of_60_is_not_taken_to_do_eight_pull_ups() {
    let of = left(
        ["pull-up", "band-assisted-pull-up"],
        "goal: strength\ntraining_status: advanced\nsex: female\nstart: 2027-01-04\n\
         equipment: [barbell, pull-up-bar, resistance-band]\n",
    );
    assert_eq!(of("birth_year: 1963"), [false, true]);
    assert_eq!(of("birth_year: 1985"), [true, false]);
}

#[test]
fn who_must_not_lie_face_down_holds_no_plank() {
    let of = left(
        ["plank", "push-up", "incline-push-up"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [chair]\n\
         exercises: {prefer: [plank, push-up, incline-push-up]}\n",
    );
    assert_eq!(of("limits: [{tag: prone, allow: light}]"), [true; 3]);
    let strict = left(
        ["plank", "push-up"],
        "goal: general-fitness\ntraining_status: intermediate\nequipment: [chair]\n",
    );
    assert_eq!(strict("limits: [prone]"), [false; 2]);
}

#[test]
fn many_known_pull_ups_are_done_with_a_weight() {
    let of = left(
        ["pull-up", "weighted-pull-up"],
        "training_status: advanced\nequipment: [pull-up-bar, dip-belt, weight-plate]\n",
    );
    assert_eq!(of("goal: hypertrophy\nknown_lifts: {pull-up: {reps: 13, rir: 2}}"), [false, true]);
    assert_eq!(of("goal: hypertrophy\nknown_lifts: {pull-up: {reps: 9, rir: 2}}"), [true, true]);
    assert_eq!(of("goal: endurance\nknown_lifts: {pull-up: {reps: 13, rir: 2}}"), [true, true]);
    let liked = "goal: hypertrophy\nexercises: {prefer: [pull-up]}\nknown_lifts: {pull-up: {reps: 13, rir: 2}}";
    assert_eq!(of(liked), [true, true]);
}

#[test]
fn one_bell_of_each_size_is_carried_in_one_hand() {
    let of = left(
        ["farmer-carry", "suitcase-carry"],
        "goal: general-fitness\ntraining_status: intermediate\n",
    );
    let room = "pull-up-bar: 1";
    assert_eq!(
        of(&format!("equipment: {{kettlebell: {{masses_kg: [8, 12]}}, {room}}}")),
        [false, true]
    );
    let pairs = format!("equipment: {{kettlebell: {{masses_kg: [8, 12], pairs: 1}}, {room}}}");
    assert_eq!(of(&pairs), [true, true]);
    assert_eq!(of("equipment: [kettlebell, pull-up-bar]"), [true, true]);
    // In a room without a rack or a bar nobody walks with a load.
    assert_eq!(of("equipment: [kettlebell]"), [false, false]);
}
