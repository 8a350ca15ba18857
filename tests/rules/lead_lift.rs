use super::check::check_rule;

#[test]
fn the_first_lift_is_multi_joint_for_the_focus_and_has_the_most_sets() {
    check_rule("lead-lift")
        .allows("mon (chest, lats): bench-press x4; barbell-row x4; lateral-raise x3")
        .allows("mon (quads, chest): box-jump x3; back-squat x4; bench-press x3")
        .remarks(
            "mon (side-delts, chest): lateral-raise x4; bench-press x4",
            "a multi-joint lift first",
        )
        .remarks(
            "mon (quads, glutes, chest): bench-press x4; back-squat x4",
            "one of the first two focus muscles",
        )
        .remarks(
            "mon (chest, lats): bench-press x3; barbell-row x4",
            "the most sets of the day, got 3 of 4",
        );
}

#[test]
fn emphasis_may_break_it() {
    check_rule("lead-lift")
        .with("emphasis: {side-delts: more}")
        .allows("mon (chest, lats): lateral-raise x3; bench-press x4");
}
