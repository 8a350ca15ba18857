use super::check::check_rule;

#[test]
fn a_power_goal_has_three_explosive_days() {
    check_rule("explosive-work")
        .with("goal: power")
        .allows("mon: box-jump x3; back-squat x3\nwed: clean-pull x3\nfri: box-jump x3")
        .falls_short(
            "mon: box-jump x3; clean-pull x3\nwed: back-squat x3\nfri: box-jump x3",
            "3 days with explosive work, got 2",
        );
    check_rule("explosive-work").allows("mon: back-squat x3");
}

#[test]
fn two_days_are_two() {
    check_rule("explosive-work")
        .with("{goal: power, sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]}")
        .allows("mon: box-jump x3\nthu: clean-pull x3")
        .falls_short("mon: box-jump x3\nthu: back-squat x3", "2 days with explosive work, got 1");
}

#[test]
fn limits_may_leave_none() {
    check_rule("explosive-work")
        .with("{goal: power, limits: [ballistic]}")
        .allows("mon: back-squat x3");
}
