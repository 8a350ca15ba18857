use super::check::check_rule;

#[test]
fn one_of_a_family_a_day() {
    check_rule("family")
        .allows("mon: push-up x3; bench-press x3\nwed: incline-push-up x3")
        .refuses("mon: push-up x3; incline-push-up x3", "one of the family `push-up`")
        .refuses("mon: plank x3; plank x2", "one of the family `plank`");
}
