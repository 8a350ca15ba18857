use super::check::check_rule;

#[test]
fn two_of_a_pattern_and_three_of_a_prime_mover() {
    check_rule("pattern-repeats")
        .allows("mon: back-squat x3; leg-press x3; split-squat x3")
        .remarks(
            "mon: back-squat x3; leg-press x3; hack-squat x3",
            "mon, squat: wanted 2 of the pattern at most, got 3",
        )
        .remarks(
            "mon: back-squat x3; leg-press x3; split-squat x3; leg-extension x3",
            "mon, quads: wanted three exercises at most, got 4",
        );
}

#[test]
fn one_hinge_is_enough_for_a_back() {
    check_rule("pattern-repeats").allows("mon: deadlift x3; hip-thrust x3").remarks(
        "mon: deadlift x3; romanian-deadlift x3",
        "mon, hinge: wanted 1 of the pattern at most, got 2",
    );
}

/// A day for the whole body has one of each big movement; the client's own lists may mix them.
#[test]
fn a_day_for_everything_has_one_of_each() {
    let two = "mon: back-squat x3; leg-press x3; bench-press x3; barbell-row x3";
    check_rule("pattern-repeats")
        .remarks(two, "mon, squat: wanted 1 of the pattern at most, got 2")
        .allows(&two.replace("leg-press", "split-squat"));
    check_rule("pattern-repeats")
        .with("split: [[quads, chest, upper-back], [chest], [lats]]")
        .allows(two);
}

#[test]
fn one_of_one_joint() {
    check_rule("pattern-repeats")
        .remarks("mon: biceps-curl x3; hammer-curl x3", "1 of one joint at most, got 2");
    check_rule("pattern-repeats")
        .with("split: body-part")
        .allows("mon: biceps-curl x3; hammer-curl x3");
}

#[test]
fn a_novice_has_no_two_that_are_alike() {
    check_rule("pattern-repeats")
        .with("training_status: novice")
        .allows("mon: bench-press x3; close-grip-bench-press x3")
        .remarks(
            "mon: back-squat x3; leg-press x3",
            "mon, back-squat and leg-press: wanted one of them",
        );
    check_rule("pattern-repeats").allows("mon: back-squat x3; leg-press x3");
}

/// Common practice: a second squat of the day is guided or on one leg.
#[test]
fn one_squat_without_a_machine_is_enough_for_a_day() {
    let two = "mon: back-squat x3; goblet-squat x3; barbell-row x3";
    check_rule("pattern-repeats")
        .with("split: [[quads, chest, upper-back], [chest], [lats]]")
        .remarks(two, "mon, squats: wanted one squat without a machine at most, got 2")
        .allows(&two.replace("goblet-squat", "leg-press"))
        .allows(&two.replace("goblet-squat", "dumbbell-split-squat"));
}

/// Common practice: the third lift with the bar for the legs begins with a tired back.
#[test]
fn two_bars_are_enough_for_the_legs_of_a_day() {
    check_rule("pattern-repeats")
        .allows("mon: deadlift x4 of 5; back-squat x3 of 5; leg-press x3 of 8")
        .remarks(
            "mon: deadlift x4 of 5; back-squat x3 of 5; hip-thrust x3 of 8",
            "mon: wanted two lifts with the bar for the legs at most, got 3",
        );
}

/// Common practice: of lunges, split squats and step-ups the second tires what the first has tired.
#[test]
fn one_lunge_is_enough_for_a_day() {
    let two = "mon: back-squat x3; dumbbell-split-squat x3; step-up x3";
    check_rule("pattern-repeats")
        .remarks(two, "mon, lunges: wanted one lunge, split squat or step-up at most, got 2")
        .allows(&two.replace("; step-up x3", "; leg-curl x3"));
}
