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

#[test]
fn short_days_for_legs_and_arms_have_a_leg_lift_and_one_of_the_two() {
    let days = ["mon", "tue", "thu", "fri"].map(|day| format!("{day}, minutes: 30"));
    let keys = format!("goal: fat-loss\nsessions: [{{day: {}}}]", days.join("}, {day: "));
    check_rule("whole-body-day")
        .with(&keys)
        .allows("mon: goblet-squat x3; push-up x3; triceps-pressdown x2")
        .allows("tue: deadlift x3; barbell-row x3; biceps-curl x2")
        .remarks("tue: barbell-row x3; biceps-curl x2; plank x2", "a multi-joint leg lift")
        .remarks("mon: goblet-squat x3; biceps-curl x3; plank x2", "a multi-joint push");
}
