use super::check::check_rule;

#[test]
fn two_heavy_lifts_and_one_heavy_hinge_a_session() {
    check_rule("heavy-lifts")
        .allows("mon: back-squat x3 of 5; bench-press x3 of 5; barbell-row x3 of 8")
        .remarks(
            "mon: back-squat x3 of 5; bench-press x3 of 5; barbell-row x3 of 6",
            "two heavy lifts at most, got 3",
        )
        .remarks(
            "mon: deadlift x3 of 5; romanian-deadlift x3 of 6",
            "one heavy hinge at most, got 2",
        )
        .allows("mon: deadlift x3 of 5; romanian-deadlift x3 of 8");
}

#[test]
fn jumps_body_weight_and_meters_are_not_heavy() {
    check_rule("heavy-lifts")
        .allows("mon: box-jump x3 of 3; back-squat x3 of 5; bench-press x3 of 5; pull-up x3 of 5");
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
