//! `strength-lifts`: where strength is the goal, squat, hinge and press each come as a main lift.
//!
//! Common practice: what is to get strong is done heavy, and a week of heavy pulls alone is no strength week.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::MAIN_MISSING;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::dose::Duty;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, Pattern};

/// A main lift for each of squat, hinge and press.
pub(super) struct StrengthLifts;

const GROUPS: [(&str, &[Pattern]); 3] = [
    ("squat", &[Pattern::Squat]),
    ("hinge", &[Pattern::Hinge]),
    ("press", &[Pattern::HorizontalPush, Pattern::VerticalPush]),
];

/// Whether an exercise is done heavy as a main lift.
fn is_heavy_main(candidate: &Candidate) -> bool {
    candidate.duty == Duty::Main && candidate.is_heavy()
}

/// Fewer days have no room for three heavy lifts beside the rest.
const LEAST_DAYS: usize = 3;

/// The groups of which the client can do a main lift.
fn wanted(request: &Request) -> impl Iterator<Item = (&'static str, &'static [Pattern])> {
    GROUPS.into_iter().filter(move |(_, patterns)| {
        let mut mains = request.candidates.iter().filter(|one| is_heavy_main(one));
        request.profile.goal == Goal::Strength
            && request.days.len() >= LEAST_DAYS
            && mains.any(|one| patterns.contains(&one.pattern))
    })
}

impl Rule for StrengthLifts {
    fn id(&self) -> &'static str {
        "strength-lifts"
    }
    fn summary(&self) -> &'static str {
        "where strength is the goal, squat, hinge and press each come as a main lift, from three days a week on"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (name, patterns) in wanted(weekly.request) {
            let mains = weekly.picks.iter().filter(|pick| {
                let candidate = weekly.candidate(pick);
                is_heavy_main(candidate) && patterns.contains(&candidate.pattern)
            });
            let done: Vec<Term> = mains.map(|pick| (pick.chosen, 1.0)).collect();
            weekly.miss(self.id(), name, Tier::View, at_least(done, 1.0), MAIN_MISSING);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let done = week.exercises();
        let is_there = |patterns: &[Pattern]| {
            request.candidates.iter().any(|one| {
                is_heavy_main(one)
                    && patterns.contains(&one.pattern)
                    && done.contains(&one.id.as_str())
            })
        };
        wanted(request)
            .filter(|(_, patterns)| !is_there(patterns))
            .map(|(name, _)| {
                let text = format!("a main lift that is a {name}");
                Finding::broken(self.id(), name, text, "none").as_remark()
            })
            .collect()
    }
}
