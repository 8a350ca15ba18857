use super::check::check_rule;

#[test]
fn a_session_fits_its_minutes() {
    // The way in 30 s, set-up 60 s, sets of ten at 3 s and 10 s to get into place, rests between them.
    check_rule("session-minutes")
        .with("sessions: [{day: mon, minutes: 20}]")
        .allows("mon: bench-press x4 of 10 rest 180")
        .allows("mon: bench-press x5 of 10 rest 225")
        .refuses(
            "mon: bench-press x5 of 10 rest 240",
            "wanted 20 minutes at most, got 20 min 50 s",
        );
}

#[test]
fn pairs_ramps_and_preparation_take_time_too() {
    // 30 + 120 s set-up, three ramp sets of 70 s, eight sets of 40 s, three rests of 165 s: 1175 s.
    let pair =
        "mon: bench-press x4 of 10 rest 165 at 100 ramp 45x8,65x5,85x2 + barbell-row x4 of 10";
    check_rule("session-minutes")
        .with("sessions: [{day: mon, minutes: 20}]")
        .allows(pair)
        .refuses(&format!("{pair}; prep roll-quads x1 of 30"), "20 minutes at most");
}
