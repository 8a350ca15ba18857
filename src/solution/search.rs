//! The search: bounds from the relaxation, a first plan day by day, then days and pairs of days solved again
//! while the others stand, until nothing gets better.

use super::held::{hold_coverage, hold_ranges, hold_view};
use super::{Done, Solution, reduce, vary};
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

/// Values of all variables, and what the goal at hand is at them.
#[derive(Debug, Clone)]
pub(super) struct Held {
    /// A value for every variable.
    pub(super) values: Vec<f64>,
    /// The goal's value.
    pub(super) goal: f64,
}

/// A search under way: the model, and the bounds of the tiers.
pub(super) struct Search<'a> {
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
    /// Whether the week is small enough to be solved whole.
    whole: bool,
}

/// Solves a request under a split. `None`: the hard rules collide under this split.
#[must_use]
pub fn solve(request: &Request, split: &Split, effort: Effort) -> Option<Solution> {
    let keep = reduce::kept(request);
    let weekly = rules::weekly_model(request, split, &keep);
    let whole = weekly.picks.len() <= effort.whole_picks;
    let mut search = Search { weekly, whole };
    let (best, bounds) = search.best(effort)?;
    let best = vary::varied(&mut search, best, effort);
    Some(search.finish(&best, bounds))
}

/// Costs as a goal to maximize.
fn costs(terms: &[Term]) -> Vec<Term> {
    terms.iter().map(|(var, cost)| (*var, -cost)).collect()
}

