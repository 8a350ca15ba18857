use super::check::check_rule;

#[test]
fn a_leg_day_has_a_loaded_lift_on_both_legs() {
    check_rule("leg-day")
        .allows("mon: back-squat x3; romanian-deadlift x3")
        .allows("mon: leg-press x3; dumbbell-split-squat x3; deadlift x3")
        .falls_short(
            "mon: dumbbell-split-squat x3; romanian-deadlift x3; leg-extension x3",
            "mon: wanted a loaded squat or press on both legs, got none",
        )
        .falls_short("mon: bodyweight-squat x3; deadlift x3", "a loaded squat or press")
        .with("emphasis: {quads: less}")
        .allows("mon: dumbbell-split-squat x3; romanian-deadlift x3");
}

#[test]
fn a_week_has_a_loaded_hinge_on_both_legs() {
    check_rule("leg-day")
        .falls_short(
            "mon: back-squat x3; single-leg-dumbbell-romanian-deadlift x3",
            "hinge: wanted a loaded hinge on both legs, got none",
        )
        .with("sessions: [{day: mon, minutes: 60}]")
        .allows("mon: back-squat x3; leg-curl x3");
}

/// Where both hips are driven by fast lifts, a hinge on one leg is hinge enough.
#[test]
fn for_power_a_hinge_on_one_leg_will_do() {
    let week = "mon: hang-power-clean x3; back-squat x3; single-leg-dumbbell-romanian-deadlift x3";
    let fast = "{goal: power, training_status: advanced}";
    check_rule("leg-day").with(fast).allows(week);
    check_rule("leg-day").with("{goal: power, training_status: novice}").falls_short(week, "hinge");
}

#[test]
fn a_day_for_more_than_legs_is_none() {
    check_rule("leg-day")
        .allows("mon: dumbbell-split-squat x3; bench-press x3; deadlift x3")
        .allows("mon: dumbbell-split-squat x2; deadlift x3");
    check_rule("leg-day").with("equipment: []").allows("mon: bodyweight-squat x4; split-squat x3");
}
