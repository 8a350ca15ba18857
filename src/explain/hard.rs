//! The hard rules of a request as questions: can all of them hold together, or some?

use std::collections::BTreeSet;
use std::sync::{Mutex, PoisonError};

use rayon::prelude::*;

use super::filter::{self, Group};
use crate::model::Weekly;
use crate::program::Role;
use crate::request::Request;
use crate::rules;
use crate::rules::reason::{AskedBy, reason};
use crate::search::feasibility::{Stage, THOROUGH, Verdict, any_week, broken_rows};
use crate::search::presolve::dominance;
use crate::split::Split;

/// The hard rows of a request under every split worth trying.
pub struct HardRules<'a> {
    /// For each split, the weekly model with no other rows, and without goals.
    weeks: Vec<Weekly<'a>>,
    /// What each week that was found breaks: it answers every question that does not ask for that.
    found: Mutex<Vec<BTreeSet<Group>>>,
}

impl<'a> HardRules<'a> {
    /// The rows of a request under its splits.
    #[must_use]
    pub fn of(request: &'a Request, splits: &'a [Split]) -> HardRules<'a> {
        let keep = dominance::kept(request);
        let hard = |split| rules::hard_rows_only(rules::weekly_model(request, split, &keep));
        HardRules { weeks: splits.par_iter().map(hard).collect(), found: Mutex::default() }
    }

    /// Whether the rows of some groups can hold together under one of the splits.
    #[must_use]
    pub fn verdict(&self, kept: &BTreeSet<Group>) -> Verdict {
        let found = || self.found.lock().unwrap_or_else(PoisonError::into_inner);
        if found().iter().any(|broken| broken.is_disjoint(kept)) {
            return Verdict::Feasible;
        }
        // Nobody waits for an answer any more.
        if self.weeks.first().is_some_and(|weekly| weekly.request.turn.is_over()) {
            return Verdict::Unknown;
        }
        let of_groups = |weekly: &Weekly<'a>| {
            let mut weekly = weekly.clone();
            let rows = &mut weekly.model.rows;
            rows.retain(|row| row.role == Role::Definition || kept.contains(&filter::group(row)));
            weekly
        };
        let weeks: Vec<Weekly> = self.weeks.par_iter().map(of_groups).collect();
        let asked = any_week(&weeks, &THOROUGH);
        if let Some((place, values)) = &asked.week
            && let Some(broken) = broken_rows(&self.weeks[*place], values)
        {
            found().push(broken.into_iter().map(filter::group).collect());
        }
        asked.verdict()
    }

    /// Whether all rows can hold together.
    #[must_use]
    pub fn all(&self) -> Verdict {
        any_week(&self.weeks, &THOROUGH).verdict()
    }

    /// Where all rows are quickly seen to hold together under a split: the places of those that are not proven to be
    /// impossible.
    #[must_use]
    pub fn open_splits(&self, stages: &[Stage]) -> Option<Vec<usize>> {
        let asked = any_week(&self.weeks, stages);
        asked.week.map(|_| asked.open)
    }

    /// Every group, the ones a coach would blame last at the front of the list: caps go first, then the
    /// minutes, then what the profile demands by name.
    #[must_use]
    pub fn groups(&self) -> Vec<Group> {
        let mut groups: BTreeSet<Group> = BTreeSet::new();
        for weekly in &self.weeks {
            let rows = weekly.model.rows.iter().filter(|row| row.role != Role::Definition);
            groups.extend(rows.map(filter::group));
        }
        let mut groups: Vec<Group> = groups.into_iter().collect();
        if let Some(weekly) = self.weeks.first() {
            groups.sort_by_key(|group| asked_by(weekly.request, group));
        }
        groups
    }
}

/// Who asks for a group of rows.
pub(super) fn asked_by(request: &Request, (rule, subject): &Group) -> AskedBy {
    reason(request, rule, subject).asked_by
}
