use super::check::check_rule;

/// Common practice: who presses pays for it with the back of the shoulder.
#[test]
fn who_presses_trains_the_back_of_the_shoulder() {
    check_rule("complete-week")
        .with("goal: strength")
        .allows("mon: bench-press x3 of 5; face-pull x2 of 15\nwed: back-squat x3 of 5")
        .remarks(
            "mon: bench-press x3 of 5\nwed: back-squat x3 of 5",
            "some shoulder horizontal abduction",
        )
        .with("limits: [shoulder-extension-end-range]")
        .allows(
            "mon: bench-press x3 of 5; band-external-rotation x2 of 15\nwed: back-squat x3 of 5",
        );
}

/// Common practice: for size the trunk is bent as well as held.
#[test]
fn for_size_the_trunk_is_bent() {
    check_rule("complete-week")
        .with("goal: hypertrophy\ntraining_status: intermediate")
        .allows("mon: face-pull x2 of 15; hanging-knee-raise x3 of 12\nwed: back-squat x3 of 8; leg-curl x3 of 12; dumbbell-calf-raise x3 of 15")
        .remarks(
            "mon: face-pull x2 of 15; hanging-knee-raise x3 of 12\nwed: back-squat x3 of 8; leg-curl x3 of 12",
            "some plantar flexion",
        )
        .remarks(
            "mon: face-pull x2 of 15; plank x3 of 30\nwed: back-squat x3 of 8; leg-curl x3 of 12",
            "some trunk flexion",
        )
        .remarks(
            "mon: face-pull x2 of 15; hanging-knee-raise x3 of 12\nwed: back-squat x3 of 8",
            "some knee flexion",
        );
}

/// Common practice: from four days on a week for size has the front of the thigh alone.
#[test]
fn for_size_the_front_of_the_thigh_is_trained_alone() {
    let days = "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: fri, minutes: 60}]";
    let week = |knees: &str| {
        format!(
            "mon: incline-dumbbell-press x3; one-arm-row x3; face-pull x2 of 15; hanging-knee-raise x3 of 12\n\
             tue: rear-raise x2 of 15; back-squat x3 of 8{knees}\nthu: seated-cable-row x3; leg-curl x3 of 12; crunch x2 of 12; dumbbell-calf-raise x3 of 15"
        )
    };
    let check = check_rule("complete-week")
        .with("goal: hypertrophy\ntraining_status: intermediate")
        .with(days);
    check
        .allows(&week("; leg-extension x3 of 12"))
        .remarks(
            &week("; leg-extension x3 of 12").replace("incline-dumbbell", "dumbbell-bench"),
            "some incline press",
        )
        .remarks(
            &week("; leg-extension x3 of 12")
                .replace("seated-cable-row", "lat-pulldown")
                .replace("one-arm-row", "pull-up"),
            "some horizontal pull",
        )
        .remarks(&week(""), "some knee extension")
        .with("emphasis: {quads: less}")
        .allows(&week(""));
}

/// Strength of the inner thighs lowers the risk of groin trouble in kicking sports (Haroy et al. 2019, from memory).
#[test]
fn whose_sport_turns_and_kicks_trains_the_inner_thighs() {
    let plays = "other_training: [{day: sun, load: hard, muscles: [quads, adductors]}]";
    check_rule("complete-week")
        .with("goal: general-fitness")
        .allows("mon: back-squat x3 of 8")
        .with(plays)
        .allows("mon: back-squat x3 of 8; short-side-plank-adduction x2 of 10")
        .remarks("mon: back-squat x3 of 8", "some hip adduction");
}

/// Common practice: a running game asks for the groin of who trains for power, and the hips push.
#[test]
fn who_runs_and_jumps_trains_groin_and_hips() {
    let runs =
        "goal: power\nother_training: [{day: sun, load: hard, muscles: [quads, hamstrings]}]";
    let week = "mon: back-squat x3 of 5; hip-thrust x2 of 8; face-pull x2 of 15; band-external-rotation x2 of 15; leg-curl x2 of 10";
    check_rule("complete-week")
        .with(runs)
        .allows(&format!("{week}; short-side-plank-adduction x2 of 10"))
        .remarks(week, "some hip adduction")
        .remarks(&week.replace("leg-curl", "leg-extension"), "some knee flexion");
}

/// Common practice: to lose fat the large muscles of the hips work, and from 65 on the leg is moved out, against falls.
#[test]
fn hips_are_pushed_to_lose_fat_and_moved_out_from_65_on() {
    let old = "goal: fat-loss\nbirth_year: 1950\nstart: 2027-01-04";
    check_rule("complete-week")
        .with(old)
        .allows("mon: glute-bridge x2 of 10; mini-band-side-walk x2 of 10; calf-raise x2 of 15; dumbbell-overhead-press x2 of 10")
        .remarks("mon: glute-bridge x2 of 10; calf-raise x2 of 15", "some hip abduction")
        .remarks("mon: mini-band-side-walk x2 of 10; calf-raise x2 of 15", "some hip extension");
}

