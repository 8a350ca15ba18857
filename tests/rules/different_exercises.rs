use super::check::check_rule;

/// Ten in two days, twelve in three, fourteen in four for a novice; 18 and 24 after.
#[test]
fn a_novice_learns_ten_in_two_days() {
    let two =
        "{training_status: novice, sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]}";
    let ten = "mon: back-squat x2; bench-press x2; barbell-row x2; plank x2; leg-curl x2
        thu: deadlift x2; overhead-press x2; lat-pulldown x2; side-plank x2; calf-raise x2";
    check_rule("different-exercises")
        .with(two)
        .allows(ten)
        .remarks(&format!("{ten}; biceps-curl x2"), "10 different exercises at most, got 11")
        .allows(&format!("{ten}; plank x2"));
    check_rule("different-exercises")
        .with("training_status: novice")
        .allows(&format!("{}; biceps-curl x2", ten.replace("thu", "fri")));
    check_rule("different-exercises").with("rules: {different-exercises: 3}").remarks(
        "mon: back-squat x2; bench-press x2; barbell-row x2; plank x2",
        "3 different exercises at most",
    );
}
