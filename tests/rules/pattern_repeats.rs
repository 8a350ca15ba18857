use super::check::check_rule;

#[test]
fn two_of_a_pattern_and_three_of_a_prime_mover() {
    check_rule("pattern-repeats")
        .allows("mon: back-squat x3; leg-press x3; split-squat x3")
        .remarks(
            "mon: back-squat x3; leg-press x3; hack-squat x3",
            "mon, squat: wanted two exercises at most, got 3",
        )
        .remarks(
            "mon: back-squat x3; leg-press x3; split-squat x3; leg-extension x3",
            "mon, quads: wanted three exercises at most, got 4",
        );
}

#[test]
fn a_novice_has_no_two_that_are_alike() {
    check_rule("pattern-repeats")
        .with("training_status: novice")
        .allows("mon: bench-press x3; incline-dumbbell-press x3")
        .remarks(
            "mon: back-squat x3; leg-press x3",
            "mon, back-squat and leg-press: wanted one of them",
        );
    check_rule("pattern-repeats").allows("mon: back-squat x3; leg-press x3");
}
