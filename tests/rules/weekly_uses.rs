use super::check::check_rule;

const THRICE: &str = "mon: bench-press x3\nwed: bench-press x3\nfri: bench-press x3";

#[test]
fn main_lifts_of_novices_and_for_strength_come_three_times_others_twice() {
    check_rule("weekly-uses")
        .allows("mon: bench-press x3\nwed: bench-press x3")
        .refuses(THRICE, "bench-press: wanted 2 times a week at most, got 3");
    check_rule("weekly-uses").with("training_status: novice").allows(THRICE);
    check_rule("weekly-uses").with("goal: strength").allows(THRICE);
    check_rule("weekly-uses").with("training_status: novice").refuses(
        "mon: leg-curl x3\nwed: leg-curl x3\nfri: leg-curl x3",
        "leg-curl: wanted 2 times a week at most",
    );
}

#[test]
fn trunk_and_calves_are_free() {
    let thrice = |id: &str| format!("mon: {id} x3\nwed: {id} x3\nfri: {id} x3");
    check_rule("weekly-uses").allows(&thrice("plank")).allows(&thrice("calf-raise"));
}

/// Without kit there are two exercises for the inner thigh, so half of six days.
#[test]
fn few_exercises_of_a_pattern_may_come_on_half_the_days() {
    let days = ["mon", "tue", "wed", "thu", "fri", "sat"];
    let sessions: Vec<String> =
        days.iter().map(|day| format!("{{day: {day}, minutes: 30}}")).collect();
    let week = |count: usize| {
        let lines =
            days.iter().take(count).map(|day| format!("{day}: side-lying-inner-leg-raise x2\n"));
        lines.collect::<String>()
    };
    let keys = format!("{{sessions: [{}], equipment: []}}", sessions.join(", "));
    check_rule("weekly-uses")
        .with(&keys)
        .allows(&week(3))
        .refuses(&week(4), "side-lying-inner-leg-raise: wanted 3 times a week at most, got 4");
    check_rule("weekly-uses")
        .with(&format!("sessions: [{}]", sessions.join(", ")))
        .refuses(&week(3), "2 times a week at most");
}
