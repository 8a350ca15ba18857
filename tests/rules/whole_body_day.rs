use super::check::check_rule;

#[test]
fn a_leg_lift_a_push_and_a_pull() {
    check_rule("whole-body-day")
        .allows("mon: back-squat x3; bench-press x3; barbell-row x3")
        .remarks(
            "mon: back-squat x3; bench-press x3; biceps-curl x3",
            "mon: wanted a multi-joint pull, got none",
        )
        .remarks("mon: leg-extension x3; bench-press x3; barbell-row x3", "a multi-joint leg lift")
        .remarks("mon: back-squat x3; dumbbell-fly x3; barbell-row x3", "a multi-joint push");
}

#[test]
fn other_days_need_not() {
    check_rule("whole-body-day")
        .allows("mon: back-squat x3; leg-curl x3; plank x3")
        .allows("mon: bench-press x3; dumbbell-fly x3; lateral-raise x3")
        .with("split: [[quads, chest], [lats], [glutes]]")
        .allows("mon: back-squat x3; bench-press x3; dumbbell-fly x3");
}
