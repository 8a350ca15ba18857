//! `coverage`: each week has a squat, a hinge, a push, a pull, a single-leg and a trunk exercise.
//!
//! A pattern counts only where kit and limits leave an exercise of it. Legs, an upper-body pull and an
//! upper-body push are the published minimum (Iversen et al. 2021); the rest is common practice.

use super::{Figure, Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::PATTERN_MISSING;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Pattern, Role, Sides};

/// Patterns by week.
pub(super) struct Coverage;

/// A pattern that each week should have, with its test.
type Need = (&'static str, fn(&Entry) -> bool);

const NEEDS: &[Need] = &[
    ("squat", |entry| entry.pattern == Some(Pattern::Squat)),
    ("hinge", |entry| entry.pattern == Some(Pattern::Hinge)),
    ("push", |entry| {
        matches!(entry.pattern, Some(Pattern::HorizontalPush | Pattern::VerticalPush))
    }),
    ("pull", |entry| {
        matches!(entry.pattern, Some(Pattern::HorizontalPull | Pattern::VerticalPull))
    }),
    ("single-leg", is_single_leg),
    ("trunk", |entry| entry.pattern.is_some_and(Pattern::is_trunk)),
];

/// A lunge, or a squat or hinge on each side.
fn is_single_leg(entry: &Entry) -> bool {
    match entry.pattern {
        Some(Pattern::Lunge) => true,
        Some(Pattern::Squat | Pattern::Hinge) => entry.sides == Sides::Each,
        _ => false,
    }
}

/// Hip extension stands in for a hinge that kit or limits bar.
fn stands_in(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::HipExtension)
}

/// The needs of a client, with balance work from 65 on (WHO 2020).
fn needs(request: &Request) -> Vec<Need> {
    let balance: Need = ("balance", |entry| entry.pattern == Some(Pattern::Balance));
    NEEDS.iter().copied().chain(request.needs_balance().then_some(balance)).collect()
}

/// Whether kit, limits and level leave an exercise of a pattern.
fn possible(request: &Request, test: fn(&Entry) -> bool) -> bool {
    request.candidates.iter().any(|candidate| test(&candidate.entry))
}

impl Rule for Coverage {
    fn id(&self) -> &'static str {
        "coverage"
    }
    fn summary(&self) -> &'static str {
        "each week has a squat, a hinge, a push, a pull, a single-leg and a trunk exercise"
    }
    fn force(&self) -> Force {
        Force::Coverage
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (name, test) in needs(weekly.request) {
            let hinge_barred = name == "hinge" && !possible(weekly.request, test);
            let test = if hinge_barred { stands_in } else { test };
            if !possible(weekly.request, test) {
                continue;
            }
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| test(&weekly.candidate(pick).entry))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            weekly.miss(self.id(), name, Tier::Coverage, at_least(done, 1.0), PATTERN_MISSING);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let has = |test: fn(&Entry) -> bool| week.work().any(|(_, item)| test(&item.entry));
        let any_left = |test: fn(&Entry) -> bool| request.eligible_for(Role::Work).any(test);
        needs(request)
            .into_iter()
            .filter(|(name, test)| {
                let stood_in = *name == "hinge" && !possible(request, *test) && has(stands_in);
                !has(*test) && !stood_in
            })
            .map(|(name, test)| {
                let stand_in = name == "hinge" && any_left(stands_in);
                let got = match (any_left(test), stand_in) {
                    (true, _) => Figure::None,
                    (false, true) => Figure::from("none, nor a hip extension in its place"),
                    (false, false) => Figure::NoneLeft,
                };
                let wanted = Figure::OneInTheWeek(format!("{name} exercise"));
                Finding::broken(self.id(), name, wanted, got).as_shortfall()
            })
            .collect()
    }
}
