use super::check::check_rule;

/// Common practice: calves are sore after the long run, and legs are not trained the day before the race.
#[test]
fn what_sport_works_hard_a_day_away_has_another_day() {
    let run = "other_training: [{day: sun, load: hard, muscles: [quads, calves]}]";
    check_rule("beside-sport")
        .allows("mon: back-squat x4 of 8; calf-raise x3 of 12\nwed: bench-press x3 of 8")
        .with(run)
        .allows("mon: bench-press x4 of 8; leg-curl x3 of 12\nwed: back-squat x4 of 8; calf-raise x3 of 12")
        .allows("mon: back-squat x3 of 8; calf-raise x3 of 12\nwed: bench-press x3 of 8")
        .remarks(
            "mon: back-squat x4 of 8; calf-raise x3 of 12\nwed: bench-press x3 of 8",
            "what sport works hard a day away on another day",
        );
}
