use super::check::check_rule;

/// RX-09 (ACSM 2026 overview): what is to get strong comes at least twice a week.
#[test]
fn strength_has_each_lift_and_squat_and_bench_twice() {
    let week = "mon: back-squat x3; bench-press x3
        wed: deadlift x3; paused-bench-press x3
        fri: front-squat x3; barbell-row x3";
    let strength = check_rule("strength-lifts").with("goal: strength");
    strength
        .allows(week)
        .falls_short(&week.replace("deadlift", "hip-thrust"), "hinge: wanted a main lift")
        .falls_short(
            &week.replace("back-squat", "leg-press"),
            "squat: wanted a squat with the bar on two days, got 1",
        )
        .falls_short(
            &week.replace("paused-bench-press", "push-up"),
            "bench: wanted a bench with the bar on two days, got 1",
        )
        .falls_short(
            &week.replace("paused-bench-press", "dip").replace("bench-press", "push-up"),
            "bench: wanted a main lift that is a bench, got none",
        );
    check_rule("strength-lifts").allows("mon: leg-press x3; barbell-row x3\nwed: push-up x3");
}

#[test]
fn two_short_days_have_no_room_for_two_of_each() {
    let week = "mon: back-squat x3; bench-press x3\nwed: deadlift x3; barbell-row x3";
    let days = |minutes: u32, later: &str| {
        format!(
            "{{goal: strength, sessions: [{{day: mon, minutes: {minutes}}}, {{day: {later}, minutes: {minutes}}}]}}"
        )
    };
    check_rule("strength-lifts").with(&days(50, "wed")).allows(week);
    check_rule("strength-lifts").with(&days(60, "tue")).allows(&week.replace("wed", "tue"));
    check_rule("strength-lifts")
        .with(&days(60, "wed"))
        .falls_short(week, "squat: wanted a squat with the bar on two days, got 1")
        .falls_short(week, "bench: wanted a bench with the bar on two days, got 1")
        .allows("mon: back-squat x3; bench-press x3\nwed: deadlift x3; paused-bench-press x3; back-squat x3");
}

/// Common practice: who knows the goblet squat and no squat with the bar gets strong with what they know.
#[test]
fn a_known_lift_in_the_hands_is_the_lift() {
    let week = "mon: goblet-squat x3; bench-press x3\nwed: deadlift x3; barbell-row x3";
    let two = "{goal: strength, sessions: [{day: mon, minutes: 50}, {day: wed, minutes: 50}]}";
    check_rule("strength-lifts")
        .with(two)
        .falls_short(week, "squat: wanted a main lift")
        .with("known_lifts: {goblet-squat: {load: 20, reps: 8}}")
        .allows(week);
    check_rule("strength-lifts")
        .with(two)
        .with("known_lifts: {goblet-squat: {load: 20, reps: 8}, back-squat: {load: 60, reps: 5}}")
        .falls_short(week, "squat: wanted a main lift");
}

/// Common practice: who presses a sled and squats with no bar gets strong on two days with the sled.
#[test]
fn a_known_lift_without_a_bar_comes_on_two_days() {
    let week = "mon: leg-press x3; bench-press x3
        wed: deadlift x3; paused-bench-press x3
        fri: leg-press x3; barbell-row x3";
    let strength = check_rule("strength-lifts").with("goal: strength");
    strength.falls_short(week, "squat: wanted a main lift");
    let known = strength.with("known_lifts: {leg-press: {load: 180, reps: 6}}");
    known.allows(week).falls_short(
        &week.replace("fri: leg-press", "fri: leg-curl"),
        "squat: wanted a squat with the bar on two days, got 1",
    );
}
