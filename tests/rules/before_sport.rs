use super::check::check_rule;

/// Common practice: heavy legs on Friday are carried into Sunday's race.
#[test]
fn legs_are_not_trained_hard_in_the_days_before_sport() {
    let race = "other_training: [{day: sun, load: hard, muscles: [quads, hamstrings]}]";
    check_rule("before-sport")
        .allows("fri: back-squat x4 of 8; walking-lunge x4 of 10")
        .with(race)
        .allows("mon: back-squat x4 of 8; walking-lunge x4 of 10")
        .allows("fri: back-squat x3 of 8; walking-lunge x3 of 10")
        .allows("fri: back-squat x3 of 8; leg-curl x4 of 10; bench-press x4 of 8")
        .remarks(
            "fri: back-squat x4 of 8; walking-lunge x4 of 10",
            "few hard sets for what the sport works hard soon after",
        );
    // On the eve one light lift is enough.
    check_rule("before-sport")
        .with("other_training: [{day: sat, load: hard, muscles: [quads, hamstrings]}]")
        .allows("fri: back-squat x3 of 5")
        .remarks("fri: back-squat x3 of 5; walking-lunge x2 of 10", "few hard sets");
}
