use super::check::check_rule;

/// Common practice: the back that holds a squat and a hinge with the bar is tired by the first.
#[test]
fn the_lower_back_holds_one_lift_a_day_and_two_where_days_are_few() {
    check_rule("lower-back")
        .allows("mon: back-squat x4 of 8; dumbbell-romanian-deadlift x3 of 10")
        .allows("mon: back-squat x4 of 8; deadlift x3 of 8\nwed: front-squat x3 of 8")
        .remarks(
            "mon: back-squat x4 of 8; deadlift x3 of 8; front-squat x3 of 10",
            "mon: wanted one squat or pull off the floor with the bar, got 3",
        )
        .remarks(
            "mon: romanian-deadlift x4 of 8; barbell-row x3 of 8; dumbbell-row x3 of 10",
            "mon: wanted one hinge or row bent over, got 3",
        )
        .allows("mon: romanian-deadlift x4 of 8; chest-supported-row x3 of 8; seated-cable-row x3");
}
