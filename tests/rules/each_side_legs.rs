use super::check::check_rule;

#[test]
fn two_of_them_after_the_two_legged_main_lift() {
    check_rule("each-side-legs")
        .remarks(
            "mon: split-squat x3; step-up x3; walking-lunge x3",
            "two leg exercises one side at a time, got 3",
        )
        .remarks(
            "mon: split-squat x3; back-squat x3",
            "mon, split-squat: wanted after the two-legged main lift",
        )
        .with("{equipment: [barbell, low-box, chair], limits: [spinal-compression]}")
        .allows("mon: split-squat x3; one-arm-row x3; step-up x3");
}

/// Where both legs have a load, one is enough for a day for the whole body, and two for a day for the legs.
#[test]
fn one_of_them_on_a_day_for_the_whole_body() {
    check_rule("each-side-legs")
        .allows("mon: back-squat x3; split-squat x3; step-up x3")
        .allows("mon: back-squat x3; split-squat x3; bench-press x3")
        .remarks(
            "mon: back-squat x3; split-squat x3; bench-press x3; step-up x3",
            "one leg exercise one side at a time, got 2",
        );
}
