use super::check::check_rule;

/// Common practice: what the client is known to lift is where a block starts from.
#[test]
fn a_known_lift_comes_in_the_week() {
    let known = check_rule("known-lifts").with(
        "known_lifts: {bench-press: {load: 60, reps: 5, rir: 2}, dip: {load: 0, reps: 8, rir: 2}, back-squat: {load: 80, reps: 5, rir: 2}}",
    );
    known
        .allows("mon: bench-press x3; back-squat x3")
        .allows("mon: dip x3\nwed: back-squat x3")
        .falls_short(
            "mon: push-up x3; back-squat x3",
            "horizontal-push: wanted bench-press or dip, which the client knows, got none",
        )
        .falls_short(
            "mon: dip x3; leg-press x3",
            "squat: wanted back-squat, which the client knows",
        );
}

#[test]
fn what_the_client_would_rather_not_do_stays_out() {
    let week = "mon: push-up x3";
    check_rule("known-lifts").allows(week);
    let squat = "{known_lifts: {back-squat: {load: 80, reps: 5, rir: 2}}, exercises: {avoid: [back-squat]}}";
    check_rule("known-lifts").with(squat).allows(week);
}

/// Common practice: what the client likes is in the week.
#[test]
fn what_is_liked_comes_in_the_week() {
    let liked = check_rule("known-lifts").with("exercises: {prefer: [dumbbell-bench-press]}");
    liked.allows("mon: dumbbell-bench-press x3").falls_short(
        "mon: bench-press x3",
        "dumbbell-bench-press: wanted once in the week, as it is liked, got none",
    );
}
