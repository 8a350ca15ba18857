//! The model counts pairs by class; afterwards every paired exercise must find its partner, and the session its end.

use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use weekwright::Budget;
use weekwright::inner::Done;
use weekwright::inner::design;
use weekwright::inner::solve;
use weekwright::input::profile::Profile;
use weekwright::plan::pair_up;
use weekwright::planner::{Options, Planner};

use super::{drawn, profile};
use crate::cases;

const KIT: [&str; 9] = [
    "dumbbells",
    "bench",
    "kettlebell",
    "resistance-band",
    "band-anchor",
    "pull-up-bar",
    "barbell",
    "squat-rack",
    "suspension-trainer",
];

fn profiles() -> impl Strategy<Value = Profile> {
    let days = subsequence(vec!["mon", "tue", "thu", "fri", "sun"], 1..=3);
    let minutes = select(vec![25, 30, 40, 60]);
    let goals = select(vec!["hypertrophy", "strength", "general-fitness", "fat-loss", "endurance"]);
    let statuses = select(vec!["novice", "intermediate", "advanced"]);
    let supersets = select(vec!["allow", "prefer"]);
    (days, minutes, goals, statuses, supersets, subsequence(KIT.to_vec(), 1..6)).prop_map(
        |(days, minutes, goal, status, supersets, kit)| {
            let sessions: Vec<String> =
                days.iter().map(|day| format!("{{day: {day}, minutes: {minutes}}}")).collect();
            profile(&format!(
                "client: pair-01\ntraining_status: {status}\ngoal: {goal}\nequipment: [{}]\nsupersets: \
                 {supersets}\nweeks: 8\nsessions: [{}]\n",
                kit.join(", "),
                sessions.join(", ")
            ))
        },
    )
}

/// Short games: a hurried week must be as sound as a good one.
fn hurried() -> Budget {
    Budget { proposals_a_day: 1000, rounds: 0, exact_picks: 0, ..Budget::default() }
}

#[test]
fn every_paired_exercise_finds_its_partner_and_the_session_its_end() {
    let planner = Planner::built_in();
    let mut pairs = 0;
    for profile in drawn(&profiles(), cases(6)) {
        let options = Options { budget: hurried(), ..Options::default() };
        let request = planner.request(&profile, &options);
        let splits = design::candidates(&request);
        let solution = solve::best(&request, &splits, options.budget).unwrap();
        for week in std::iter::once(&solution.done).chain(&solution.later) {
            for day in 0..request.days.len() {
                let done: Vec<Done> = week.iter().copied().filter(|done| done.day == day).collect();
                for group in pair_up::groups(&request, &done) {
                    let is_paired = group.len() == 2;
                    pairs += usize::from(is_paired);
                    // What the model paired is in a pair, and small work that was left over has equal sets in one.
                    let lone = group.iter().any(|done| done.paired) && !is_paired;
                    let left_over = is_paired && group.iter().any(|done| !done.paired);
                    let uneven = group.iter().any(|done| done.paired || done.sets != group[0].sets);
                    assert!(!lone && group.len() <= 2, "{group:?}: {profile:?}");
                    assert!(!(left_over && uneven), "{group:?}: {profile:?}");
                }
            }
        }
        // The plan's own audit recounts the seconds of each session, pairs and all.
        let plan = planner.plan(&profile, &options);
        assert!(plan.is_ok(), "{:?}: {profile:?}", plan.err());
    }
    assert!(pairs > 20, "only {pairs} pairs: the profiles test nothing");
}
