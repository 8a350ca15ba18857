use super::check::check_rule;

#[test]
fn fresh_hands_for_a_bar_hinge() {
    check_rule("grip-order")
        .allows("mon: deadlift x3; barbell-row x3; farmer-carry x3")
        .remarks("mon: barbell-row x3; deadlift x3", "fresh hands for a bar hinge")
        .remarks("mon: barbell-row x3; bench-press x3; deadlift x3", "mon, deadlift")
        .allows("mon: barbell-row x3; bench-press x3; plank x3; deadlift x3");
}

#[test]
fn carries_and_held_hangs_come_after_hinges_and_pulls() {
    check_rule("grip-order")
        .remarks(
            "mon: farmer-carry x3; bench-press x3; seated-cable-row x3",
            "carries and hangs after the last hinge and pull",
        )
        .remarks("mon: suitcase-hold x3; bench-press x3; lat-pulldown x3", "mon, suitcase-hold");
}

#[test]
fn three_grip_items_in_a_row() {
    check_rule("grip-order")
        .allows("mon: deadlift x3; barbell-row x3; pull-up x3; bench-press x3; farmer-carry x3")
        .remarks(
            "mon: deadlift x3; barbell-row x3; pull-up x3; farmer-carry x3",
            "three grip items in a row at most",
        );
}
