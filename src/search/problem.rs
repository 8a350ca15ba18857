//! The week's program under one split: its relaxation, its whole solution by the solver, and the tiers that rows hold.

use std::collections::BTreeSet;

use super::feasibility::whole_search;
use super::solution::{Done, Solution};
use super::{rework, tie_break};
use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
use crate::program::backend::{self, Backend, Found, Problem, Work};
use crate::program::{Op, Term, value};
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
    /// The solver that weeks are solved whole with.
    backend: Backend,
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
}

/// Costs as a goal to maximize.
pub(super) fn costs(terms: &[Term]) -> Vec<Term> {
    terms.iter().map(|(var, cost)| (*var, -cost)).collect()
}

impl<'a> SplitProblem<'a> {
    /// The model of a request under a split.
    pub(super) fn new(
        request: &'a Request,
        split: &'a Split,
        keep: &BTreeSet<usize>,
        backend: Backend,
    ) -> SplitProblem<'a> {
        SplitProblem { backend, weekly: rework::weekly_model(request, split, keep) }
    }

    /// The same without conventions that could stand in the way of every week.
    pub(super) fn with_demands_only(self) -> SplitProblem<'a> {
        SplitProblem { weekly: rules::demands_only(self.weekly), ..self }
    }

    /// Whether the relaxation proves that the hard rules collide.
    pub(super) fn collides(&self) -> bool {
        let weekly = rules::hard_rows_only(self.weekly.clone());
        let found = SplitProblem { backend: self.backend, weekly }.relaxed(&[]);
        matches!(found, Err(backend::Nothing::Infeasible))
    }
}

