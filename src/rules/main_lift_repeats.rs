//! `main-lift-repeats`: what comes again in the week is a relative, unless the same lift again is the point.
//!
//! For strength it is, and a beginner learns by meeting a lift again; else a bench press has a dumbbell press as its
//! second day, and a row a pulldown. A beginner meets squat, hinge, push and pull at least twice. Common practice.

use std::collections::{BTreeMap, BTreeSet};

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{
    AGAIN_BEGINNER, AGAIN_HEAVY, AGAIN_HINGE, AGAIN_MAIN, AGAIN_OTHER, AGAIN_SENIOR, AGAIN_THIRD,
    ALSO_LIKED_AGAIN, LIKED_AGAIN, LIKED_HEAVY_AGAIN, LIKED_JUMP_AGAIN, LIKED_LIGHT_AGAIN,
    MET_ONCE, SETS_AGAIN, SQUATS_ONCE,
};
use crate::model::tier::Tier;
use crate::model::worth::for_once;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::completing::rises_in_forms;
use crate::request::dose::Duty;
use crate::request::standing::loads_both_legs;
use crate::request::{Candidate, Request, Wish};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Muscle, Pattern, Side, Status};

/// Days by exercise and by movement.
pub(super) struct MainLiftRepeats;

/// The movements that a beginner meets on two days.
const MOVEMENTS: [(&str, &[Pattern]); 4] = [
    ("squat", &[Pattern::Squat, Pattern::Lunge]),
    ("hinge", &[Pattern::Hinge, Pattern::HipExtension]),
    ("push", &[Pattern::HorizontalPush, Pattern::VerticalPush]),
    ("pull", &[Pattern::HorizontalPull, Pattern::VerticalPull]),
];

fn is_of(entry: &Entry, patterns: &[Pattern]) -> bool {
    entry.pattern.is_some_and(|pattern| patterns.contains(&pattern))
}

/// Whether the client learns a movement: a beginner with two days or more, but not the legs of who runs or rides hard.
fn learns(request: &Request, patterns: &[Pattern]) -> bool {
    let legs = patterns.iter().all(|pattern| pattern.side() == Some(Side::Legs));
    request.profile.training_status == Status::Novice
        && request.days.len() >= 2
        && !(legs && request.is_of_sport(Muscle::Quads))
}

/// The movements that get stronger by being done again: squats, presses and thrusts.
const fn is_trained_for(pattern: Pattern) -> bool {
    matches!(
        pattern,
        Pattern::Squat | Pattern::HorizontalPush | Pattern::VerticalPush | Pattern::HipExtension
    )
}

/// Whether two days are free for it: a pull does not come again on the day after sport that pulled as hard.
fn has_two_days(request: &Request, candidate: &Candidate) -> bool {
    let pulls = candidate.pattern.side() == Some(Side::Pull);
    let prime = candidate.prime().filter(|_| pulls);
    let free = |day: &usize| !prime.is_some_and(|prime| request.is_after_sport(prime, *day));
    (0..request.days.len()).filter(free).count() > 1
}

/// What further days of an exercise cost: from which day on, and how much each. What it is liked or known for counts
/// once. A known squat may come heavy and light; one heavy hinge a week is enough for a back, and its
/// second day is a lighter relative.
fn again(request: &Request, candidate: &Candidate) -> Vec<(u32, f64)> {
    let profile = &request.profile;
    let hinge = candidate.pattern == Pattern::Hinge;
    let strong = matches!(profile.goal, Goal::Strength | Goal::Power);
    let novice = profile.training_status == Status::Novice;
    let known = profile.known_lifts.contains_key(&candidate.id);
    let once = for_once(request, candidate);
    let squat = candidate.pattern == Pattern::Squat;
    // Presses and thrusts that are not for strength come again as a relative, however well they are known, but for a thrust
    // where the glutes should get more: one leg on its own holds a fraction of the bar.
    let thrust = candidate.pattern == Pattern::HipExtension && request.wants_more(Muscle::Glutes);
    let twice = is_trained_for(candidate.pattern) && (strong || known && (squat || thrust));
    let fast = candidate.duty == Duty::Explosive && profile.goal == Goal::Power;
    let rested = has_two_days(request, candidate);
    let asked = candidate.is_compound() && candidate.wish == Wish::Must && rested;
    let liked = candidate.wish == Wish::Prefer && rested || asked;
    let wished = candidate.prime().is_some_and(|prime| request.wants_more(prime)) && rested;
    // What has to come, and what is for a muscle that should get more, comes on two of three days.
    let pays = (asked || wished) && request.days.len() > 2;
    let also = match candidate.pattern.flies() {
        true => LIKED_JUMP_AGAIN,
        false if pays => LIKED_AGAIN,
        false if !request.trains_heavy() => LIKED_LIGHT_AGAIN,
        false => ALSO_LIKED_AGAIN,
    };
    match candidate.duty {
        Duty::Main if hinge && (strong || !novice) => vec![(1, AGAIN_HINGE - once)],
        // What is liked and has no heavier and lighter day.
        _ if liked && !twice => vec![(1, also - once), (2, AGAIN_OTHER)],
        // A fast lift with the bar comes again, jumps and throws change.
        _ if fast && candidate.entry.load == LoadKind::BarTotal => {
            vec![(1, -once), (2, AGAIN_THIRD)]
        }
        // What is liked comes again rather than a relative.
        Duty::Main if twice && liked && request.days.len() > 2 => {
            vec![(1, LIKED_HEAVY_AGAIN - once), (2, AGAIN_THIRD)]
        }
        // For power the squat is heavy on one day and light and fast on another.
        Duty::Main if twice && (novice && squat || squats_for_power(request, candidate)) => {
            vec![(1, -once), (2, AGAIN_THIRD)]
        }
        Duty::Main if twice => vec![(1, AGAIN_HEAVY - once), (2, AGAIN_THIRD)],
        Duty::Main if request.is_senior() => vec![(1, AGAIN_SENIOR - once), (2, AGAIN_OTHER)],
        Duty::Main if novice && strong => vec![(1, AGAIN_BEGINNER - once)],
        Duty::Main => vec![(1, AGAIN_MAIN - once)],
        _ => vec![(1, AGAIN_OTHER - once)],
    }
}

