//! The week's program under one split: its relaxation, its whole solution by the solver, and the tiers that rows hold.

use std::collections::BTreeSet;

use super::anneal::Landscape;
use super::budget::Budget;
use super::evaluator::rows::{self, Counted};
use super::feasibility::whole_search;
use super::solution::{Done, Solution};
use super::{rework, tie_break};
use crate::input::plan::{RuleValue, SolveStatus, TierValue};
use crate::model::tier::{PerTier, Tier};
use crate::model::{Pick, Weekly};
use crate::program::backend::{self, Backend, Found, Problem, Work};
use crate::program::{Op, Term};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Room for rounding when a tier is held: a millionth, absolute or relative.
const ROOM: f64 = 1e-6;

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

    /// Bounds of every tier for weeks that are as good in the tiers before: of costs from below, of points from above.
    pub(super) fn bounds(&self, values: &[f64]) -> PerTier<f64> {
        let mut held = self.weekly.clone();
        PerTier::of(|tier| {
            let bound = bound(&held, tier, values);
            hold_at(&mut held, tier, values);
            bound
        })
    }

    /// The whole week by the solver, as far as the work for a model of its size goes.
    pub(super) fn solved(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
    ) -> Result<Found, backend::Nothing> {
        let (backend, model) = (self.budget.backend, &self.weekly.model);
        let work = Some(Work { nodes: whole_search(model) });
        backend::solve(&Problem { backend, model, goal, relaxed: false, start, work })
    }

    /// Holds a tier at what some values reach.
    pub(super) fn hold(&mut self, tier: Tier, values: &[f64]) {
        hold_at(&mut self.weekly, tier, values);
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
        self.weekly.model.rows.retain(|row| row.rule != HELD);
    }

    /// The solution of a week, with the seed's choice among equally good ones and the later blocks.
    pub(super) fn varied(&self, values: &[f64], bounds: PerTier<f64>) -> Solution {
        let sets = self.sets(values);
        if !self.counted(&sets).score.is_feasible() {
            // Its pairs are of a kind that only the solver sees, so it stays as it is.
            return self.solution(&[values.to_vec()], bounds);
        }
        let blocks = tie_break::blocks(&self.weekly, &self.landscape, self.budget, &sets);
        let values: Vec<Vec<f64>> = blocks.iter().map(|sets| self.counted(sets).values).collect();
        self.solution(&values, bounds)
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

/// The relaxation's bound of a tier; nought costs need none.
fn bound(weekly: &Weekly, tier: Tier, values: &[f64]) -> f64 {
    let reached = weekly.reached(tier, values);
    if tier.is_cost() && reached < 1e-6 {
        return 0.0;
    }
    let found = relaxed(weekly, &weekly.objective_of(tier));
    match tier.is_cost() {
        true => found.map_or(0.0, |found| (-found.objective).max(0.0)),
        false => found.map_or(reached, |found| found.objective.max(reached)),
    }
}

/// The relaxation of a week's program.
pub(super) fn relaxed(weekly: &Weekly, goal: &[Term]) -> Result<Found, backend::Nothing> {
    let (backend, model) = (Backend::default(), &weekly.model);
    backend::solve(&Problem { backend, model, goal, relaxed: true, start: None, work: None })
}

/// What the rows that hold tiers are called.
const HELD: &str = "held";

/// Holds a tier at what some values reach.
fn hold_at(weekly: &mut Weekly, tier: Tier, values: &[f64]) {
    let reached = weekly.reached(tier, values);
    hold(weekly, tier, reached);
}

/// Holds a tier at a value. One row for each tier; a new value replaces the old.
pub(super) fn hold(weekly: &mut Weekly, tier: Tier, value: f64) {
    let terms = weekly.terms_of(tier);
    if terms.is_empty() {
        return;
    }
    let room = ROOM.max(ROOM * value.abs());
    let (op, right) = if tier.is_cost() { (Op::Le, value + room) } else { (Op::Ge, value - room) };
    weekly.model.rows.retain(|row| row.rule != HELD || row.subject != tier.name());
    weekly.model.demand(HELD, tier.name(), terms, op, right);
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
            paired: pick.paired.is_some_and(|var| values[var.0] > 0.5),
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
