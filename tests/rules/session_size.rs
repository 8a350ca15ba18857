use super::check::check_rule;

#[test]
fn two_exercises_are_a_demand_and_three_a_wish() {
    check_rule("session-size")
        .allows("mon: back-squat x3; bench-press x3; barbell-row x3")
        .refuses("mon: back-squat x5", "mon: wanted two exercises at least, got 1")
        .remarks("mon: back-squat x3; bench-press x3", "three exercises");
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

/// One in seven minutes straight, one in five and a half paired; at most eight, seven for a novice.
#[test]
fn no_more_than_the_minutes_carry() {
    let straight = |count: usize| {
        let ids = [
            "back-squat",
            "bench-press",
            "barbell-row",
            "leg-curl",
            "lateral-raise",
            "biceps-curl",
            "calf-raise",
            "plank",
            "side-plank",
        ];
        let items: Vec<String> = ids.iter().take(count).map(|id| format!("{id} x2")).collect();
        format!("mon: {}", items.join("; "))
    };
    check_rule("session-size")
        .with("sessions: [{day: mon, minutes: 35}]")
        .allows(&straight(5))
        .allows("mon: bench-press x2 + seated-cable-row x2; leg-press x2 + plank x2; leg-curl x2 + lateral-raise x2")
        .remarks(&straight(6), "no more exercises than 35 minutes carry");
    check_rule("session-size")
        .with("sessions: [{day: mon, minutes: 90}]")
        .allows(&straight(8))
        .remarks(&straight(9), "mon");
    check_rule("session-size")
        .with("{training_status: novice, sessions: [{day: mon, minutes: 90}]}")
        .allows(&straight(7))
        .remarks(&straight(8), "mon");
}
