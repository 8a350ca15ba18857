//! The search: bounds from the relaxation, a first plan day by day, then days and pairs of days solved again
//! while the others stand, until nothing gets better.

use super::held::{hold_coverage, hold_ranges};
use super::{Done, Solution, reduce};
use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
use crate::program::backend::{self, Found, Part, Work};
use crate::program::{Term, value};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// How much work a search may spend, in nodes of the search tree; never in clock time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// For one day of the first plan.
    pub dive_nodes: u64,
    /// For one day or pair of days solved again.
    pub again_nodes: u64,
    /// Rounds of solving again.
    pub rounds: u32,
    /// Weeks with at most this many picks are solved whole.
    pub whole_picks: usize,
}

impl Default for Effort {
    fn default() -> Self {
        Effort { dive_nodes: 60, again_nodes: 60, rounds: 3, whole_picks: 36 }
    }
}

/// Values of all variables, with what they reach.
struct Held {
    values: Vec<f64>,
    goal: f64,
}

/// Solves a request under a split. `None`: the hard rules collide under this split.
#[must_use]
pub fn solve(request: &Request, split: &Split, effort: Effort) -> Option<Solution> {
    let keep = reduce::kept(request);
    let mut weekly = rules::weekly_model(request, split, &keep);
    let (coverage, ranges) = (costs(&weekly.coverage), costs(&weekly.ranges));
    let coverage_bound = least(&weekly, &coverage)?;
    hold_coverage(&mut weekly, coverage_bound);
    let ranges_bound = least(&weekly, &ranges)?;
    hold_ranges(&mut weekly, ranges_bound);
    let view = weekly.view.clone();
    let first = dive(&weekly, &view, effort).or_else(|| {
        let start = settle_costs(&mut weekly, effort)?;
        Some(Held { goal: value(&view, &start), values: start })
    })?;
    let bound = relaxed(&weekly, &view)?.objective;
    let best = improve(&weekly, &view, first, effort);
    Some(finish(&weekly, &best, [coverage_bound, ranges_bound, bound]))
}

/// Costs as a goal to maximize.
fn costs(terms: &[Term]) -> Vec<Term> {
    terms.iter().map(|(var, cost)| (*var, -cost)).collect()
}

/// The least costs that the relaxation allows, up to a whole number where all costs are.
fn least(weekly: &Weekly, goal: &[Term]) -> Option<f64> {
    let found = relaxed(weekly, goal)?;
    Some((-found.objective - 1e-6).max(0.0).ceil())
}

fn relaxed(weekly: &Weekly, goal: &[Term]) -> Option<Found> {
    let count = weekly.model.vars.len();
    backend::solve(&Part {
        model: &weekly.model,
        goal,
        fixed: &vec![None; count],
        relaxed: &vec![true; count],
        start: None,
        work: None,
    })
}

/// Where the bounds of tiers 1 and 2 cannot be reached together, each is brought down as far as the search
/// gets, and held there.
fn settle_costs(weekly: &mut Weekly, effort: Effort) -> Option<Vec<f64>> {
    const LOOSE: f64 = 1e6;
    hold_ranges(weekly, LOOSE);
    let coverage = costs(&weekly.coverage);
    let ranges = costs(&weekly.ranges);
    let mut plan = dive(weekly, &ranges, effort);
    if plan.is_none() {
        hold_coverage(weekly, LOOSE);
        let first = dive(weekly, &coverage, effort)?;
        let best = improve(weekly, &coverage, first, effort);
        hold_coverage(weekly, -best.goal);
        plan = Some(Held { goal: value(&ranges, &best.values), values: best.values });
    }
    let best = improve(weekly, &ranges, plan?, effort);
    hold_ranges(weekly, -best.goal);
    Some(best.values)
}

/// The variables that belong to a day: its picks and pairs.
fn day_vars(weekly: &Weekly, day: usize) -> Vec<usize> {
    let mut vars = Vec::new();
    for pick in weekly.on(day) {
        vars.extend([pick.chosen.0, pick.extra.0]);
        vars.extend(pick.paired.map(|var| var.0));
    }
    vars.extend(weekly.pairs.iter().filter(|pair| pair.day == day).map(|pair| pair.count.0));
    vars
}

