use super::check::check_rule;

/// Common practice: two sets of a lift that a day is built on are hardly worth its warm-up.
#[test]
fn what_a_day_is_built_on_has_three_sets() {
    check_rule("three-sets").allows("mon: back-squat x3 of 8; leg-curl x2 of 10").falls_short(
        "mon: back-squat x2 of 8; leg-curl x2 of 10",
        "back-squat mon: wanted three sets, got 2",
    );
    let row = "mon: goblet-split-squat x2 of 10; lateral-raise x2 of 12";
    check_rule("three-sets").allows(row);
    let liked = "exercises: {prefer: [goblet-split-squat, lateral-raise]}";
    check_rule("three-sets").with(liked).falls_short(row, "goblet-split-squat mon");
    let late = "birth_year: 1950\nstart: 2027-01-04\ntraining_status: novice";
    check_rule("three-sets").with(late).allows("mon: leg-press x2 of 10");
}
