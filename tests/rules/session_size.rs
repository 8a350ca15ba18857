use super::check::check_rule;

#[test]
fn two_exercises_are_a_demand() {
    check_rule("session-size")
        .allows("mon: back-squat x3; bench-press x3")
        .refuses("mon: back-squat x5", "mon: wanted two exercises at least, got 1");
}

#[test]
fn a_quarter_of_an_hour_holds_two() {
    check_rule("session-size")
        .with("sessions: [{day: mon, minutes: 15}]")
        .allows("mon: push-up x2; bodyweight-squat x2")
        .refuses("mon: push-up x3", "two exercises at least");
}

#[test]
fn a_day_that_the_client_s_own_list_leaves_one_exercise_for_has_one() {
    let own = "{sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}],
        equipment: [barbell, squat-rack, bench], split: [[neck], [chest, front-delts]]}";
    check_rule("session-size").with(own).allows_in("mon", "mon: bench-press x3");
    check_rule("session-size").with(own).refuses("thu: bench-press x3", "two exercises at least");
}
