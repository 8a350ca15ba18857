use super::check::check_rule;

#[test]
fn must_is_in_the_week_and_never_is_not() {
    check_rule("wish-lists")
        .with("exercises: {must: [deadlift], never: [pull-up, roll-quads]}")
        .allows("mon: deadlift x3; lat-pulldown x3")
        .refuses("mon: back-squat x3", "deadlift: wanted in the week (must), got not in it")
        .refuses("mon: deadlift x3; pull-up x3", "pull-up: wanted never in the week")
        .refuses("mon: prep roll-quads x1 of 30; deadlift x3", "roll-quads: wanted never");
}
