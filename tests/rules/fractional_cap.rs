use super::check::check_rule;

#[test]
fn a_muscle_s_fractional_sets_stay_under_its_cap_in_any_window() {
    let days = "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: sun, minutes: 60}]";
    check_rule("fractional-cap")
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
