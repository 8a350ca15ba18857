use super::check::check_rule;

#[test]
fn four_to_ten_minutes_for_the_day_s_muscles() {
    check_rule("preparation")
        .allows("mon: prep easy-machine-start x1 of 240; back-squat x3")
        .allows("mon: back-squat x3")
        .remarks(
            "mon: prep easy-machine-start x1 of 150; back-squat x3",
            "4 to 10 minutes, got 195 s",
        )
        .remarks("mon: prep easy-machine-start x1 of 600; back-squat x3", "4 to 10 minutes")
        .remarks(
            "mon: prep easy-machine-start x1 of 240 + roll-hamstrings x1 of 30; bench-press x3",
            "mon, roll-hamstrings: wanted for a muscle the day trains",
        )
        .remarks(
            "mon: prep easy-machine-start x1 of 240 + scapular-hang-prep x1 of 10; back-squat x3",
            "scapular-hang-prep: wanted for a muscle the day trains",
        );
}

#[test]
fn four_items_at_most() {
    let items = "prep roll-quads x1 of 30 + roll-glutes x1 of 30 + roll-hamstrings x1 of 30 + roll-calves x1 of 30";
    check_rule("preparation")
        .allows(&format!("mon: {items}; leg-press x3; leg-curl x3; calf-raise x3"))
        .remarks(
            &format!("mon: {items} + roll-upper-back x1 of 30; leg-press x3; leg-curl x3; calf-raise x3; barbell-row x3"),
            "4 items at most, got 5",
        );
}

/// WU-06 (Iversen et al. 2021): no general warm-up where time is short.
#[test]
fn three_minutes_at_most_in_half_an_hour() {
    check_rule("preparation")
        .with("sessions: [{day: mon, minutes: 30}]")
        .allows("mon: prep easy-machine-start x1 of 120; back-squat x3")
        .remarks("mon: prep easy-machine-start x1 of 240; back-squat x3", "0 to 3 minutes");
}
