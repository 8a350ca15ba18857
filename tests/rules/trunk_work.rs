use weekwright::inner::design;
use weekwright::planner::Options;
use weekwright::rules;

use super::check::{PLANNER, check_rule};

/// Common practice: every big lift works the trunk as well.
#[test]
fn one_a_day_and_three_a_week() {
    let four = "mon: plank x3\ntue: dead-bug x3\nthu: side-plank x3\nfri: plank x3";
    let usual = check_rule("trunk-work").with(
        "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}, {day: fri, minutes: 60}]",
    );
    usual
        .allows("mon: plank x3\ntue: dead-bug x3\nthu: side-plank x3")
        .remarks("mon: plank x3; dead-bug x3", "mon: wanted 1 for the trunk at most, got 2")
        .remarks(four, "week: wanted 3 for the trunk at most, got 4");
    usual.with("emphasis: {abs: more}").allows(four);
}

#[test]
fn two_a_day_where_nothing_has_a_load() {
    let two = "mon: plank x3; dead-bug x3";
    check_rule("trunk-work")
        .with("equipment: []")
        .allows(two)
        .remarks("mon: plank x3; side-plank x3; dead-bug x3", "2 for the trunk at most, got 3");
}

/// Common practice: whatever the goal, the trunk is held against the arch of the back on one day of two.
#[test]
fn a_week_of_two_days_wishes_for_work_against_the_arch() {
    let wishes = |sessions: &str| -> Vec<String> {
        let profile = format!(
            "client: trunk-00\ngoal: hypertrophy\ntraining_status: intermediate\nequipment: [dumbbells]\nsessions: {sessions}"
        );
        let profile = serde_yaml::from_str(&profile).expect("a profile");
        let request = PLANNER.request(&profile, &Options::default());
        let split = design::candidates(&request).remove(0);
        let weekly =
            rules::weekly_model(&request, &split, &(0..request.candidates.len()).collect());
        let rows = weekly.model.rows.into_iter().filter(|row| row.rule == "trunk-work");
        rows.map(|row| row.subject).collect()
    };
    let has_front = |sessions| wishes(sessions).iter().any(|subject| subject == "front");
    assert!(has_front("[{day: mon, minutes: 60}, {day: thu, minutes: 60}]"));
    assert!(!has_front("[{day: mon, minutes: 60}]"));
}
