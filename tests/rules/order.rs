use super::check::check_rule;

/// RX-20 (ACSM 2009): power first, multi-joint before single-joint.
#[test]
fn a_session_never_climbs_back() {
    check_rule("order")
        .allows("mon: prep roll-quads x1 of 30; box-jump x3 of 3; back-squat x3 of 5; bench-press x3 of 10; biceps-curl x3 of 10; plank x3 of 30; finisher squat-bout x1; conditioning rowing-steady x1 of 300")
        .remarks("mon: biceps-curl x3 of 10; bench-press x3 of 10", "mon, bench-press: wanted bigger work first")
        .remarks("mon: back-squat x3 of 5; box-jump x3 of 3", "mon, box-jump")
        .remarks("mon: bench-press x3 of 10; back-squat x3 of 5", "mon, back-squat")
        .remarks("mon: plank x3 of 30; biceps-curl x3 of 10", "mon, biceps-curl")
        .remarks("mon: conditioning rowing-steady x1 of 300; plank x3 of 30", "mon, plank");
}

/// RX-21 (Nunes et al. 2021): what matters most may come first.
#[test]
fn emphasis_may_break_it() {
    check_rule("order")
        .with("emphasis: {biceps: more}")
        .allows("mon: biceps-curl x3 of 10; bench-press x3 of 10");
}

/// Common practice: balance is done while the legs are fresh.
#[test]
fn balance_may_come_early() {
    check_rule("order")
        .allows("mon: goblet-squat x3 of 10; heel-to-toe-stand x2 of 20; bench-press x3 of 10")
        .allows("mon: goblet-squat x3 of 10; single-leg-stand x2 of 20 + plank x2 of 20; bench-press x3 of 10")
        .remarks("mon: goblet-squat x3 of 10; plank x2 of 20; bench-press x3 of 10", "mon, bench-press");
}