impl Search<'_> {
    /// The best values found and the bounds of the tiers.
    fn best(&mut self, effort: Effort) -> Option<(Held, [f64; 3])> {
        let (coverage, ranges) = (costs(&self.weekly.coverage), costs(&self.weekly.ranges));
        let coverage_bound = self.least(&coverage)?;
        hold_coverage(&mut self.weekly, coverage_bound);
        let ranges_bound = self.least(&ranges)?;
        hold_ranges(&mut self.weekly, ranges_bound);
        let view = self.weekly.view.clone();
        let first = match self.dive(&view, effort) {
            Some(first) => first,
            None => {
                let values = self.settle_costs(effort)?;
                Held { goal: value(&view, &values), values }
            }
        };
        let bound = self.relaxed(&view)?.objective;
        let best = self.improve(&view, first, effort);
        let bound = if self.whole { best.goal } else { bound };
        Some((best, [coverage_bound, ranges_bound, bound]))
    }

    /// Holds all three tiers at what some values reach.
    pub(super) fn hold_all(&mut self, values: &[f64]) {
        let weekly = &mut self.weekly;
        let (coverage, ranges) = (value(&weekly.coverage, values), value(&weekly.ranges, values));
        hold_coverage(weekly, coverage);
        hold_ranges(weekly, ranges);
        let view = value(&weekly.view, values);
        hold_view(weekly, view);
    }

    /// The least costs that the relaxation allows, up to a whole number where all costs are.
    fn least(&self, goal: &[Term]) -> Option<f64> {
        let found = self.relaxed(goal)?;
        Some((-found.objective - 1e-6).max(0.0).ceil())
    }

    fn relaxed(&self, goal: &[Term]) -> Option<Found> {
        let count = self.weekly.model.vars.len();
        backend::solve(&Part {
            model: &self.weekly.model,
            goal,
            fixed: &vec![None; count],
            relaxed: &vec![true; count],
            start: None,
            work: None,
        })
    }

    /// Where the bounds of tiers 1 and 2 cannot be reached together, each is brought down as far as the search
    /// gets, and held there.
    fn settle_costs(&mut self, effort: Effort) -> Option<Vec<f64>> {
        const LOOSE: f64 = 1e6;
        hold_ranges(&mut self.weekly, LOOSE);
        let (coverage, ranges) = (costs(&self.weekly.coverage), costs(&self.weekly.ranges));
        let plan = match self.dive(&ranges, effort) {
            Some(plan) => plan,
            None => {
                hold_coverage(&mut self.weekly, LOOSE);
                let first = self.dive(&coverage, effort)?;
                let best = self.improve(&coverage, first, effort);
                hold_coverage(&mut self.weekly, -best.goal);
                Held { goal: value(&ranges, &best.values), values: best.values }
            }
        };
        let best = self.improve(&ranges, plan, effort);
        hold_ranges(&mut self.weekly, -best.goal);
        Some(best.values)
    }

    /// The variables that belong to a day: its picks and pairs.
    fn day_vars(&self, day: usize) -> Vec<usize> {
        let mut vars = Vec::new();
        for pick in self.weekly.on(day) {
            vars.extend([pick.chosen.0, pick.extra.0]);
            vars.extend(pick.paired.map(|var| var.0));
        }
        let pairs = self.weekly.pairs.iter().filter(|pair| pair.day == day);
        vars.extend(pairs.map(|pair| pair.count.0));
        vars
    }

    /// Relax and fix: one day whole at a time, the days after it relaxed, the days before it fixed.
    fn dive(&self, goal: &[Term], effort: Effort) -> Option<Held> {
        let count = self.weekly.model.vars.len();
        let mut fixed = vec![None; count];
        if self.whole {
            let found = self.part(goal, &fixed, &vec![false; count], None, None)?;
            return Some(Held { goal: found.objective, values: found.values });
        }
        let mut relaxed: Vec<bool> = vec![false; count];
        for day in self.weekly.days() {
            for var in self.day_vars(day) {
                relaxed[var] = true;
            }
        }
        let work = Some(Work { nodes: effort.dive_nodes });
        let mut found = None;
        for day in self.day_order() {
            let vars = self.day_vars(day);
            for var in &vars {
                relaxed[*var] = false;
            }
            let step = self.part(goal, &fixed, &relaxed, None, work)?;
            for var in vars {
                fixed[var] = Some(step.values[var]);
            }
            found = Some(step);
        }
        found.map(|found| Held { goal: found.objective, values: found.values })
    }

    fn part(
        &self,
        goal: &[Term],
        fixed: &[Option<f64>],
        relaxed: &[bool],
        start: Option<&[f64]>,
        work: Option<Work>,
    ) -> Option<Found> {
        backend::solve(&Part { model: &self.weekly.model, goal, fixed, relaxed, start, work })
    }

    /// Days with the most minutes first: they have the most to give.
    fn day_order(&self) -> Vec<usize> {
        let mut days: Vec<usize> = self.weekly.days().collect();
        days.sort_by_key(|day| (std::cmp::Reverse(self.weekly.request.days[*day].minutes), *day));
        days
    }

    /// Solves single days, then pairs of days, again while the others stand.
    fn improve(&self, goal: &[Term], mut best: Held, effort: Effort) -> Held {
        if self.whole {
            return best;
        }
        let days = self.weekly.request.days.len();
        let pairs: Vec<Vec<usize>> =
            (0..days).flat_map(|one| (one + 1..days).map(move |other| vec![one, other])).collect();
        for _ in 0..effort.rounds {
            let before = best.goal;
            best = self.improve_days(goal, best, effort);
            best = self.again_all(goal, best, &pairs, effort);
            if best.goal <= before + 1e-6 {
                break;
            }
        }
        best
    }

    /// Solves single days again, each once.
    pub(super) fn improve_days(&self, goal: &[Term], best: Held, effort: Effort) -> Held {
        let singles: Vec<Vec<usize>> = self.weekly.days().map(|day| vec![day]).collect();
        self.again_all(goal, best, &singles, effort)
    }

    fn again_all(
        &self,
        goal: &[Term],
        best: Held,
        neighborhoods: &[Vec<usize>],
        effort: Effort,
    ) -> Held {
        neighborhoods.iter().fold(best, |best, days| match self.again(goal, &best, days, effort) {
            Some(found) if found.objective > best.goal + 1e-6 => {
                Held { goal: found.objective, values: found.values }
            }
            _ => best,
        })
    }

    fn again(&self, goal: &[Term], best: &Held, days: &[usize], effort: Effort) -> Option<Found> {
        let count = self.weekly.model.vars.len();
        let mut fixed: Vec<Option<f64>> = vec![None; count];
        for day in self.weekly.days().filter(|day| !days.contains(day)) {
            for var in self.day_vars(day) {
                fixed[var] = Some(best.values[var]);
            }
        }
        let work = Some(Work { nodes: effort.again_nodes });
        self.part(goal, &fixed, &vec![false; count], Some(&best.values), work)
    }

    fn finish(&self, best: &Held, bounds: [f64; 3]) -> Solution {
        let weekly = &self.weekly;
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
        Solution { split: weekly.split.clone(), done: done(weekly, &best.values), tiers, status }
    }
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

/// To four decimals, and never a negative zero, so that a plan's text does not show rounding.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4 + 0.0
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
