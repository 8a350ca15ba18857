use super::check::check_rule;

#[test]
fn four_muscles_that_hold_60_percent() {
    check_rule("focus")
        .allows("mon (chest, triceps): bench-press x4; triceps-pressdown x3; lateral-raise x3")
        .remarks(
            "mon (chest, triceps, biceps, lats, abs): bench-press x4",
            "four muscles at most, got 5",
        )
        .remarks("mon (chest): bench-press x4; lateral-raise x4", "60 % of the sets, got 50 %");
}

#[test]
fn a_day_for_the_whole_body_needs_no_focus() {
    check_rule("focus")
        .allows("mon: back-squat x4; bench-press x4")
        .allows("mon (quads): back-squat x3; bench-press x4; barbell-row x4");
}

#[test]
fn many_small_muscles_are_no_whole_body() {
    check_rule("focus").remarks(
        "mon (chest): bench-press x3; lateral-raise x3; biceps-curl x3; triceps-pressdown x3; face-pull x3",
        "60 % of the sets, got 20 %",
    );
}
