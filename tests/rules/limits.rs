use super::check::check_rule;

#[test]
fn a_limit_keeps_its_stress_out() {
    check_rule("limits")
        .with("limits: [overhead]")
        .allows("mon: bench-press x3; barbell-row x3")
        .refuses("mon: overhead-press x3", "nothing tagged `overhead`");
}

#[test]
fn a_graded_limit_keeps_out_only_the_heavy_form() {
    check_rule("limits")
        .with("limits: [{tag: spinal-compression, allow: light}]")
        .allows("mon: goblet-squat x3")
        .refuses("mon: back-squat x3", "back-squat: wanted nothing tagged `spinal-compression`");
}

#[test]
fn a_plain_limit_keeps_both_forms_out_also_of_preparation() {
    check_rule("limits")
        .with("limits: [spinal-compression]")
        .refuses("mon: goblet-squat x3", "spinal-compression");
    check_rule("limits")
        .with("limits: [supine]")
        .refuses("mon: prep roll-upper-back x1 of 30; push-up x3", "roll-upper-back");
}

/// ACOG Committee Opinion 804: no long lying on the back.
#[test]
fn pregnancy_keeps_out_lying_on_the_back() {
    check_rule("limits")
        .with("screening: {pregnant: true}")
        .allows("mon: incline-dumbbell-press x3")
        .refuses("mon: dumbbell-bench-press x3", "pregnancy keeps `supine` out");
}
