use super::check::check_rule;

/// WHO 2020 asks older adults for balance on three days a week; two of them are the sessions'.
#[test]
fn from_65_on_two_days_have_balance() {
    let days = "sessions: [{day: mon, minutes: 45}, {day: thu, minutes: 45}]";
    let older = check_rule("steady")
        .with(&format!("birth_year: 1950\nstart: 2027-01-04\ntraining_status: novice\n{days}"));
    let both = "mon: goblet-box-squat x3; single-leg-stand x2\nthu: heel-to-toe-stand x2";
    let once = "mon: goblet-box-squat x3; single-leg-stand x2\nthu: goblet-box-squat x3";
    older.allows(both).falls_short(once, "week: wanted balance on two days, got 1");
    check_rule("steady").with(days).allows(once);
}
