use super::check::check_rule;

/// Common practice: a fly beside a press rounds a week off.
#[test]
fn a_press_for_every_fly() {
    check_rule("lifts-first")
        .allows("mon: bench-press x4; dumbbell-fly x3")
        .remarks(
            "mon: bench-press x4; dumbbell-fly x3\nwed: cable-fly x3",
            "chest: wanted as many lifts as exercises of one joint, got 1 and 2",
        )
        .with("emphasis: {chest: more}")
        .allows("mon: bench-press x4; dumbbell-fly x3\nwed: cable-fly x3");
}

/// Common practice: a press-down rounds a day of presses off.
#[test]
fn the_arms_have_their_lift_where_size_is_not_the_goal() {
    check_rule("lifts-first")
        .with("goal: fat-loss")
        .allows("mon: push-up x3; triceps-pressdown x3; barbell-row x3; biceps-curl x3")
        .remarks(
            "mon: back-squat x3; triceps-pressdown x3",
            "mon: wanted a press with the small work for the triceps, got none",
        )
        .with("emphasis: {triceps: more}")
        .allows("mon: back-squat x3; triceps-pressdown x3");
}
