use super::check::check_rule;

#[test]
fn three_exercises_are_a_wish() {
    check_rule("exercise-count")
        .allows("mon: back-squat x3; bench-press x3; barbell-row x3")
        .remarks("mon: back-squat x3; bench-press x3", "three exercises");
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
    check_rule("exercise-count")
        .with("sessions: [{day: mon, minutes: 35}]")
        .allows(&straight(5))
        .allows("mon: bench-press x2 + seated-cable-row x2; leg-press x2 + plank x2; leg-curl x2 + lateral-raise x2")
        .remarks(&straight(6), "no more exercises than 35 minutes carry");
    check_rule("exercise-count")
        .with("sessions: [{day: mon, minutes: 90}]")
        .allows(&straight(8))
        .remarks(&straight(9), "mon");
    check_rule("exercise-count")
        .with("{training_status: novice, sessions: [{day: mon, minutes: 90}]}")
        .allows(&straight(7))
        .remarks(&straight(8), "mon");
}
