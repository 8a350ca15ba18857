//! Quick answers from runs alone: whether there is a week, a week without bounds, and what the plan that is
//! reworked is worth as it stands.

use rayon::prelude::*;

use super::anneal::{Annealer, Incumbent};
use super::budget::Budget;
use super::elite::Runs;
use super::feasibility::{FINDING, QUICK, Stage, Verdict, any_week};
use super::presolve::dominance;
use super::problem::{SplitProblem, rounded};
use super::racing::first_run;
use super::solution::Solution;
use crate::model::tier::PerTier;
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Changes for each day of a run that goes on from any week.
const MENDING: u32 = 2_000;

/// A quick week without bounds that meets the demands, played on from any week that does.
#[must_use]
pub(crate) fn sketch_of_any(request: &Request, splits: &[Split]) -> Option<Solution> {
    let keep = dominance::kept(request);
    let problem =
        |split| SplitProblem::new(request, split, &keep, Budget::default()).with_demands_only();
    let problems: Vec<SplitProblem> = splits.par_iter().map(problem).collect();
    let best = |stages: &[Stage]| {
        let week = |problem: &SplitProblem| problem.any_week(stages).ok();
        let weeks: Vec<Option<Incumbent>> = problems.par_iter().map(week).collect();
        let found = problems.iter().zip(weeks).filter_map(|(problem, week)| Some((problem, week?)));
        found.reduce(|best, next| if next.1.score.beats(&best.1.score) { next } else { best })
    };
    let (problem, incumbent) = best(&FINDING).or_else(|| best(&QUICK))?;
    Some(problem.finished(&incumbent))
}

/// A quick week without bounds: one run under each split, and the best of them if it meets the hard rules.
#[must_use]
pub(crate) fn sketch(
    request: &Request,
    splits: &[Split],
    proposals_a_day: u32,
) -> Option<Solution> {
    if request.turn.is_over() {
        return None;
    }
    let keep = dominance::kept(request);
    let problems: Vec<SplitProblem> = splits
        .par_iter()
        .map(|split| SplitProblem::new(request, split, &keep, Budget::default()))
        .collect();
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    let changes = proposals_a_day.saturating_mul(days);
    let runs = problems.par_iter().map(|problem| first_run(problem, changes));
    let incumbents: Vec<Incumbent> = runs.collect();
    let best = incumbents
        .iter()
        .enumerate()
        .reduce(|best, next| if next.1.score.beats(&best.1.score) { next } else { best });
    let (place, incumbent) = best.filter(|(_, incumbent)| incumbent.score.is_feasible())?;
    Some(problems[place].finished(incumbent))
}

/// What a split is worth after its first run in the race.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The split.
    pub split: Split,
    /// Costs and points, where the run met the hard rules.
    pub tiers: Option<PerTier<f64>>,
}

/// The first run of each split; the winner of the race is then played on.
#[must_use]
pub(crate) fn tried(request: &Request, splits: &[Split], budget: Budget) -> Vec<Tried> {
    let keep = dominance::kept(request);
    let runs = Runs::of(budget, request.days.len());
    let of_first_run = |split: &Split| {
        let problem = SplitProblem::new(request, split, &keep, budget);
        let score = first_run(&problem, runs.proposals).score;
        let tiers = score.tiers.map(rounded);
        Tried { split: split.clone(), tiers: (score.is_feasible()).then_some(tiers) }
    };
    splits.par_iter().map(of_first_run).collect()
}

/// What the picks of the plan that is reworked are worth as they stand: costs of tiers 1 and 2, points of tier 3;
/// under the split that serves them best.
#[must_use]
pub(crate) fn as_it_stands(request: &Request, splits: &[Split]) -> Option<PerTier<f64>> {
    let keep = dominance::kept(request);
    let scores = splits.iter().map(|split| {
        let problem = SplitProblem::new(request, split, &keep, Budget::default());
        Annealer::at_start(&problem.landscape).evaluator.score()
    });
    let best = scores.reduce(|best, next| if next.beats(&best) { next } else { best })?;
    Some(best.tiers.map(rounded))
}

impl SplitProblem<'_> {
    /// A week as a solution that says nothing of bounds.
    fn finished(&self, incumbent: &Incumbent) -> Solution {
        let bounds = incumbent.score.tiers;
        self.solution(&[self.counted(&incumbent.sets).values], bounds)
    }

    /// Any week that meets the hard rules, as it is quickly found, and played on from there.
    pub(super) fn any_week(&self, stages: &[Stage]) -> Result<Incumbent, Verdict> {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let rows = [rules::hard_rows_only(self.weekly.clone())];
        let asked = any_week(&rows, stages);
        let verdict = asked.verdict();
        let (_, values) = asked.week.ok_or(verdict)?;
        let start = Annealer::new(&self.landscape).with(&self.sets(&values)).run(0);
        let incumbent = start.reanneal(MENDING.saturating_mul(days));
        if incumbent.score.is_feasible() { Ok(incumbent) } else { Err(Verdict::Unknown) }
    }
}
