//! The week's program under one split: its relaxation, its whole solution by the solver, and the tiers that rows hold.

use std::collections::BTreeSet;

use super::anneal::Landscape;
use super::bound;
use super::budget::Budget;
use super::evaluator::rows::{self, Counted};
use super::feasibility::{whole_search, work_of_nodes};
use super::relaxation::{hold, relaxed, release};
use super::solution::{Done, Solution};
use super::{rework, tie_break};
use crate::input::plan::{RuleValue, SolveStatus, TierValue};
use crate::model::tier::{PerTier, Tier};
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::program::backend::{self, Found, Problem, Work};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Why a split gave no week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoWeek {
    /// Proven: no week meets the hard rules.
    Impossible,
    /// None found within the work, which proves nothing.
    NotFound,
}

/// The week of a request under one split.
pub(super) struct SplitProblem<'a> {
    budget: Budget,
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
    /// The same as annealing sees it.
    pub(super) landscape: Landscape,
}

impl<'a> SplitProblem<'a> {
    /// The model of a request under a split.
    pub(super) fn new(
        request: &'a Request,
        split: &'a Split,
        keep: &BTreeSet<usize>,
        budget: Budget,
    ) -> SplitProblem<'a> {
        SplitProblem::of(rework::weekly_model(request, split, keep), budget)
    }

    fn of(weekly: Weekly<'a>, budget: Budget) -> SplitProblem<'a> {
        SplitProblem { budget, landscape: Landscape::new(&weekly, &budget), weekly }
    }

    /// The same without conventions that could stand in the way of every week.
    pub(super) fn with_demands_only(self) -> SplitProblem<'a> {
        SplitProblem::of(rules::demands_only(self.weekly), self.budget)
    }

    /// Counts the work of asking whether the hard rules collide.
    pub(super) fn takes_a_relaxation(&self) {
        self.weekly.request.turn.takes(work_of_nodes(&self.weekly.model, 1));
    }

    /// Whether the relaxation proves that the hard rules collide.
    pub(super) fn collides(&self) -> bool {
        let weekly = rules::hard_rows_only(self.weekly.clone());
        matches!(relaxed(&weekly, &[]), Err(backend::Nothing::Infeasible))
    }
}

