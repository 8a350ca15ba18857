use super::check::check_rule;

#[test]
fn a_muscle_s_fractional_sets_stay_under_its_cap_in_any_window() {
    let days = "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: sun, minutes: 60}]";
    check_rule("fractional-cap")
        .with("goal: general-fitness")
        .with(days)
        .allows("mon: bench-press x5; machine-chest-press x3")
        .remarks(
            "mon: bench-press x5; machine-chest-press x4",
            "chest, from mon: wanted 8 sets at most, got 9 sets",
        )
        .remarks("mon: bench-press x5\ntue: machine-chest-press x4", "chest, from mon")
        .remarks("mon: bench-press x5\nsun: machine-chest-press x4", "chest, from sun")
        .allows("mon: bench-press x5\nthu: machine-chest-press x4");
}

#[test]
fn indirect_sets_count_a_half() {
    check_rule("fractional-cap")
        .with("goal: general-fitness")
        .allows("mon: triceps-pressdown x4; bench-press x4; overhead-press x4")
        .remarks(
            "mon: triceps-pressdown x4; bench-press x5; overhead-press x4",
            "triceps, from mon: wanted 8 sets at most, got 8.5 sets",
        );
}

#[test]
fn calves_are_free() {
    check_rule("fractional-cap").allows("mon: calf-raise x5; leg-press-calf-press x5");
}

/// Eleven fractional sets are where a preprint no longer sees a gain (Remmert et al. 2025).
#[test]
fn for_size_and_by_wish_it_reaches_further() {
    let nine = "mon: bench-press x5; machine-chest-press x4";
    check_rule("fractional-cap").with("goal: hypertrophy").allows(nine).remarks(
        "mon: bench-press x6; machine-chest-press x6",
        "chest, from mon: wanted 11 sets at most, got 12 sets",
    );
    check_rule("fractional-cap")
        .with("goal: general-fitness")
        .with("emphasis: {chest: more}")
        .allows(nine);
}
