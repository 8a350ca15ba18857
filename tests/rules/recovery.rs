use super::check::check_rule;

const DAYS: &str = "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: wed, minutes: 60}, {day: sun, minutes: 60}]";

/// RX-14 (ACSM): non-consecutive days, 48 hours or more; Monday and Wednesday hold, Monday and Tuesday do not.
#[test]
fn hard_sessions_for_a_muscle_are_two_days_apart() {
    check_rule("recovery")
        .with(DAYS)
        .allows("mon: bench-press x4\nwed: bench-press x4")
        .allows("mon: bench-press x4\ntue: bench-press x2")
        .refuses(
            "mon: bench-press x4\ntue: bench-press x3",
            "chest, mon and tue: wanted 48 h between hard sessions, got 24 h",
        );
}

#[test]
fn four_fractional_sets_are_hard_where_one_is_direct() {
    let monday = "mon: triceps-pressdown x3\n";
    check_rule("recovery")
        .with(DAYS)
        .allows(&format!("{monday}tue: bench-press x5; overhead-press x4"))
        .refuses(
            &format!("{monday}tue: triceps-pressdown x2; bench-press x4"),
            "triceps, mon and tue",
        )
        .allows(&format!("{monday}tue: triceps-pressdown x2; bench-press x3"));
}

#[test]
fn the_week_wraps_from_sunday_to_monday() {
    check_rule("recovery")
        .with(DAYS)
        .refuses("mon: bench-press x4\nsun: bench-press x4", "chest, mon and sun")
        .allows("tue: bench-press x4\nsun: bench-press x4");
}

#[test]
fn three_hours_of_grace_and_no_more() {
    let at = |hour: &str| {
        format!(
            "sessions: [{{day: mon, at: \"18:30\", minutes: 60}}, {{day: wed, at: \"{hour}\", minutes: 60}}]"
        )
    };
    check_rule("recovery")
        .with(&at("15:30"))
        .allows("mon@18:30: bench-press x4\nwed@15:30: bench-press x4");
    check_rule("recovery")
        .with(&at("15:15"))
        .refuses("mon@18:30: bench-press x4\nwed@15:15: bench-press x4", "got 45 h");
}

#[test]
fn the_client_s_own_hours_count() {
    check_rule("recovery")
        .with("recovery_hours: 72")
        .refuses("mon: bench-press x4\nwed: bench-press x4", "wanted 72 h")
        .allows("mon: bench-press x4\nfri: bench-press x4");
}

#[test]
fn abs_calves_and_forearms_are_free() {
    check_rule("recovery")
        .with(DAYS)
        .allows("mon: plank x4; calf-raise x4\ntue: plank x4; calf-raise x4");
}

#[test]
fn a_split_that_is_asked_for_makes_it_a_caution() {
    let week = "mon: bench-press x4\ntue: bench-press x4";
    check_rule("recovery").with(DAYS).with("split: full-body").remarks(week, "chest, mon and tue");
    check_rule("recovery")
        .with(DAYS)
        .with("split: [[chest], [chest], [lats], [quads]]")
        .remarks(week, "chest, mon and tue");
    check_rule("recovery").with(DAYS).with("split: auto").refuses(week, "chest, mon and tue");
}

/// RX-15 (Moran-Navarro et al. 2017): slower by a day or two after work to failure.
#[test]
fn after_failure_three_days() {
    check_rule("recovery")
        .remarks("mon: bench-press x4 rir 0\nwed: bench-press x4", "72 h after work to failure")
        .allows("mon: bench-press x4 rir 0\nfri: bench-press x4")
        .allows("mon: bench-press x4\nwed: bench-press x4 rir 0")
        .allows("mon: bench-press x4\nfri: bench-press x4 rir 0")
        .remarks("wed: bench-press x4 rir 0\nfri: bench-press x4", "chest, wed and fri");
}

#[test]
fn hard_sport_on_the_side_counts_like_a_hard_day() {
    let rows =
        |load: &str| format!("other_training: [{{day: tue, load: {load}, muscles: [lats]}}]");
    check_rule("recovery")
        .with(&rows("hard"))
        .refuses("wed: pull-up x4", "lats, wed: wanted 48 h from hard training elsewhere")
        .allows("wed: bench-press x4; pull-up x2")
        // One lift with its three sets is not worth less than two (common practice).
        .allows("wed: pull-up x3")
        .refuses("wed: pull-up x2; lat-pulldown x2", "lats, wed")
        .allows("fri: pull-up x4");
    check_rule("recovery").with(&rows("easy")).allows("wed: pull-up x4");
}
