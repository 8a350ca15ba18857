use super::check::check_rule;

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
