use super::check::check_rule;

const ALL: &str = "mon: bench-press x3; overhead-press x3\nwed: barbell-row x3; lat-pulldown x3";

#[test]
fn both_planes_of_push_and_pull_from_three_days() {
    check_rule("planes").allows(ALL);
    for (out, plane) in [
        ("bench-press", "horizontal-push"),
        ("overhead-press", "vertical-push"),
        ("barbell-row", "horizontal-pull"),
        ("lat-pulldown", "vertical-pull"),
    ] {
        check_rule("planes")
            .falls_short(&ALL.replace(out, "plank"), &format!("a {plane} in the week"));
    }
}

#[test]
fn two_days_may_leave_one_out_and_rather_do_not() {
    check_rule("planes")
        .with("sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}]")
        .allows(ALL)
        .remarks("mon: bench-press x3\nwed: barbell-row x3", "a vertical-push in the week");
    check_rule("planes")
        .with("sessions: [{day: mon, minutes: 60}]")
        .allows("mon: bench-press x3; barbell-row x3");
}

#[test]
fn limits_take_a_plane_out() {
    check_rule("planes")
        .with("limits: [overhead]")
        .allows(&ALL.replace("overhead-press", "plank").replace("lat-pulldown", "plank"));
    check_rule("planes")
        .with("{training_status: novice}")
        .falls_short(&ALL.replace("overhead-press", "plank"), "a vertical-push in the week");
}

/// Common practice: who should spare the arms overhead is not asked for work there.
#[test]
fn a_limit_overhead_leaves_the_planes_overhead_out() {
    let level = "mon: bench-press x3\nwed: barbell-row x3";
    for limit in ["overhead", "{tag: overhead, allow: light}"] {
        check_rule("planes").with(&format!("limits: [{limit}]")).allows(level);
    }
    check_rule("planes").with("limits: [grip]").falls_short(level, "a vertical-push in the week");
}
