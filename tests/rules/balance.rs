use weekwright::words::{Pattern, Side};

use super::check::{PLANNER, check_rule};

#[test]
fn pulls_to_pushes_and_knee_to_hip() {
    check_rule("balance")
        .allows("mon: bench-press x4; barbell-row x4; back-squat x4; deadlift x4")
        .allows("mon: bench-press x4; barbell-row x5; pull-up x1")
        .falls_short(
            "mon: bench-press x4; barbell-row x3",
            "pull to push: wanted 0.9 to 1.5, got 3 to 4 sets",
        )
        .falls_short("mon: bench-press x2; barbell-row x4", "got 4 to 2 sets")
        .falls_short(
            "mon: back-squat x4; deadlift x2",
            "knee to hip: wanted 0.67 to 1.5, got 4 to 2 sets",
        )
        .falls_short("mon: back-squat x2; deadlift x4", "got 2 to 4 sets");
}

#[test]
fn knee_and_hip_have_their_isolation_but_push_and_pull_do_not() {
    check_rule("balance")
        .allows("mon: leg-extension x4; leg-curl x4")
        .allows("mon: bench-press x4; barbell-row x4; biceps-curl x2")
        .falls_short(
            "mon: bench-press x4; barbell-row x2; shoulder-blade-pull-up x4",
            "pull to push: wanted 0.9 to 1.5, got 2 to 4 sets",
        );
}

#[test]
fn over_all_sets_arms_and_shoulders_count() {
    let both = "mon: bench-press x4; barbell-row x4";
    check_rule("balance")
        .allows(&format!("{both}; biceps-curl x2"))
        .falls_short(
            &format!("{both}; biceps-curl x3"),
            "pushes to pulls over all sets: wanted 0.6 to 1.6, got 4 to 7 sets",
        )
        .allows(&format!("{both}; lateral-raise x2"))
        .falls_short(&format!("{both}; lateral-raise x3"), "got 7 to 4 sets")
        .allows(&format!(
            "{both}; lateral-raise x3; biceps-curl x3; plank x5; leg-press x3; leg-curl x3"
        ));
}

#[test]
fn the_client_s_own_band_counts() {
    check_rule("balance")
        .with("balance: {pull_push: [1.8, 2.2]}")
        .allows("mon: bench-press x2; barbell-row x4")
        .falls_short("mon: bench-press x4; barbell-row x4", "1.8 to 2.2");
}

#[test]
fn there_is_no_ratio_to_what_cannot_be_done() {
    let pushes: Vec<&str> = PLANNER
        .catalog()
        .iter()
        .filter(|entry| entry.pattern.and_then(Pattern::side) == Some(Side::Push))
        .map(|entry| entry.id.as_str())
        .collect();
    check_rule("balance")
        .with(&format!("exercises: {{never: [{}]}}", pushes.join(", ")))
        .allows("mon: barbell-row x4");
}

/// Common practice: who climbs or rows hard twice a week has pulled already.
#[test]
fn a_pulling_sport_has_done_its_share_of_pulls() {
    let few = "mon: bench-press x5; barbell-row x2; biceps-curl x3";
    let sport = "other_training: [{day: wed, load: hard, muscles: [lats]}, {day: sat, load: hard, muscles: [lats]}]";
    check_rule("balance").falls_short(few, "pull to push: wanted 0.9 to 1.5, got 2 to 5 sets");
    check_rule("balance").with(sport).allows(few);
}
