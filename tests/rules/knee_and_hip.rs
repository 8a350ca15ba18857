use super::check::check_rule;

/// Common practice: hinges fill the hamstrings' range cheaply, and tire the back; who runs squats on one leg as well.
#[test]
fn a_week_has_as_many_squats_as_hinges() {
    let hinges =
        "mon: romanian-deadlift x3 of 8\nwed: kettlebell-deadlift x3 of 10\nfri: deadlift x3 of 8";
    let three = "week: wanted as many squats as hinges, got 3 hinges more";
    check_rule("knee-and-hip")
        .remarks(hinges, three)
        .allows(&format!("{hinges}; goblet-squat x3 of 10; leg-press x3 of 10"))
        .remarks(&format!("{hinges}; dumbbell-split-squat x3 of 10; step-up x3 of 10"), three)
        .with("goal: endurance")
        .allows(&format!("{hinges}; dumbbell-split-squat x3 of 10; step-up x3 of 10"));
    check_rule("knee-and-hip").with("emphasis: {hamstrings: more}").allows(hinges);
}
