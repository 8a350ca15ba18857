use super::check::check_rule;

#[test]
fn a_novice_stays_at_level_one() {
    check_rule("level")
        .with("training_status: novice")
        .allows("mon: back-squat x3")
        .refuses("mon: front-squat x3", "level 1 at most, got level 2");
}

#[test]
fn what_is_asked_for_by_name_may_be_one_above() {
    check_rule("level")
        .with("{training_status: novice, exercises: {prefer: [front-squat], must: [single-leg-squat]}}")
        .allows("mon: front-squat x3")
        .refuses("mon: single-leg-squat x3", "level 2 at most, got level 3");
}

/// Whoever did it lately can do it.
#[test]
fn a_known_lift_may_be_one_above() {
    check_rule("level")
        .with("{training_status: novice, known_lifts: {front-squat: {load: 40, reps: 8}, bench-press: {load: 40, reps: 8}}}")
        .allows("mon: front-squat x3")
        .refuses("mon: single-leg-squat x3", "level 1 at most, got level 3");
}

#[test]
fn conditioning_has_levels_too() {
    check_rule("level")
        .with("training_status: novice")
        .allows("mon: back-squat x3; conditioning rowing-steady x1 of 300")
        .refuses("mon: back-squat x3; conditioning rowing-short-intervals x4 of 30", "level 2");
}
