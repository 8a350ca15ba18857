use super::check::check_rule;

#[test]
fn three_heavy_lifts_two_of_legs_and_one_hinge_a_session() {
    check_rule("heavy-lifts")
        .allows("mon: back-squat x3 of 5; deadlift x3 of 5; bench-press x3 of 5")
        .allows("mon: back-squat x3 of 5; bench-press x3 of 5; overhead-press x3 of 6; barbell-row x3 of 8")
        .remarks(
            "mon: back-squat x3 of 5; bench-press x3 of 5; overhead-press x3 of 6; barbell-row x3 of 6",
            "three heavy lifts at most, got 4",
        )
        .remarks(
            "mon: back-squat x3 of 5; front-squat x3 of 5; deadlift x3 of 5",
            "two heavy squats and hinges at most, got 3",
        )
        .remarks(
            "mon: deadlift x3 of 5; romanian-deadlift x3 of 6",
            "one heavy hinge at most, got 2",
        )
        .allows("mon: deadlift x3 of 5; romanian-deadlift x3 of 8");
}

/// The body's own weight counts like the rest; speed, one joint and meters do not.
#[test]
fn few_repetitions_of_several_joints_are_heavy() {
    let three = "mon: back-squat x3 of 5; bench-press x3 of 5; overhead-press x3 of 5";
    check_rule("heavy-lifts")
        .remarks(&format!("{three}; pull-up x3 of 5"), "three heavy lifts at most, got 4")
        .allows(&format!("{three}; box-jump x3 of 3; leg-curl x3 of 6; farmer-carry x3 of 5"));
}

#[test]
fn heavy_loads_on_the_spine_are_a_day_and_a_half_apart() {
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: wed, minutes: 60}]";
    check_rule("heavy-lifts")
        .with(days)
        .allows("mon: back-squat x3 of 5\nwed: deadlift x3 of 5")
        .remarks(
            "mon: back-squat x3 of 5\ntue: deadlift x3 of 5",
            "36 h between heavy loads on the spine, got 24 h",
        )
        .allows("mon: back-squat x3 of 5\ntue: bench-press x3 of 5");
}