impl SplitProblem<'_> {
    /// Whether the solver takes on the whole week, however large it is.
    pub(super) fn is_always_exact(&self) -> bool {
        self.budget.backend.takes_whole_weeks()
    }

    /// Bounds of every tier: of costs from below, of points from above.
    pub(super) fn bounds(&self, values: &[f64]) -> PerTier<f64> {
        PerTier::of(|tier| bound::of_tier(&self.weekly, tier, self.weekly.reached(tier, values)))
    }

    /// What every tier reaches, which bounds nothing.
    pub(super) fn reached(&self, values: &[f64]) -> PerTier<f64> {
        PerTier::of(|tier| self.weekly.reached(tier, values))
    }

    /// The whole week by the solver, as far as the work for a model of its size goes.
    pub(super) fn solved(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
    ) -> Result<Found, backend::Nothing> {
        let (backend, model) = (self.budget.backend, &self.weekly.model);
        let nodes = whole_search(model);
        let work = Some(Work { nodes });
        let found = backend::solve(&Problem { backend, model, goal, relaxed: false, start, work });
        let nodes = found.as_ref().map_or(nodes, |found| found.nodes);
        self.weekly.request.turn.takes(work_of_nodes(model, nodes));
        found
    }

    /// Holds a tier at what some values reach.
    pub(super) fn hold(&mut self, tier: Tier, values: &[f64]) {
        let reached = self.weekly.reached(tier, values);
        hold(&mut self.weekly, tier, reached);
    }

    /// The values of a week with some sets of each pick, and what it is worth, by the rows themselves.
    pub(super) fn counted(&self, sets: &[u32]) -> Counted {
        rows::count(&self.weekly, &self.landscape.tables, sets)
    }

    /// The sets of each pick, from values of the model.
    pub(super) fn sets(&self, values: &[f64]) -> Vec<u32> {
        let sets = |pick: &Pick| {
            let is_done = values[pick.chosen.0] > 0.5;
            if is_done { pick.sets[0] + whole(values[pick.extra.0]) } else { 0 }
        };
        self.weekly.picks.iter().map(sets).collect()
    }

    /// Drops the rows that hold tiers: the evaluator compares tiers by itself.
    pub(super) fn release(&mut self) {
        release(&mut self.weekly);
    }

    /// The values of a week by the seed's choice among equally good ones, and of the later blocks.
    pub(super) fn blocks(&self, values: &[f64]) -> Vec<Vec<f64>> {
        let sets = self.sets(values);
        if !self.counted(&sets).score.is_feasible() {
            // Its pairs are of a kind that only the solver sees, so it stays as it is.
            return vec![values.to_vec()];
        }
        let blocks = tie_break::blocks(&self.weekly, &self.landscape, self.budget, &sets);
        blocks.iter().map(|sets| self.counted(sets).values).collect()
    }

    /// The solution of some blocks, of which the first is what the tiers tell.
    pub(super) fn solution(&self, blocks: &[Vec<f64>], bounds: PerTier<f64>) -> Solution {
        let weekly = &self.weekly;
        let values = &blocks[0];
        let told = Tier::ALL.into_iter().filter(|tier| {
            *tier != Tier::Changes || weekly.goals_of(Tier::Changes).next().is_some()
        });
        let tiers: Vec<TierValue> = told
            .map(|tier| {
                let (value, bound) = (weekly.reached(tier, values), bounds[tier]);
                let proven = (value - bound).abs() < 1e-4;
                let name = tier.name().to_owned();
                TierValue { name, value: rounded(value), bound: rounded(bound), proven }
            })
            .collect();
        let proven = tiers.iter().all(|tier| tier.proven);
        let status = if proven { SolveStatus::Proven } else { SolveStatus::WithinGap };
        let mut blocks = blocks.iter().map(|block| done(weekly, block));
        Solution {
            backend: self.budget.backend,
            split: weekly.split.clone(),
            done: blocks.next().unwrap_or_default(),
            later: blocks.collect(),
            tiers,
            points: by_rule(weekly, values),
            status,
        }
    }
}

/// What each rule costs or brings, in the order of tiers, then rules.
fn by_rule(weekly: &Weekly, values: &[f64]) -> Vec<RuleValue> {
    let mut points: Vec<RuleValue> = Vec::new();
    for goal in Tier::ALL.into_iter().flat_map(|tier| weekly.goals_of(tier)) {
        let value = goal.weight * values[goal.var.0];
        let (tier, rule) = (goal.tier.name(), goal.rule);
        match points.iter_mut().find(|one| one.tier == tier && one.rule == rule) {
            Some(known) => known.value += value,
            None => points.push(RuleValue { tier: tier.to_owned(), rule: rule.to_owned(), value }),
        }
    }
    for one in &mut points {
        one.value = rounded(one.value);
    }
    points.retain(|one| one.value != 0.0);
    points
}

fn done(weekly: &Weekly, values: &[f64]) -> Vec<Done> {
    let mut done: Vec<Done> = weekly
        .picks
        .iter()
        .filter(|pick| values[pick.chosen.0] > 0.5)
        .map(|pick| Done {
            day: pick.day,
            candidate: pick.candidate,
            sets: pick.sets[0] + whole(values[pick.extra.0]),
            paired: pick.paired().any(|var| values[var.0] > 0.5),
        })
        .collect();
    done.sort_unstable();
    done
}

/// To three decimals, and never a negative zero, so that a plan's text does not show rounding.
pub(super) fn rounded(value: f64) -> f64 {
    (value * 1e3).round() / 1e3 + 0.0
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
