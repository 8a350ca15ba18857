use super::check::check_rule;

#[test]
fn a_beginner_meets_each_movement_on_two_days() {
    let twice = "mon: back-squat x3; bench-press x3; barbell-row x3; hip-thrust x2
        wed: split-squat x2; overhead-press x3; lat-pulldown x3; romanian-deadlift x3";
    let novice = check_rule("main-lift-repeats").with("training_status: novice");
    novice.allows(twice);
    for (out, movement) in [
        ("split-squat", "squat"),
        ("hip-thrust", "hinge"),
        ("overhead-press", "push"),
        ("lat-pulldown", "pull"),
    ] {
        novice.remarks(
            &twice.replace(out, "plank"),
            &format!("{movement}: wanted a {movement} on two days, got 1"),
        );
    }
    check_rule("main-lift-repeats")
        .allows("mon: back-squat x3; bench-press x3\nwed: deadlift x3; barbell-row x3");
    novice
        .with("sessions: [{day: mon, minutes: 60}]")
        .allows("mon: back-squat x3; bench-press x3; barbell-row x3");
}

/// Four fifths of the exercises in common is the same day again.
#[test]
fn no_two_days_are_the_same() {
    let five = "mon: back-squat x3; bench-press x3; barbell-row x3; leg-curl x3; plank x3";
    let wed = |items: &str| format!("{five}\nwed: {items}");
    check_rule("main-lift-repeats")
        .remarks(
            "mon: back-squat x3; bench-press x3\nwed: bench-press x2; back-squat x4",
            "days that differ",
        )
        .remarks(
            &wed("back-squat x3; bench-press x3; barbell-row x3; leg-curl x3"),
            "days that differ",
        )
        .allows(&wed("back-squat x3; bench-press x3; barbell-row x3; calf-raise x3; plank x3"));
}
