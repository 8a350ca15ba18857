use super::check::check_rule;

const FOUND: &str = "of a kind beside squats and hinges";

/// Common practice: one lunge, one leg curl and one calf raise fill what squats and hinges leave.
#[test]
fn what_supports_the_big_lifts_comes_once() {
    let lunges = |times: usize| {
        let days = ["mon", "wed", "fri"].map(|day| format!("{day}: walking-lunge x3 of 10"));
        days[..times].join("\n")
    };
    check_rule("support-lifts")
        .with("goal: strength")
        .allows(&lunges(1))
        .remarks(&lunges(3), FOUND)
        .with("emphasis: {quads: more}")
        .allows(&lunges(3));
    check_rule("support-lifts").with("goal: fat-loss").allows(&lunges(3));
    let liked = "goal: strength\nexercises: {prefer: [walking-lunge]}";
    check_rule("support-lifts").with(liked).allows(&lunges(3));
}

/// Common practice: a back has a heavy and a lighter hinge for strength, and one where power or size is the goal.
#[test]
fn a_back_has_few_hinges() {
    let hinges = "mon: deadlift x3 of 5\nwed: romanian-deadlift x3 of 8\nfri: dumbbell-romanian-deadlift x3 of 10";
    check_rule("support-lifts").with("goal: strength").allows(hinges);
    check_rule("support-lifts").with("goal: power").remarks(hinges, FOUND);
    let thrusts = "mon: hip-thrust x3 of 8\nfri: hip-thrust x3 of 8";
    check_rule("support-lifts").with("goal: power").remarks(thrusts, FOUND);
    check_rule("support-lifts").with("goal: strength").allows(thrusts);
}
