use weekwright::words::Pattern;

use super::check::{PLANNER, check_rule};

const ALL: &str = "mon: back-squat x3; romanian-deadlift x3; bench-press x3\nwed: split-squat x3; barbell-row x3; plank x3";

#[test]
fn squat_hinge_push_pull_single_leg_and_trunk() {
    check_rule("coverage").allows(ALL);
    for (out, need) in [
        ("back-squat", "squat"),
        ("romanian-deadlift", "hinge"),
        ("bench-press", "push"),
        ("split-squat", "single-leg"),
        ("barbell-row", "pull"),
        ("plank", "trunk"),
    ] {
        let week = ALL.replace(out, "biceps-curl");
        check_rule("coverage")
            .falls_short(&week, &format!("{need}: wanted a {need} exercise in the week, got none"));
    }
}

#[test]
fn a_squat_on_each_side_is_single_leg_work() {
    check_rule("coverage").allows(&ALL.replace("split-squat", "staggered-squat"));
}

#[test]
fn a_bridge_stands_in_where_no_hinge_is_left() {
    let hinges: Vec<&str> = PLANNER
        .catalog()
        .iter()
        .filter(|entry| entry.pattern == Some(Pattern::Hinge))
        .map(|entry| entry.id.as_str())
        .collect();
    let barred = format!("exercises: {{never: [{}]}}", hinges.join(", "));
    check_rule("coverage")
        .with(&barred)
        .allows(&ALL.replace("romanian-deadlift", "hip-thrust"))
        .falls_short(
            &ALL.replace("romanian-deadlift", "leg-curl"),
            "nor a hip extension in its place",
        );
    check_rule("coverage").falls_short(&ALL.replace("romanian-deadlift", "hip-thrust"), "hinge");
}

#[test]
fn a_pattern_that_nothing_is_left_of_is_named_once() {
    let week = ALL.replace("barbell-row", "biceps-curl");
    let pulls: Vec<&str> = PLANNER
        .catalog()
        .iter()
        .filter(|entry| {
            matches!(entry.pattern, Some(Pattern::HorizontalPull | Pattern::VerticalPull))
        })
        .map(|entry| entry.id.as_str())
        .collect();
    check_rule("coverage")
        .with(&format!("exercises: {{never: [{}]}}", pulls.join(", ")))
        .falls_short(
            &week,
            "pull: wanted a pull exercise in the week, got none that kit and limits leave",
        );
}

/// WHO 2020: balance work from 65 on.
#[test]
fn balance_work_from_65_on() {
    check_rule("coverage")
        .with("{start: 2027-01-04, birth_year: 1950}")
        .falls_short(ALL, "a balance exercise in the week");
}