impl SplitProblem<'_> {
    /// Whether the solver takes on the whole week, however large it is.
    pub(super) fn is_always_exact(&self) -> bool {
        self.backend.takes_whole_weeks()
    }

    /// Bounds of every tier for weeks that are as good in the tiers before: of costs from below, of points from above.
    pub(super) fn bounds(&self, values: &[f64]) -> [f64; 4] {
        let mut held = SplitProblem { backend: self.backend, weekly: self.weekly.clone() };
        let [coverage, ranges] = held.cost_bounds(values);
        for tier in 0..3 {
            held.hold(tier, values);
        }
        let view = &held.weekly.view;
        let reached = value(view, values);
        let bound = held.relaxed(view).map_or(reached, |found| found.objective.max(reached));
        [coverage, ranges, held.changes_bound(), bound]
    }

    /// Bounds of the costs: nought where nought is reached, else the relaxation's.
    fn cost_bounds(&mut self, values: &[f64]) -> [f64; 2] {
        let coverage = self.least(&costs(&self.weekly.coverage), values);
        let mut bounds = [coverage, 0.0];
        let goal = costs(&self.weekly.ranges);
        if value(&goal, values) < -1e-6 {
            self.hold(0, values);
            bounds[1] = self.least(&goal, values);
        }
        bounds
    }

    fn least(&self, goal: &[Term], values: &[f64]) -> f64 {
        if value(goal, values) > -1e-6 {
            return 0.0;
        }
        self.relaxed(goal).map_or(0.0, |found| (-found.objective).max(0.0))
    }

    /// The relaxation's bound of changed picks, with the tiers before held.
    fn changes_bound(&mut self) -> f64 {
        if self.weekly.changes.is_empty() {
            return 0.0;
        }
        let goal = costs(&self.weekly.changes);
        self.weekly.model.rows.retain(|row| row.rule != "tier-changes");
        self.relaxed(&goal).map_or(0.0, |found| (-found.objective).max(0.0))
    }

    pub(super) fn relaxed(&self, goal: &[Term]) -> Result<Found, backend::Nothing> {
        let (backend, model) = (Backend::default(), &self.weekly.model);
        backend::solve(&Problem { backend, model, goal, relaxed: true, start: None, work: None })
    }

    /// The whole week by the solver, as far as the work for a model of its size goes.
    pub(super) fn solved(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
    ) -> Result<Found, backend::Nothing> {
        let (backend, model) = (self.backend, &self.weekly.model);
        let work = Some(Work { nodes: whole_search(model) });
        backend::solve(&Problem { backend, model, goal, relaxed: false, start, work })
    }

    /// Holds a tier at what some values reach.
    pub(super) fn hold(&mut self, tier: usize, values: &[f64]) {
        let weekly = &mut self.weekly;
        match tier {
            0 => hold_coverage(weekly, value(&weekly.coverage, values)),
            1 => hold_ranges(weekly, value(&weekly.ranges, values)),
            2 => hold_changes(weekly, value(&weekly.changes, values)),
            _ => hold_view(weekly, value(&weekly.view, values)),
        }
    }

    /// Drops the rows that hold tiers: the evaluator compares tiers by itself.
    pub(super) fn release(&mut self) {
        self.weekly.model.rows.retain(|row| !row.rule.starts_with("tier-"));
    }

    /// The solution of a week, with the seed's choice among equally good ones and the later blocks.
    pub(super) fn varied(&self, values: &[f64], bounds: [f64; 4]) -> Solution {
        self.solution(&tie_break::blocks(&self.weekly, values), bounds)
    }

    /// The solution of some blocks, of which the first is what the tiers tell.
    pub(super) fn solution(&self, blocks: &[Vec<f64>], bounds: [f64; 4]) -> Solution {
        let weekly = &self.weekly;
        let values = &blocks[0];
        let reached = [&weekly.coverage, &weekly.ranges, &weekly.changes, &weekly.view]
            .map(|tier| value(tier, values));
        let names = ["coverage", "ranges and balance", "changes", "coach's view"];
        let tiers: Vec<Tier> = names
            .iter()
            .zip(reached.iter().zip(bounds))
            .filter(|(name, _)| **name != "changes" || !weekly.changes.is_empty())
            .map(|(name, (value, bound))| Tier {
                name: (*name).to_owned(),
                value: rounded(*value),
                bound: rounded(bound),
                proven: (value - bound).abs() < 1e-4,
            })
            .collect();
        let proven = tiers.iter().all(|tier| tier.proven);
        let status = if proven { SolveStatus::Proven } else { SolveStatus::WithinGap };
        let mut blocks = blocks.iter().map(|block| done(weekly, block));
        Solution {
            backend: self.backend,
            split: weekly.split.clone(),
            done: blocks.next().unwrap_or_default(),
            later: blocks.collect(),
            tiers,
            status,
        }
    }
}

/// Holds the costs of tier 1 at most at a value.
pub(super) fn hold_coverage(weekly: &mut Weekly, value: f64) {
    let terms = weekly.coverage.clone();
    hold(weekly, "tier-1", terms, Op::Le, value);
}

/// Holds the costs of tier 2 at most at a value.
pub(super) fn hold_ranges(weekly: &mut Weekly, value: f64) {
    let terms = weekly.ranges.clone();
    hold(weekly, "tier-2", terms, Op::Le, value);
}

/// Holds the costs of a rework at most at a value.
fn hold_changes(weekly: &mut Weekly, value: f64) {
    let terms = weekly.changes.clone();
    if !terms.is_empty() {
        hold(weekly, "tier-changes", terms, Op::Le, value);
    }
}

/// Holds the points of tier 3 at least at a value.
fn hold_view(weekly: &mut Weekly, value: f64) {
    let terms = weekly.view.clone();
    hold(weekly, "tier-3", terms, Op::Ge, value);
}

/// One row for each tier; a new value replaces the old.
fn hold(weekly: &mut Weekly, tier: &'static str, terms: Vec<Term>, op: Op, value: f64) {
    let room = ROOM.max(ROOM * value.abs());
    let right = if op == Op::Le { value + room } else { value - room };
    weekly.model.rows.retain(|row| row.rule != tier);
    weekly.model.row(tier, "week", terms, op, right);
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
