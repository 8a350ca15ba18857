use super::check::check_rule;

#[test]
fn eight_sets_are_shared_over_two_days() {
    check_rule("two-days")
        .allows("mon: bench-press x4\nwed: bench-press x4")
        .allows("mon: bench-press x5\nwed: bench-press x3")
        .remarks(
            "mon: bench-press x5; dip x1\nwed: bench-press x3",
            "chest, mon: wanted 65 % of its sets on one day at most, got 67 %",
        )
        .allows("mon: bench-press x5; dip x2\nwed: back-squat x3")
        .remarks("mon: bench-press x5; dip x3\nwed: back-squat x3", "got 100 %");
}

#[test]
fn one_day_a_week_has_no_choice() {
    check_rule("two-days").allows("mon: bench-press x5; dip x3");
}

/// Also without a target: a novice has none for the biceps.
#[test]
fn every_muscle_counts() {
    check_rule("two-days")
        .with("training_status: novice")
        .remarks("mon: biceps-curl x4; hammer-curl x4\nwed: back-squat x3", "biceps, mon");
}
