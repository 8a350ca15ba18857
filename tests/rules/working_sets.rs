use super::check::check_rule;

/// 0.40 straight and 0.60 paired sets a minute.
#[test]
fn twelve_straight_or_eighteen_paired_sets_in_half_an_hour() {
    check_rule("working-sets")
        .with("sessions: [{day: mon, minutes: 30}]")
        .allows("mon: back-squat x4; bench-press x4; barbell-row x4")
        .remarks("mon: back-squat x4; bench-press x4; barbell-row x5", "12 straight sets at most")
        .allows("mon: bench-press x5 + seated-cable-row x5; leg-press x4 + plank x4")
        .remarks(
            "mon: bench-press x5 + seated-cable-row x5; leg-press x5 + plank x5",
            "0 straight and 20 paired",
        );
}
