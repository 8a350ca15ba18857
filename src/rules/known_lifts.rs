//! `known-lifts`: of each movement whose main lift the client knows, one of those lifts comes in the week, and so does
//! every exercise that the client likes.
//!
//! A load that is known is where the block starts from; a plan that leaves the lift out throws it away. Common practice.

use std::collections::{BTreeMap, BTreeSet};

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::{KNOWN_MISSING, LIKED_MISSING};
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::dose::Duty;
use crate::request::{Candidate, Request, Wish};
use crate::week::Week;
use crate::words::Pattern;

/// Known main lifts by movement.
pub(super) struct KnownLifts;

/// Whether the client did this main lift, or fast lift, lately and has nothing against it.
fn is_known(request: &Request, one: &Candidate) -> bool {
    let known = request.profile.known_lifts.contains_key(&one.id);
    known && matches!(one.duty, Duty::Main | Duty::Explosive) && one.wish != Wish::Avoid
}

/// The usable known lifts of each movement.
fn known(request: &Request) -> BTreeMap<Pattern, BTreeSet<&str>> {
    let mut known: BTreeMap<Pattern, BTreeSet<&str>> = BTreeMap::new();
    for one in request.candidates.iter().filter(|one| is_known(request, one)) {
        known.entry(one.pattern).or_default().insert(&one.id);
    }
    known
}

/// The usable exercises that the client likes.
fn liked(request: &Request) -> impl Iterator<Item = (usize, String)> {
    let all = request.candidates.iter().enumerate();
    let liked = all.filter(|(_, one)| one.wish == Wish::Prefer);
    liked.map(|(place, one)| (place, one.id.clone()))
}

impl Rule for KnownLifts {
    fn id(&self) -> &'static str {
        "known-lifts"
    }
    fn summary(&self) -> &'static str {
        "of each movement whose main lift the client knows one comes in the week, and all that is liked"
    }
    fn force(&self) -> Force {
        Force::Coverage
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (pattern, lifts) in known(weekly.request) {
            let picks = weekly.picks.iter();
            let done: Vec<Term> = picks
                .filter(|pick| lifts.contains(weekly.candidate(pick).id.as_str()))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if !done.is_empty() {
                let subject = pattern.id();
                weekly.miss(self.id(), subject, Tier::Coverage, at_least(done, 1.0), KNOWN_MISSING);
            }
        }
        for (place, one) in liked(weekly.request).collect::<Vec<_>>() {
            let picks = weekly.picks.iter().filter(|pick| pick.candidate == place);
            let done: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
            if !done.is_empty() {
                let wish = at_least(done, 1.0);
                weekly.miss(self.id(), one, Tier::Coverage, wish, LIKED_MISSING);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let done: BTreeSet<&str> = week.work().map(|(_, item)| item.entry.id.as_str()).collect();
        let missing = known(request).into_iter().filter(|(_, lifts)| lifts.is_disjoint(&done));
        let unliked = liked(request).filter(|(_, id)| !done.contains(id.as_str()));
        let unliked = unliked.map(|(_, id)| {
            Finding::broken(self.id(), id, "once in the week, as it is liked", "none")
                .as_shortfall()
        });
        missing
            .map(|(pattern, lifts)| {
                let lifts: Vec<&str> = lifts.into_iter().collect();
                let wanted = format!("{}, which the client knows", lifts.join(" or "));
                Finding::broken(self.id(), pattern.id(), wanted, "none").as_shortfall()
            })
            .chain(unliked)
            .collect()
    }
}
