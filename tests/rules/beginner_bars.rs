use super::check::check_rule;

const TWO: &str = "mon: back-squat x3; dumbbell-bench-press x3\nwed: deadlift x3; back-squat x3";

#[test]
fn a_beginner_learns_two_lifts_with_the_bar() {
    check_rule("beginner-bars")
        .with("training_status: novice")
        .allows(TWO)
        .allows(&format!("{TWO}; smith-machine-squat x3"))
        .remarks(&format!("{TWO}; bench-press x3"), "2 barbell lifts at most, got 3");
    check_rule("beginner-bars").allows(&format!("{TWO}; bench-press x3"));
}

/// For strength the bar is the point, with no other kit it is all there is, and a wish is a reason.
#[test]
fn a_reason_brings_more() {
    let three = format!("{TWO}; bench-press x3");
    for keys in [
        "{training_status: novice, goal: strength}",
        "{training_status: novice, equipment: [barbell, squat-rack, bench]}",
        "{training_status: novice, exercises: {must: [bench-press]}}",
    ] {
        check_rule("beginner-bars").with(keys).allows(&three);
    }
}