fn squats_for_power(request: &Request, candidate: &Candidate) -> bool {
    request.profile.goal == Goal::Power && candidate.pattern == Pattern::Squat
}

/// Whether the client should squat on both legs on two days: heavy and light, or two forms, unless
/// sport tires the legs twice a week.
fn squats_twice(request: &Request) -> bool {
    let on_two_days = request.days.len() >= 2 && !request.is_of_sport(Muscle::Quads);
    on_two_days && !request.wants_less(Muscle::Quads) && !rises_in_forms(request)
}

/// Sets of a main lift over its days: five heavy and three light, four for who has been strong for a while, for size four
/// and three.
fn most_sets(request: &Request) -> u32 {
    match request.profile.goal {
        Goal::Strength if request.profile.training_status != Status::Novice => 9,
        Goal::Strength | Goal::Power => 8,
        _ => 7,
    }
}

impl MainLiftRepeats {
    /// What comes heavy and light has its sets on the heavy day: the light one is for the movement.
    fn add_sets(&self, weekly: &mut Weekly) {
        let mut sets: BTreeMap<usize, Vec<Pick>> = BTreeMap::new();
        for pick in weekly.picks.iter().filter(|pick| weekly.candidate(pick).duty == Duty::Main) {
            sets.entry(pick.candidate).or_default().push(*pick);
        }
        for (candidate, picks) in sets.into_iter().filter(|(_, picks)| picks.len() > 1) {
            let row = picks.iter().flat_map(|pick| pick.sets_times(1.0)).collect();
            let most = f64::from(most_sets(weekly.request));
            let subject = format!("{}_sets", weekly.request.candidates[candidate].id);
            let wish = at_most(row, most).missed_by(20.0);
            weekly.miss(self.id(), subject, Tier::View, wish, SETS_AGAIN);
        }
    }
}

impl Rule for MainLiftRepeats {
    fn id(&self) -> &'static str {
        "main-lift-repeats"
    }
    fn summary(&self) -> &'static str {
        "what comes again in the week is a relative, unless the same lift again is the point; no two days are the same"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let mut days: BTreeMap<usize, Vec<Term>> = BTreeMap::new();
        for pick in &weekly.picks {
            days.entry(pick.candidate).or_default().push((pick.chosen, 1.0));
        }
        for (candidate, row) in days {
            let exercise = &weekly.request.candidates[candidate];
            let all = u32::try_from(row.len()).unwrap_or(u32::MAX);
            for (free, cost) in again(weekly.request, exercise) {
                let subject = format!("{}_{free}", exercise.id);
                if cost > 0.0 {
                    weekly.bring_again(self.id(), subject, candidate, cost);
                } else if all > free && cost != 0.0 {
                    let wish =
                        at_most(row.clone(), f64::from(free)).missed_by(f64::from(all - free));
                    weekly.miss(self.id(), subject, Tier::View, wish, cost);
                }
            }
        }
        self.add_sets(weekly);
        let bare = weekly.request.gets_up_from_a_chair();
        let is_squat = |pick: &&Pick| {
            let one = weekly.candidate(pick);
            let loaded = loads_both_legs(&one.entry, Pattern::Squat);
            // What is asked for is squat enough.
            loaded || ((bare || one.wish == Wish::Must) && one.is_squat_on_both_legs())
        };
        let squats = weekly.picks.iter().filter(is_squat);
        let squats: Vec<Term> = squats.map(|pick| (pick.chosen, 1.0)).collect();
        if squats_twice(weekly.request) && squats.len() > 1 {
            weekly.miss(self.id(), "squats", Tier::View, at_least(squats, 2.0), SQUATS_ONCE);
        }
        for (name, patterns) in MOVEMENTS.into_iter().filter(|(_, of)| learns(weekly.request, of)) {
            let picks = weekly.picks.iter();
            let met: Vec<Term> = picks
                .filter(|pick| is_of(&weekly.candidate(pick).entry, patterns))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if met.len() > 1 {
                weekly.miss(self.id(), name, Tier::View, at_least(met, 2.0), MET_ONCE);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (name, patterns) in MOVEMENTS.into_iter().filter(|(_, of)| learns(request, of)) {
            let usable = request.candidates.iter().any(|one| is_of(&one.entry, patterns));
            let times = week.work().filter(|(_, item)| is_of(&item.entry, patterns)).count();
            if usable && times < 2 {
                let wanted = format!("a {name} on two days");
                let got = times.to_string();
                findings.push(Finding::broken(self.id(), name, wanted, got).as_remark());
            }
        }
        let days: Vec<BTreeSet<&str>> = week
            .sessions
            .iter()
            .map(|session| session.work().map(|item| item.entry.id.as_str()).collect())
            .collect();
        for (place, day) in days.iter().enumerate() {
            let same = |other: &BTreeSet<&str>| {
                let shared = day.intersection(other).count();
                !day.is_empty() && 5 * shared >= 4 * day.union(other).count()
            };
            if days[place + 1..].iter().any(same) {
                let label = week.sessions[place].label.clone();
                let got = "another day is the same";
                findings
                    .push(Finding::broken(self.id(), label, "days that differ", got).as_remark());
            }
        }
        findings
    }
}
