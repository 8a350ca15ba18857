use super::check::check_rule;

#[test]
fn six_eight_and_eleven_by_status() {
    let sets = |sets: u32| format!("mon: bench-press x4; machine-chest-press x{sets}");
    for (status, cap) in [("novice", 6), ("intermediate", 8), ("advanced", 11)] {
        check_rule("session-cap")
            .with(&format!("training_status: {status}"))
            .allows(&sets(cap - 4))
            .refuses(&sets(cap - 3), &format!("mon, chest: wanted {cap} direct sets at most"));
    }
}

#[test]
fn a_body_part_split_has_eleven() {
    check_rule("session-cap")
        .with("{training_status: novice, split: body-part}")
        .allows("mon: bench-press x4; machine-chest-press x4; dip x3")
        .refuses("mon: bench-press x4; machine-chest-press x4; dip x4", "11 direct sets at most");
}

#[test]
fn indirect_sets_and_calves_are_free() {
    check_rule("session-cap")
        .with("training_status: novice")
        .allows("mon: bench-press x4; overhead-press x4; triceps-pressdown x4; calf-raise x9");
}
