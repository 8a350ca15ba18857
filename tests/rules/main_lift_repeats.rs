use super::check::check_rule;

#[test]
fn a_novice_meets_two_main_lifts_on_two_days() {
    let novice = check_rule("main-lift-repeats").with("training_status: novice");
    novice
        .allows("mon: back-squat x3; bench-press x3; plank x3\nwed: back-squat x3; bench-press x3; side-plank x3")
        .remarks("mon: back-squat x3; bench-press x3\nwed: back-squat x3; barbell-row x3", "2 main lifts on two days, got 1");
    check_rule("main-lift-repeats")
        .allows("mon: back-squat x3; bench-press x3\nwed: deadlift x3; barbell-row x3");
}

#[test]
fn no_two_days_are_the_same() {
    check_rule("main-lift-repeats").remarks(
        "mon: back-squat x3; bench-press x3\nwed: bench-press x2; back-squat x4",
        "days that differ",
    );
}

/// RX-09 (ACSM 2026 overview): main lifts at least twice a week for strength.
#[test]
fn strength_repeats_its_main_lifts() {
    check_rule("main-lift-repeats").with("goal: strength").remarks(
        "mon: back-squat x3; bench-press x3\nwed: back-squat x3; bench-press x3; plank x3",
        "3 main lifts on two days, got 2",
    );
}
