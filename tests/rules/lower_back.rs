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

/// Common practice: a back that is sore from a hinge holds no row bent over the day after, nor the day before.
#[test]
fn rows_bent_over_keep_away_from_hinges() {
    let found = "wanted a day between a row bent over and a hinge, got none";
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}]";
    check_rule("lower-back")
        .with(days)
        .remarks("mon: barbell-row x3 of 8\ntue: deadlift x3 of 5", found)
        .remarks("mon: deadlift x3 of 5\ntue: barbell-row x3 of 8", found)
        .allows("mon: barbell-row x3 of 8\nthu: deadlift x3 of 5")
        .allows("mon: chest-supported-row x3 of 8\ntue: deadlift x3 of 5");
}
