use super::check::check_rule;

#[test]
fn a_variant_comes_beside_its_parent() {
    check_rule("parent-first")
        .allows("mon: back-squat x3\nwed: paused-back-squat x3")
        .allows("mon: front-squat x3")
        .remarks(
            "mon: paused-back-squat x3; bench-press x3",
            "paused-back-squat: wanted `back-squat` in the week beside its variant",
        );
}

/// A parent that the client cannot do, and a variant that the client names, are reasons enough.
#[test]
fn a_reason_makes_up_for_the_parent() {
    check_rule("parent-first")
        .with("exercises: {prefer: [paused-back-squat]}")
        .allows("mon: paused-back-squat x3");
    check_rule("parent-first")
        .with("equipment: [dumbbells, barbell, kettlebell]")
        .allows("mon: paused-back-squat x3");
}
