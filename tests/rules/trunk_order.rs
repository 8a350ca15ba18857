use super::check::check_rule;

#[test]
fn the_trunk_is_fresh_for_squats_hinges_and_carries() {
    check_rule("trunk-order")
        .allows("mon: back-squat x3; deadlift x3; weighted-sit-up x3; back-extension x3")
        .remarks(
            "mon: weighted-sit-up x3; back-squat x3",
            "weighted-sit-up: wanted after the last squat, hinge and carry",
        )
        .remarks("mon: back-squat x3; back-extension x3; deadlift x3", "mon, back-extension")
        .remarks("mon: weighted-sit-up x3; farmer-carry x3", "mon, weighted-sit-up")
        .allows("mon: plank x3; back-squat x3");
}
