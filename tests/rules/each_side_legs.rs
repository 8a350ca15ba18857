use super::check::check_rule;

#[test]
fn two_of_them_after_the_two_legged_main_lift() {
    check_rule("each-side-legs")
        .allows("mon: back-squat x3; split-squat x3; step-up x3")
        .remarks(
            "mon: split-squat x3; step-up x3; walking-lunge x3",
            "two leg exercises one side at a time, got 3",
        )
        .remarks(
            "mon: split-squat x3; back-squat x3",
            "mon, split-squat: wanted after the two-legged main lift",
        )
        .allows("mon: split-squat x3; one-arm-row x3; step-up x3");
}
