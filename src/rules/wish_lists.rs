//! `wish-lists`: what must be in the week is in it, what must never be is not.

use std::collections::BTreeSet;

use super::reason::{AskedBy, Demand, PathStep, Reason, keys};
use super::relaxation::{Change, Relaxation};
use super::{Finding, Force, Rule, Weeks};
use crate::input::profile::Limit;
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::candidate::grade;
use crate::request::{Barred, Request, Wish};
use crate::week::Week;
use crate::words::Grade;

/// At least once for each `must`; `never` is never made a variable.
pub(super) struct WishLists;

impl Rule for WishLists {
    fn id(&self) -> &'static str {
        "wish-lists"
    }
    fn summary(&self) -> &'static str {
        "what must be in the week is in it, what must never be is not"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let request = weekly.request;
        for id in &request.profile.exercises.must {
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| {
                    let candidate = weekly.candidate(pick);
                    candidate.id == *id && candidate.wish == Wish::Must
                })
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            weekly.model.demand(self.id(), id.clone(), done, Op::Ge, 1.0);
        }
    }
    fn reason(&self, request: &Request, id: &str) -> Reason {
        let mut path = keys(["exercises", "must"]);
        let place = request.profile.exercises.must.iter().position(|other| other == id);
        path.extend(place.map(PathStep::Index));
        let demand = Demand::about(&format!("`{id}`"), " must be in the week");
        Reason { demand, day: None, path, asked_by: AskedBy::Name }
    }
    fn relaxations(&self, request: &Request, id: &str) -> Vec<Relaxation> {
        if !request.profile.exercises.must.iter().any(|must| must == id) {
            return Vec::new();
        }
        let mut changes = vec![Change::DropMust(id.to_owned())];
        match (request.barred.get(id), request.entries.get(id)) {
            (Some(Barred::Kit(missing)), _) if missing.len() == 1 => {
                changes.push(Change::Kit(missing[0]));
            }
            (Some(Barred::Limit(stress)), Some(entry))
                if grade(entry, *stress) == Some(Grade::Light)
                    && request.profile.limits.contains(&Limit::Whole(*stress)) =>
            {
                changes.push(Change::Lighter(*stress));
            }
            _ => {}
        }
        changes.into_iter().map(Relaxation::Whole).collect()
    }
    fn holds_in(&self) -> Weeks {
        Weeks::Full
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let items = week.sessions.iter().flat_map(|session| &session.groups);
        let done: BTreeSet<&str> =
            items.flat_map(|group| &group.items).map(|item| item.entry.id.as_str()).collect();
        let lists = &request.profile.exercises;
        let missing =
            lists.must.iter().filter(|id| !done.contains(id.as_str())).map(|id| {
                Finding::broken(self.id(), id.clone(), "in the week (must)", "not in it")
            });
        let unwanted = lists
            .never
            .iter()
            .filter(|id| done.contains(id.as_str()))
            .map(|id| Finding::broken(self.id(), id.clone(), "never in the week", "in it"));
        missing.chain(unwanted).collect()
    }
}
