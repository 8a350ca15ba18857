use super::check::check_rule;

#[test]
fn loads_climb_and_repetitions_fall_to_near_the_working_load() {
    check_rule("ramp")
        .allows("mon: bench-press x3 of 5 at 100 ramp 50x8,70x5,85x2")
        .allows("mon: bench-press x3 of 10")
        .remarks("mon: bench-press x3 of 5 at 100 ramp 50x5,70x5,85x2", "repetitions that fall")
        .remarks("mon: bench-press x3 of 5 at 100 ramp 70x8,50x5", "loads that climb")
        .remarks(
            "mon: bench-press x3 of 5 at 100 ramp 70x8,95x2",
            "a last step of 75-90 %, got 95 %",
        )
        .remarks(
            "mon: bench-press x3 of 5 at 100 ramp 40x8,70x5",
            "a last step of 75-90 %, got 70 %",
        );
}

#[test]
fn no_step_is_wider_than_35_percent_of_the_working_load() {
    check_rule("ramp").allows("mon: bench-press x3 of 8 at 100 ramp 45x8,80x4").remarks(
        "mon: bench-press x3 of 8 at 100 ramp 40x8,80x4",
        "no step over 35 % of the working load, got 40 %",
    );
}

#[test]
fn nothing_is_under_the_empty_bar() {
    check_rule("ramp")
        .allows("mon: bench-press x3 of 10 at 40 ramp 20x8,32.5x4")
        .remarks(
            "mon: bench-press x3 of 10 at 24 ramp 15x8,20x4",
            "nothing under the empty bar, got 15 kg",
        )
        .with("equipment: {barbell: {mass_kg: 15}, squat-rack: 1, bench: 1}")
        .allows("mon: bench-press x3 of 10 at 24 ramp 15x8,20x4");
}

#[test]
fn ten_minutes_at_most() {
    let lift = |id: &str| format!("{id} x3 of 5 at 100 ramp 45x8,65x5,85x2");
    check_rule("ramp")
        .allows(&format!("mon: {}; {}", lift("back-squat"), lift("bench-press")))
        .remarks(
            &format!(
                "mon: {}; {}; {}",
                lift("back-squat"),
                lift("bench-press"),
                lift("barbell-row")
            ),
            "ten minutes of ramp sets at most, got 630 s",
        );
}

#[test]
fn what_hangs_from_the_body_may_begin_with_nothing() {
    check_rule("ramp")
        .allows("mon: weighted-pull-up x3 of 5 at 20 ramp 0x4,10x2")
        .remarks("mon: weighted-pull-up x3 of 5 at 20 ramp 0x4,10x4", "repetitions that fall");
}
