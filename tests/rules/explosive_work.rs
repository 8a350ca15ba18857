use super::check::check_rule;

#[test]
fn a_power_goal_has_two_explosive_days() {
    check_rule("explosive-work")
        .with("goal: power")
        .allows("mon: box-jump x3; back-squat x3\nwed: clean-pull x3")
        .falls_short(
            "mon: box-jump x3; clean-pull x3\nwed: back-squat x3",
            "2 days with explosive work, got 1",
        );
    check_rule("explosive-work").allows("mon: back-squat x3");
}

#[test]
fn limits_may_leave_none() {
    check_rule("explosive-work")
        .with("{goal: power, limits: [ballistic]}")
        .allows("mon: back-squat x3");
}
