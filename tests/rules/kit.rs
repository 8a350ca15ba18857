use super::check::check_rule;

#[test]
fn what_the_place_lacks_is_refused() {
    check_rule("kit")
        .with("equipment: [dumbbells]")
        .allows("mon: goblet-squat x3; push-up x3")
        .refuses("mon: back-squat x3", "the place has no barbell, no squat-rack");
}

#[test]
fn preparation_needs_its_kit_too() {
    check_rule("kit").with("equipment: [dumbbells]").refuses(
        "mon: prep roll-quads x1 of 30; goblet-squat x3",
        "roll-quads: wanted kit that is there, got the place has no foam-roller",
    );
}

#[test]
fn an_adjustable_bench_serves_as_a_bench_and_none_of_an_item_is_none() {
    check_rule("kit")
        .with("equipment: [dumbbells, adjustable-bench]")
        .allows("mon: dumbbell-bench-press x3");
    check_rule("kit")
        .with("equipment: {dumbbells: 1, bench: 0}")
        .refuses("mon: dumbbell-bench-press x3", "the place has no bench");
}