/// Relax and fix: one day whole at a time, the days after it relaxed, the days before it fixed.
fn dive(weekly: &Weekly, goal: &[Term], effort: Effort) -> Option<Held> {
    let count = weekly.model.vars.len();
    let whole = weekly.picks.len() <= effort.whole_picks;
    let mut fixed = vec![None; count];
    let mut relaxed = vec![!whole; count];
    let mut found = None;
    for day in day_order(weekly) {
        if whole && found.is_some() {
            break;
        }
        let vars = day_vars(weekly, day);
        for var in &vars {
            relaxed[*var] = false;
        }
        let work = (!whole).then_some(Work { nodes: effort.dive_nodes });
        let part = Part {
            model: &weekly.model,
            goal,
            fixed: &fixed,
            relaxed: &relaxed,
            start: None,
            work,
        };
        let step = backend::solve(&part)?;
        for var in vars {
            fixed[var] = Some(step.values[var]);
        }
        found = Some(step);
    }
    found.map(|found| Held { goal: found.objective, values: found.values })
}

/// Days with the most minutes first: they have the most to give.
fn day_order(weekly: &Weekly) -> Vec<usize> {
    let mut days: Vec<usize> = weekly.days().collect();
    days.sort_by_key(|day| (std::cmp::Reverse(weekly.request.days[*day].minutes), *day));
    days
}

/// Solves pairs of days, or single days of a long week, again while the others stand.
fn improve(weekly: &Weekly, goal: &[Term], mut best: Held, effort: Effort) -> Held {
    if weekly.picks.len() <= effort.whole_picks {
        return best;
    }
    let neighborhoods = neighborhoods(weekly.request.days.len());
    for _ in 0..effort.rounds {
        let before = best.goal;
        for days in &neighborhoods {
            if let Some(found) = again(weekly, goal, &best, days, effort)
                && found.objective > best.goal + 1e-6
            {
                best = Held { goal: found.objective, values: found.values };
            }
        }
        if best.goal <= before + 1e-6 {
            break;
        }
    }
    best
}

/// Every day alone, then every pair of days.
fn neighborhoods(days: usize) -> Vec<Vec<usize>> {
    let singles = (0..days).map(|day| vec![day]);
    let pairs = (0..days).flat_map(|one| (one + 1..days).map(move |other| vec![one, other]));
    singles.chain(pairs).collect()
}

fn again(
    weekly: &Weekly,
    goal: &[Term],
    best: &Held,
    days: &[usize],
    effort: Effort,
) -> Option<Found> {
    let count = weekly.model.vars.len();
    let mut fixed: Vec<Option<f64>> = vec![None; count];
    for day in weekly.days().filter(|day| !days.contains(day)) {
        for var in day_vars(weekly, day) {
            fixed[var] = Some(best.values[var]);
        }
    }
    backend::solve(&Part {
        model: &weekly.model,
        goal,
        fixed: &fixed,
        relaxed: &vec![false; count],
        start: Some(&best.values),
        work: Some(Work { nodes: effort.again_nodes }),
    })
}

fn finish(weekly: &Weekly, best: &Held, bounds: [f64; 3]) -> Solution {
    let reached = [
        value(&weekly.coverage, &best.values),
        value(&weekly.ranges, &best.values),
        value(&weekly.view, &best.values),
    ];
    let names = ["coverage", "ranges and balance", "coach's view"];
    let tiers: Vec<Tier> = names
        .iter()
        .zip(reached.iter().zip(bounds))
        .map(|(name, (value, bound))| Tier {
            name: (*name).to_owned(),
            value: rounded(*value),
            bound: rounded(bound),
            proven: (value - bound).abs() < 1e-4,
        })
        .collect();
    let proven = tiers.iter().all(|tier| tier.proven);
    let status = if proven { SolveStatus::Proven } else { SolveStatus::WithinGap };
    let mut done: Vec<Done> = weekly
        .picks
        .iter()
        .filter(|pick| best.values[pick.chosen.0] > 0.5)
        .map(|pick| Done {
            day: pick.day,
            candidate: pick.candidate,
            sets: pick.sets[0] + whole(best.values[pick.extra.0]),
            paired: pick.paired.is_some_and(|var| best.values[var.0] > 0.5),
        })
        .collect();
    done.sort_unstable();
    Solution { split: weekly.split.clone(), done, tiers, status }
}

/// To four decimals, and never a negative zero, so that a plan's text does not show rounding.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
