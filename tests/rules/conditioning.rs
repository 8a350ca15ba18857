use super::check::check_rule;

#[test]
fn last_and_up_to_a_quarter() {
    check_rule("conditioning")
        .allows("mon: bench-press x3; conditioning rowing-steady x1 of 840")
        .remarks(
            "mon: bench-press x3; conditioning rowing-steady x1 of 900",
            "900 s at most, got 960 s",
        )
        .remarks(
            "mon: conditioning rowing-steady x1 of 300; bench-press x3",
            "after the strength work",
        )
        .allows("mon: conditioning rowing-steady x1 of 2400");
}

#[test]
fn hard_intervals_are_a_day_before_heavy_legs() {
    let days = "sessions: [{day: mon, at: \"18:00\", minutes: 60}, {day: tue, at: \"07:00\", minutes: 60}, {day: wed, at: \"18:00\", minutes: 60}]";
    let bike = "mon@18:00: bench-press x3; conditioning stationary-bike-intervals x4 of 60\n";
    let row = "mon@18:00: bench-press x3; conditioning rowing-short-intervals x4 of 30\n";
    check_rule("conditioning")
        .with(days)
        .remarks(&format!("{bike}tue@07:00: back-squat x4"), "24 h before heavy work on tue@07:00, got 13 h")
        .allows(&format!("{bike}wed@18:00: back-squat x4"))
        .allows(&format!("{bike}tue@07:00: pull-up x4"))
        .remarks(&format!("{row}tue@07:00: pull-up x4"), "rowing-short-intervals")
        .allows("mon@18:00: bench-press x3; conditioning rowing-steady x1 of 300\ntue@07:00: back-squat x4");
}
