use super::check::check_rule;

/// Common practice: where size and strength are not the goal, arms and trunk have two sets; one lift of a day may have more.
#[test]
fn small_work_has_few_sets() {
    let small = |sets: u32| {
        let lines = ["biceps-curl", "lateral-raise", "plank", "calf-raise"];
        format!("mon: {}", lines.map(|id| format!("{id} x{sets}")).join("; "))
    };
    check_rule("usual-sets")
        .with("goal: general-fitness")
        .allows(&small(2))
        .remarks(&small(3), "wanted 8 sets of small work, got 12");
    check_rule("usual-sets").with("goal: hypertrophy").allows(&small(3));
    check_rule("usual-sets").with("goal: strength").allows(&small(3));
    let learns = "goal: strength\ntraining_status: novice";
    check_rule("usual-sets").with(learns).remarks(&small(3), "8 sets of small work");
}

/// Steadiness comes from many short tries, and jumps are counted elsewhere.
#[test]
fn balance_may_have_more() {
    let day = "mon: single-leg-stand x4; heel-to-toe-stand x4; box-jump x6";
    check_rule("usual-sets").with("goal: general-fitness\nbirth_year: 1950").allows(day);
}

/// Common practice: four sets are for what leads, and lunges support it with three.
#[test]
fn only_what_leads_has_more_sets() {
    let lifts = |sets: [u32; 3]| {
        let [one, two, three] = sets;
        format!("mon: back-squat x{one}; bench-press x{two}; barbell-row x{three}")
    };
    let rule = || check_rule("usual-sets").with("goal: strength\ntraining_status: intermediate");
    rule().allows(&lifts([5, 3, 3]));
    rule().remarks(&lifts([5, 5, 5]), "wanted 11 sets of lifts, got 15");
    let lunges = "mon: walking-lunge x5; dumbbell-split-squat x5";
    rule().remarks(lunges, "wanted 6 sets of support, got 10");
}
