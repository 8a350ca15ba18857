//! `main-lift-repeats`: what comes again in the week is a relative, unless the same lift again is the point.
//!
//! For strength it is, and a beginner learns by meeting a lift again; else a bench press has a dumbbell press as its
//! second day, and a row a pulldown. A beginner meets squat, hinge, push and pull at least twice. Common practice.

use std::collections::{BTreeMap, BTreeSet};

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{AGAIN_BEGINNER, AGAIN_HINGE, AGAIN_MAIN, AGAIN_OTHER, AGAIN_THIRD, MET_ONCE};
use crate::model::tier::Tier;
use crate::model::worth::for_once;
use crate::program::Term;
use crate::request::dose::Duty;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, Pattern, Status};

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

/// Whether the client learns the movements: a beginner with two days or more.
fn learns(request: &Request) -> bool {
    request.profile.training_status == Status::Novice && request.days.len() >= 2
}

/// The movements that get stronger by being done again: squats and presses.
const fn is_trained_for(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Squat | Pattern::HorizontalPush | Pattern::VerticalPush)
}

/// The days of an exercise that a week may have, and what each further one costs; what it is liked or known for counts
/// once. One heavy hinge a week is enough for a back, and its second day is a lighter relative.
fn again(request: &Request, candidate: &Candidate) -> (u32, f64) {
    let hinge = candidate.pattern == Pattern::Hinge;
    let (days, cost) =
        match (candidate.duty, request.profile.goal, request.profile.training_status) {
            (Duty::Main, Goal::Strength | Goal::Power, _) if hinge => (1, AGAIN_HINGE),
            (Duty::Main, Goal::Strength | Goal::Power, _) if is_trained_for(candidate.pattern) => (2, AGAIN_THIRD),
            (Duty::Main, _, Status::Novice) => (1, AGAIN_BEGINNER),
            (Duty::Main, _, _) if hinge => (1, AGAIN_HINGE),
            (Duty::Main, _, _) => (1, AGAIN_MAIN),
            _ => (1, AGAIN_OTHER),
        };
    (days, cost - for_once(request, candidate))
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
            let (free, cost) = again(weekly.request, exercise);
            let all = u32::try_from(row.len()).unwrap_or(u32::MAX);
            if all <= free {
                continue;
            }
            let wish = at_most(row, f64::from(free)).missed_by(f64::from(all - free));
            weekly.miss(self.id(), exercise.id.clone(), Tier::View, wish, cost);
        }
        for (name, patterns) in MOVEMENTS.into_iter().filter(|_| learns(weekly.request)) {
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
        for (name, patterns) in MOVEMENTS.into_iter().filter(|_| learns(request)) {
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