/// Common practice: the arm is turned out by who throws or swims, and by whose shoulder is touchy; a boat asks for none.
#[test]
fn who_rows_turns_no_arm_out() {
    let rows = "goal: general-fitness\nother_training: [{day: sun, load: hard, muscles: [lats, upper-back]}]";
    let swims = "other_training: [{day: sun, load: hard, muscles: [lats, front-delts]}]";
    check_rule("complete-week")
        .with(rows)
        .allows("mon: back-squat x3 of 8")
        .with(swims)
        .remarks("mon: back-squat x3 of 8", "some shoulder external rotation");
    let stiff = "goal: general-fitness\nlimits: [{tag: overhead, allow: light}]";
    let sore = "goal: general-fitness\nlimits: [overhead]";
    check_rule("complete-week").with(stiff).allows("mon: back-squat x3 of 8");
    let found = "some shoulder external rotation";
    check_rule("complete-week").with(sore).remarks("mon: back-squat x3 of 8", found);
}

/// Common practice: a stride is pushed off by one calf and caught on one leg.
#[test]
fn who_runs_to_last_trains_calves_and_one_leg() {
    let runs =
        "goal: endurance\nother_training: [{day: sun, load: easy, muscles: [quads, calves]}]";
    let week = "mon: back-squat x3 of 12; face-pull x2 of 15";
    let one_leg = "single-leg-dumbbell-romanian-deadlift x2 of 10";
    let lunge = "goblet-split-squat x2 of 10";
    check_rule("complete-week")
        .with("goal: endurance")
        .allows(week)
        .with(runs)
        .allows(&format!("{week}; {one_leg}; {lunge}; calf-raise x2 of 15"))
        .remarks(&format!("{week}; {one_leg}; calf-raise x2 of 15"), "some lunge")
        .remarks(&format!("{week}; {lunge}; calf-raise x2 of 15"), "some hinge")
        .remarks(&format!("{week}; {one_leg}; {lunge}"), "some plantar flexion");
}

/// Common practice: from 65 on a calf catches the stumble.
#[test]
fn from_65_on_the_ankles_work() {
    let old = "goal: general-fitness\nbirth_year: 1950\nstart: 2027-01-04";
    check_rule("complete-week")
        .with(old)
        .allows("mon: mini-band-side-walk x2 of 10; calf-raise x2 of 12; dumbbell-overhead-press x2 of 10")
        .remarks("mon: mini-band-side-walk x2 of 10", "some plantar flexion")
        .remarks("mon: mini-band-side-walk x2 of 10; calf-raise x2 of 12", "some vertical push");
}

/// Common practice: where one session has to have everything, a row and a press overhead come before arms.
#[test]
fn the_only_session_of_a_week_rows_and_reaches() {
    let once = "goal: strength\nsessions: [{day: sat, minutes: 75}]";
    let week = "sat: back-squat x3 of 5; bench-press x3 of 5; pull-up x3 of 5";
    check_rule("complete-week")
        .with(once)
        .allows(&format!("{week}; barbell-row x3 of 8; dumbbell-overhead-press x3 of 8"))
        .remarks(&format!("{week}; dumbbell-overhead-press x3 of 8"), "some horizontal pull")
        .remarks(&format!("{week}; barbell-row x3 of 8"), "some vertical push");
    let short = "goal: strength\nsessions: [{day: sat, minutes: 45}]";
    check_rule("complete-week").with(short).allows(week);
}

/// Common practice: who begins at 65 or later gets up from a seat; who learns to be fast pushes the hips, and later does it fast.
#[test]
fn who_begins_late_gets_up_from_a_seat() {
    let begins =
        "goal: general-fitness\ntraining_status: novice\nbirth_year: 1950\nstart: 2027-01-04";
    let rest = "mon: mini-band-side-walk x2 of 10; calf-raise x2 of 12; dumbbell-overhead-press x2 of 10; step-up x2 of 8";
    check_rule("complete-week")
        .with(begins)
        .allows(&format!("{rest}; sit-to-stand x2 of 10"))
        .remarks(rest, "some squat")
        .remarks(
            &format!("{}; sit-to-stand x2 of 10", rest.replace("step-up", "split-squat")),
            "some step up",
        );
    let fast = "goal: power\nsessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]";
    let week = "mon: back-squat x3 of 5; face-pull x2 of 15\nthu: bench-press x3 of 5";
    check_rule("complete-week")
        .with(&format!("training_status: intermediate\n{fast}"))
        .allows(week)
        .with(&format!("training_status: novice\n{fast}"))
        .remarks(week, "some hip extension");
}
