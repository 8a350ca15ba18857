use super::check::check_rule;

#[test]
fn a_novice_leaves_two_and_a_squat_hinge_or_press_overhead_one() {
    check_rule("reserve")
        .with("training_status: novice")
        .allows("mon: leg-press x3 of 10 rir 2")
        .remarks("mon: leg-press x3 of 10 rir 1", "2 repetitions in reserve, got 1");
    check_rule("reserve")
        .allows("mon: barbell-row x3 of 10 rir 0; overhead-press x3 of 10 rir 1")
        .remarks("mon: deadlift x3 of 8 rir 0", "1 repetitions in reserve, got 0")
        .remarks("mon: overhead-press x3 of 8 rir 0", "1 repetitions in reserve, got 0");
}

#[test]
fn repetitions_and_holds_are_a_coach_s() {
    check_rule("reserve")
        .allows("mon: biceps-curl x3 of 8; bench-press x3 of 12; plank x3 of 15; box-jump x3 of 6")
        .remarks("mon: biceps-curl x3 of 7", "8 to 30 reps, got 7")
        .remarks("mon: back-squat x3 of 13", "1 to 12 reps, got 13")
        .remarks("mon: plank x3 of 10", "15 to 60 seconds, got 10")
        .remarks("mon: plank x3 of 75", "15 to 60 seconds, got 75")
        .remarks("mon: box-jump x3 of 8", "1 to 6 reps, got 8");
}

/// RX-22 (Schoenfeld et al. 2015): 3-1-1-0 is accepted, 5-2-5-0 is not.
#[test]
fn rests_and_tempo() {
    check_rule("reserve")
        .allows("mon: leg-press x3 of 10 rest 105 tempo 3-1-1-0")
        .remarks("mon: leg-press x3 of 10 rest 100", "rests in steps of 15 s, got 100 s")
        .remarks(
            "mon: leg-press x3 of 10 tempo 5-2-5-0",
            "ten seconds a repetition at most, got 12 s",
        );
}

#[test]
fn alone_under_a_bar_without_safety_arms() {
    let rack = "equipment: [barbell, squat-rack, bench, leg-press]";
    check_rule("reserve")
        .with(rack)
        .allows("mon: bench-press x3 of 10 rir 2; leg-press x3 of 10 rir 1")
        .remarks("mon: bench-press x3 of 10 rir 1", "near failure under a bar without safety arms")
        .with("equipment: [barbell, squat-rack, bench, safety-arms]")
        .allows("mon: bench-press x3 of 10 rir 1");
}

/// RX-09 (ACSM 2026 overview): from 80 % of the maximum, which is eight repetitions to failure (RM-14).
#[test]
fn strength_is_trained_from_80_percent() {
    check_rule("reserve").with("goal: strength").allows("mon: back-squat x3 of 5 rir 3").remarks(
        "mon: back-squat x3 of 8 rir 2",
        "a main lift from 80 % of the maximum, got 8 with 2 in reserve",
    );
    check_rule("reserve")
        .with("{goal: strength, training_status: novice}")
        .allows("mon: back-squat x3 of 8 rir 2");
}
