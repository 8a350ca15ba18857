use super::check::check_rule;

#[test]
fn two_to_five_sets_and_to_four_for_a_novice() {
    check_rule("sets-per-exercise")
        .allows("mon: back-squat x5; leg-curl x2")
        .refuses("mon: back-squat x6", "2 to 5 sets, got 6")
        .refuses("mon: back-squat x1", "2 to 5 sets, got 1");
    check_rule("sets-per-exercise")
        .with("training_status: novice")
        .allows("mon: back-squat x4")
        .refuses("mon: back-squat x5", "2 to 4 sets, got 5");
}

#[test]
fn one_set_is_enough_in_short_sessions_and_over_65() {
    check_rule("sets-per-exercise")
        .with("sessions: [{day: mon, minutes: 25}]")
        .allows("mon: push-up x1; bodyweight-squat x1");
    check_rule("sets-per-exercise")
        .with("sessions: [{day: mon, minutes: 30}]")
        .refuses("mon: push-up x1", "2 to 5 sets");
    check_rule("sets-per-exercise")
        .with("{start: 2027-01-04, birth_year: 1950}")
        .allows("mon: leg-press x1");
}
