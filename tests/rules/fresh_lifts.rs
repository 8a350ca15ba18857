use super::check::check_rule;

/// Common practice: the day after bench and pulldown is for the press overhead and the row.
#[test]
fn lifts_are_for_what_is_fresh() {
    let days =
        "sessions: [{day: mon, minutes: 60}, {day: tue, minutes: 60}, {day: thu, minutes: 60}]";
    check_rule("fresh-lifts")
        .with(days)
        .allows("mon: bench-press x4 of 8; lat-pulldown x4 of 8\ntue: overhead-press x3 of 8; barbell-row x3 of 8")
        .allows("mon: bench-press x4 of 8; lat-pulldown x4 of 8; back-squat x4 of 8\nthu: dumbbell-bench-press x2 of 8; pull-up x2 of 8; leg-press x2 of 8")
        .remarks(
            "mon: bench-press x4 of 8; lat-pulldown x4 of 8; back-squat x4 of 8\ntue: dumbbell-bench-press x2 of 8; pull-up x2 of 8; leg-press x2 of 8",
            "lifts for what is fresh",
        );
}
