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

/// Common practice: what the back holds in a boat is pushed by the hips, and a heavy hinge is felt for days.
#[test]
fn hinges_and_thrusts_keep_clear_of_what_the_back_holds() {
    let rows = "other_training: [{day: sun, load: hard, muscles: [lats, spinal-erectors]}]";
    let found = "what sport works hard a day away on another day";
    check_rule("beside-sport")
        .with(rows)
        .allows("mon: back-squat x4 of 8; glute-bridge x4 of 10\nwed: deadlift x4 of 5; hip-thrust x4 of 8")
        .allows("mon: deadlift x3 of 5\nwed: back-squat x4 of 8")
        .remarks("mon: deadlift x4 of 5\nwed: back-squat x4 of 8", found)
        .remarks("mon: deadlift x3 of 5; hip-thrust x3 of 8\nwed: back-squat x4 of 8", found);
}

/// Common practice: legs that play on Saturday pull off the floor on Monday and not on Friday.
#[test]
fn the_eve_of_a_match_has_no_pull_off_the_floor() {
    let plays = "sessions: [{day: mon, minutes: 60}, {day: fri, minutes: 60}]\n\
                 other_training: [{day: sat, load: hard, muscles: [quads, calves]}]";
    check_rule("beside-sport")
        .with(plays)
        .allows("mon: deadlift x4 of 5\nfri: bench-press x4 of 5")
        .remarks("mon: bench-press x4 of 5\nfri: deadlift x4 of 5", "another day");
}

/// Common practice: what stretches one leg under a load makes it sore where it should be fast, and who learns the bar is sore
/// from it.
#[test]
fn the_eve_of_a_match_has_no_lunges_for_power() {
    let plays = "sessions: [{day: mon, minutes: 60}, {day: fri, minutes: 60}]\n\
                 other_training: [{day: sat, load: hard, muscles: [quads, glutes]}]";
    let lunges = "mon: bench-press x4 of 5\nfri: dumbbell-split-squat x2 of 8";
    check_rule("beside-sport")
        .with(&format!("goal: general-fitness\n{plays}"))
        .allows(lunges)
        .with(&format!("goal: power\n{plays}"))
        .remarks(lunges, "another day");
    let squats = "mon: bench-press x4 of 5\nfri: back-squat x3 of 8";
    check_rule("beside-sport")
        .with(&format!("training_status: intermediate\n{plays}"))
        .allows(squats)
        .with(&format!("training_status: novice\n{plays}"))
        .remarks(squats, "another day");
}

/// Common practice: where sport is near every session, lunges still keep clear of the eve of the match.
#[test]
fn of_days_that_all_are_near_sport_the_eve_of_a_match_is_the_worst() {
    let plays = "goal: power\nsessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n\
                 other_training: [{day: tue, load: hard, muscles: [quads]}, {day: thu, load: hard, muscles: [quads]}, \
                 {day: sat, load: hard, muscles: [quads]}]";
    check_rule("beside-sport")
        .with(plays)
        .allows("mon: dumbbell-split-squat x2 of 8\nfri: bench-press x3 of 5")
        .remarks("mon: bench-press x3 of 5\nfri: dumbbell-split-squat x2 of 8", "another day");
}

/// Common practice: who trains to be fast is quick under the bar the day before the match, and tired by neither cleans nor a
/// few squats.
#[test]
fn the_eve_of_a_match_has_quick_squats_and_cleans_for_power() {
    let plays = "sessions: [{day: mon, minutes: 60}, {day: fri, minutes: 60}]\n\
                 other_training: [{day: sat, load: hard, muscles: [quads, glutes]}]";
    let quick = "mon: bench-press x4 of 5\nfri: hang-power-clean x4 of 2; back-squat x4 of 3";
    check_rule("beside-sport")
        .with(&format!("goal: power\ntraining_status: intermediate\n{plays}"))
        .allows(quick)
        .with(&format!("goal: strength\ntraining_status: intermediate\n{plays}"))
        .remarks(quick, "another day");
}

/// Common practice: legs between a hard run and another have a day off where the week has a freer one.
#[test]
fn the_day_between_two_hard_ones_spares_the_legs() {
    let runs = "sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}]\n\
                other_training: [{day: sun, load: hard, muscles: [quads]}, {day: tue, load: hard, muscles: [quads]}, \
                {day: fri, load: hard, muscles: [quads]}]";
    check_rule("beside-sport")
        .with(runs)
        .allows("mon: bench-press x4 of 8\nthu: back-squat x4 of 8; leg-extension x4 of 12")
        .remarks(
            "mon: back-squat x4 of 8; leg-extension x4 of 12\nthu: bench-press x4 of 8",
            "another day",
        );
}
