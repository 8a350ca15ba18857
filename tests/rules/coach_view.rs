use super::check::check_rule;

#[test]
fn the_disliked_is_left_out() {
    check_rule("coach-view")
        .with("exercises: {avoid: [deadlift]}")
        .allows("mon: back-squat x3")
        .remarks("mon: deadlift x3", "deadlift: wanted left out (avoid)");
}
