use super::check::check_rule;

/// VO-05 (coverage of Pelland et al. 2024): about four fractional sets are worth planning.
#[test]
fn four_sets_of_a_muscle_are_the_least() {
    check_rule("volume-floor")
        .with("targets: {chest: [8, 14]}")
        .allows_in("chest", "mon: bench-press x4")
        .falls_short("mon: bench-press x3", "chest: wanted 4 sets a week at least, got 3 sets")
        .falls_short("mon: back-squat x3", "chest: wanted 4 sets a week at least, got 0 sets");
}

#[test]
fn a_target_under_four_is_its_own_floor() {
    check_rule("volume-floor")
        .with("targets: {chest: [2, 6]}")
        .allows_in("chest", "mon: bench-press x2")
        .falls_short("mon: back-squat x2", "chest: wanted 2 sets a week at least");
}
