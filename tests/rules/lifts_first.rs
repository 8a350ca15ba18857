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
