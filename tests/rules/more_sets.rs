use super::check::check_rule;

#[test]
fn minutes_that_are_left_are_used() {
    check_rule("more-sets")
        .remarks(
            "mon: bench-press x2 of 10; back-squat x2 of 10; leg-curl x2 of 10",
            "chest: wanted one more set of bench-press on mon: the minutes hold it, got 2 sets",
        )
        .allows_in(
            "chest",
            "mon: bench-press x5 of 10\nwed: bench-press x5 of 10\nfri: dip x2 of 10",
        );
}

#[test]
fn where_they_are_full_nothing_is_said() {
    let ten = "{sessions: [{day: mon, minutes: 10}], targets: {chest: [6, 12]}}";
    check_rule("more-sets")
        .with(ten)
        .allows_in("chest", "mon: bench-press x2 of 10 rest 300")
        .remarks("mon: bench-press x2 of 10 rest 120", "chest: wanted one more set");
}

#[test]
fn a_cap_is_no_room_and_less_is_less() {
    check_rule("more-sets")
        .with("{training_status: novice, targets: {chest: [12, 16]}}")
        .allows_in("chest", "mon: bench-press x4 of 10; dumbbell-fly x2 of 10");
    check_rule("more-sets")
        .with("emphasis: {chest: less}")
        .allows_in("chest", "mon: bench-press x2 of 10; back-squat x2 of 10; leg-curl x2 of 10");
}
