use super::check::check_rule;

const ALL: &str = "mon: biceps-curl x3; lateral-raise x3\nwed: triceps-pressdown x3";

#[test]
fn for_size_small_muscles_have_work_of_their_own() {
    check_rule("arm-work").allows(ALL);
    for (out, muscle) in [
        ("biceps-curl", "biceps"),
        ("triceps-pressdown", "triceps"),
        ("lateral-raise", "side-delts"),
    ] {
        check_rule("arm-work").falls_short(
            &ALL.replace(out, "bench-press"),
            &format!("{muscle}: wanted work of its own, got none"),
        );
    }
}

/// The other goals and beginners ask for none, unless the client does.
#[test]
fn who_wants_it_has_it() {
    let presses = "mon: bench-press x3; barbell-row x3";
    check_rule("arm-work").with("goal: strength").allows(presses);
    check_rule("arm-work").with("training_status: novice").allows(presses);
    check_rule("arm-work")
        .with("{goal: strength, emphasis: {biceps: more}}")
        .allows("mon: biceps-curl x3")
        .falls_short(presses, "biceps: wanted work of its own");
    check_rule("arm-work")
        .with("emphasis: {biceps: less, triceps: less, side-delts: less}")
        .allows(presses);
}
