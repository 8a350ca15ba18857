use super::check::check_rule;

#[test]
fn what_should_get_more_has_its_best_lift() {
    let glutes = check_rule("emphasis").with("emphasis: {glutes: more}");
    glutes
        .allows("mon: hip-thrust x4; back-squat x3; machine-hip-abduction x3")
        .falls_short(
            "mon: marching-glute-bridge x4",
            "glutes: wanted a staple that is done for it, got none",
        )
        .remarks(
            "mon: hip-thrust x4; back-squat x3",
            "glutes: wanted a second exercise that is done for it, got one",
        );
    glutes.remarks(
        "mon: hip-thrust x4; back-squat x3; dumbbell-hip-thrust x3",
        "glutes: wanted an exercise that moves the leg out, got none",
    );
    check_rule("emphasis").allows("mon: marching-glute-bridge x4");
}

#[test]
fn what_should_get_more_leads_its_region() {
    let chest = check_rule("emphasis").with("emphasis: {chest: more}");
    chest
        .allows("mon: bench-press x4; dumbbell-fly x3; triceps-pressdown x2")
        .remarks(
            "mon: bench-press x2; dumbbell-fly x2; triceps-pressdown x4",
            "chest: wanted as many sets as triceps, 5 sets, got 4 sets",
        )
        .remarks(
            "mon: bench-press x2; dumbbell-fly x2; back-squat x3; barbell-row x5",
            "chest: wanted as many sets as upper back",
        );
}
