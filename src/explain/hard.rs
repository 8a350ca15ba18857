//! The hard rules of a request as questions: can all of them hold together, or some?

use std::collections::BTreeSet;

use rayon::prelude::*;

use super::conflict::blame;
use super::filter::{self, Group, Verdict};
use super::idle;
use crate::model::Weekly;
use crate::program::Model;
use crate::request::Request;
use crate::rules::{self, MEANING};
use crate::solution::{quick, reduce};
use crate::split::Split;

/// Nodes of a first look by the solver's tree, which answers most of what a short game leaves open.
const FEW_NODES: u64 = 50;

/// The hard rows of a request under every split worth trying.
pub struct HardRules<'a> {
    /// For each split, the weekly model with no other rows, and without goals.
    weeks: Vec<Weekly<'a>>,
}

/// What is asked about one split: the rows that are kept, and the same without the exercises that do not matter.
struct Question<'a> {
    weekly: Weekly<'a>,
    fewer: Model,
}

impl Question<'_> {
    fn game(&self, changes_a_day: u32) -> bool {
        quick::meets(&self.weekly, changes_a_day)
    }
}

impl<'a> HardRules<'a> {
    /// The rows of a request under its splits.
    #[must_use]
    pub fn of(request: &'a Request, splits: &'a [Split]) -> HardRules<'a> {
        let keep = reduce::kept(request);
        let hard = |split| rules::hard_rows_only(rules::weekly_model(request, split, &keep));
        HardRules { weeks: splits.par_iter().map(hard).collect() }
    }

    /// Whether the rows of some groups can hold together under one of the splits; `None` takes all groups.
    #[must_use]
    pub fn verdict(&self, kept: Option<&BTreeSet<Group>>) -> Verdict {
        let mut open = match self.relaxed(kept) {
            Ok(open) => open,
            Err(known) => return known,
        };
        let [short, long] = quick::ANY_WEEK;
        if open.par_iter().any(|one| one.game(short)) {
            return Verdict::Feasible;
        }
        if let Some(known) = searched(&mut open, |_| FEW_NODES) {
            return known;
        }
        if open.par_iter().any(|one| one.game(long)) {
            return Verdict::Feasible;
        }
        searched(&mut open, filter::nodes).unwrap_or(Verdict::Unknown)
    }

    /// Whether all rows are seen to hold together without the solver's tree.
    #[must_use]
    pub fn hold(&self) -> bool {
        match self.relaxed(None) {
            Ok(open) => {
                quick::ANY_WEEK.iter().any(|changes| open.par_iter().any(|one| one.game(*changes)))
            }
            Err(known) => known == Verdict::Feasible,
        }
    }

    /// The answer of the relaxations, or the questions that they leave open.
    fn relaxed(&self, kept: Option<&BTreeSet<Group>>) -> Result<Vec<Question<'a>>, Verdict> {
        let is_kept = |group: &Group| kept.is_none_or(|kept| kept.contains(group));
        let ask = |weekly: &Weekly<'a>| {
            let mut weekly = weekly.clone();
            weekly
                .model
                .rows
                .retain(|row| MEANING.contains(&row.rule) || is_kept(&filter::group(row)));
            let fewer = idle::without_idle(&weekly);
            (filter::relaxed(&fewer), Question { weekly, fewer })
        };
        let answers: Vec<(Verdict, Question)> = self.weeks.par_iter().map(ask).collect();
        if answers.iter().any(|(answer, _)| *answer == Verdict::Feasible) {
            return Err(Verdict::Feasible);
        }
        let open = answers.into_iter().filter(|(answer, _)| *answer == Verdict::Unknown);
        let open: Vec<Question> = open.map(|(_, question)| question).collect();
        if open.is_empty() { Err(Verdict::Impossible) } else { Ok(open) }
    }

    /// Every group, the ones a coach would blame last at the front of the list: caps go first, then the
    /// minutes, then what the profile demands by name.
    #[must_use]
    pub fn groups(&self) -> Vec<Group> {
        let mut groups: BTreeSet<Group> = BTreeSet::new();
        for weekly in &self.weeks {
            let rows = weekly.model.rows.iter().filter(|row| !MEANING.contains(&row.rule));
            groups.extend(rows.map(filter::group));
        }
        let mut groups: Vec<Group> = groups.into_iter().collect();
        groups.sort_by_key(|(rule, _)| blame(rule));
        groups
    }
}

/// What the solver's tree says of all questions together, if it knows; those that it answers with no are dropped.
fn searched(open: &mut Vec<Question>, nodes: impl Fn(&Model) -> u64 + Sync) -> Option<Verdict> {
    let search = |one: &Question| filter::searched(&one.fewer, nodes(&one.fewer));
    let found: Vec<Verdict> = open.par_iter().map(search).collect();
    let mut answers = found.iter();
    open.retain(|_| answers.next() != Some(&Verdict::Impossible));
    if found.contains(&Verdict::Feasible) {
        Some(Verdict::Feasible)
    } else {
        open.is_empty().then_some(Verdict::Impossible)
    }
}
