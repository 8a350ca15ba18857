use super::check::check_rule;

#[test]
fn a_strict_low_end_is_a_demand_and_the_high_end_a_wish() {
    check_rule("weekly-volume")
        .with("targets: {chest: {range: [6, 8], strict: true}}")
        .allows_in("chest", "mon: bench-press x3\nwed: bench-press x4")
        .refuses("mon: bench-press x5", "chest: wanted 6 sets a week, got 5 sets")
        .falls_short(
            "mon: bench-press x5\nwed: bench-press x4",
            "chest: wanted 8 sets a week at most, got 9 sets",
        );
}

#[test]
fn a_plain_range_is_a_wish() {
    check_rule("weekly-volume")
        .with("targets: {chest: [6, 8]}")
        .falls_short("mon: bench-press x5", "chest: wanted 6 sets a week, got 5 sets");
}

/// VO-03 (Pelland et al. 2024): six bench and four triceps extension sets are 7.0 for the triceps, 6.0 for the chest.
#[test]
fn fractional_sets_of_the_worked_example() {
    let week = "mon: bench-press x3\nwed: bench-press x3; triceps-pressdown x4";
    check_rule("weekly-volume")
        .with("targets: {triceps: [7, 8], chest: [6, 6]}")
        .allows_in("triceps", week)
        .allows_in("chest", week);
    check_rule("weekly-volume")
        .with("targets: {triceps: [7.5, 8], chest: [6.5, 8]}")
        .falls_short(week, "triceps: wanted 7.5 sets a week, got 7 sets")
        .falls_short(week, "chest: wanted 6.5 sets a week, got 6 sets");
}

#[test]
fn muscles_without_a_target_have_a_ceiling() {
    check_rule("weekly-volume")
        .with("training_status: novice")
        .allows_in("abs", "mon: plank x4\nwed: plank x4\nfri: plank x4")
        .falls_short(
            "mon: plank x4; dead-bug x2\nwed: plank x4\nfri: plank x4",
            "abs: wanted 12 sets a week at most, got 14 sets",
        );
}

#[test]
fn jumps_give_no_sets() {
    check_rule("weekly-volume")
        .with("targets: {quads: [3, 8]}")
        .falls_short("mon: box-jump x5", "quads: wanted 3 sets a week, got 0 sets");
}
