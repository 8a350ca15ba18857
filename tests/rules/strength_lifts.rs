use super::check::check_rule;

#[test]
fn strength_presses_with_a_main_lift_too() {
    let strength = check_rule("strength-lifts").with("goal: strength");
    strength
        .allows("mon: back-squat x3; bench-press x3\nwed: deadlift x3; barbell-row x3\nfri: pull-up x3")
        .allows("mon: back-squat x3; overhead-press x3\nwed: deadlift x3; barbell-row x3\nfri: pull-up x3")
        .remarks(
            "mon: back-squat x3; barbell-row x3\nwed: deadlift x3; push-up x3\nfri: pull-up x3",
            "a main lift that is a press, got none",
        );
    strength
        .with("sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}]")
        .allows("mon: back-squat x3; barbell-row x3\nwed: deadlift x3; push-up x3");
    check_rule("strength-lifts").allows("mon: back-squat x3; barbell-row x3\nwed: push-up x3");
}
