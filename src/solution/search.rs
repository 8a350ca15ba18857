//! The search: whole weeks played on the board, then single days solved again while the others stand, and the
//! relaxation as the bound. Small weeks are solved whole, to the proof.

use super::held::{hold_coverage, hold_ranges, hold_view};
use super::play::{Outcome, Play};
use super::{Done, Solution, reduce, vary};
use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
use crate::program::backend::{self, Found, Part, Work};
use crate::program::{Term, value};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// How much work a search may spend, in changes played and nodes of the search tree; never in clock time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Games played from an empty week.
    pub games: u32,
    /// Changes of a game for each day.
    pub changes_a_day: u32,
    /// Nodes for a day that is solved again.
    pub nodes: u64,
    /// Rounds of solving days again.
    pub rounds: u32,
    /// Weeks with at most this many picks are solved whole.
    pub whole_picks: usize,
    /// Nodes for each tier of a week that is solved whole.
    pub whole_nodes: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            games: 3,
            changes_a_day: 3000,
            nodes: 60,
            rounds: 2,
            whole_picks: 36,
            whole_nodes: 20_000,
        }
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

/// Why a split gave no week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoWeek {
    /// Proven: no week meets the hard rules.
    Impossible,
    /// None found within the work, which proves nothing.
    NotFound,
}

/// A search under way.
pub(super) struct Search<'a> {
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
}

/// Solves a request under a split.
///
/// # Errors
/// Whether it is proven that there is no week, or none was found.
pub fn solve(request: &Request, split: &Split, effort: Effort) -> Result<Solution, NoWeek> {
    let keep = reduce::kept(request);
    let mut search = Search { weekly: rules::weekly_model(request, split, &keep) };
    let best = search.first(effort)?;
    if search.weekly.picks.len() <= effort.whole_picks {
        return Ok(search.whole(best, effort));
    }
    let bounds = search.cost_bounds(&best);
    let best = search.improved(best, effort);
    let view = search.weekly.view.clone();
    let bound = search.relaxed(&view).map_or(best.goal, |found| found.objective);
    let best = vary::varied(&mut search, best, effort);
    Ok(search.finish(&best.values, [bounds[0], bounds[1], bound.max(value(&view, &best.values))]))
}

/// Costs as a goal to maximize.
fn costs(terms: &[Term]) -> Vec<Term> {
    terms.iter().map(|(var, cost)| (*var, -cost)).collect()
}

impl<'a> Search<'a> {
    /// A week that meets the hard rules: the best of several games, else whatever the solver finds.
    fn first(&self, effort: Effort) -> Result<Vec<f64>, NoWeek> {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let changes = effort.changes_a_day.saturating_mul(days);
        let games =
            (0..u64::from(effort.games)).map(|game| Play::new(&self.weekly, game).run(changes));
        let better = |best: Outcome, next: Outcome| {
            if next.worth.beats(&best.worth) { next } else { best }
        };
        match games.reduce(better) {
            Some(best) if best.worth.broken < 1e-6 => Ok(best.values),
            _ => self.found_by_solver(effort),
        }
    }

    /// Where no game meets the hard rules, the relaxation may prove that none can; else the solver looks.
    fn found_by_solver(&self, effort: Effort) -> Result<Vec<f64>, NoWeek> {
        let goal = costs(&self.weekly.coverage);
        self.relaxed(&goal).ok_or(NoWeek::Impossible)?;
        let count = self.weekly.model.vars.len();
        let fixed = vec![None; count];
        let work = Some(Work { nodes: effort.whole_nodes });
        match self.part(&goal, &fixed, None, work) {
            Ok(found) => Ok(found.values),
            Err(backend::Nothing::Infeasible) => Err(NoWeek::Impossible),
            Err(backend::Nothing::Stopped) => Err(NoWeek::NotFound),
        }
    }

    /// Every tier in turn to the proof, as far as the work goes.
    fn whole(&mut self, start: Vec<f64>, effort: Effort) -> Solution {
        let tiers =
            [costs(&self.weekly.coverage), costs(&self.weekly.ranges), self.weekly.view.clone()];
        let mut values = start;
        let mut bounds = [0.0; 3];
        for (tier, goal) in tiers.iter().enumerate() {
            let reached = value(goal, &values);
            let work = Some(Work { nodes: effort.whole_nodes });
            let fixed = vec![None; values.len()];
            let cost_free = tier < 2 && reached > -1e-6;
            let found =
                if cost_free { None } else { self.part(goal, &fixed, Some(&values), work).ok() };
            let bound = match found {
                Some(found) => {
                    if found.objective > reached + 1e-6 {
                        values = found.values;
                    }
                    found.bound
                }
                None => reached,
            };
            bounds[tier] = if tier < 2 { -bound } else { bound };
            self.hold(tier, &values);
        }
        let held = Held { goal: value(&tiers[2], &values), values };
        let held = vary::varied(self, held, effort);
        self.finish(&held.values, bounds)
    }

    /// Holds a tier at what some values reach.
    fn hold(&mut self, tier: usize, values: &[f64]) {
        let weekly = &mut self.weekly;
        match tier {
            0 => hold_coverage(weekly, value(&weekly.coverage, values)),
            1 => hold_ranges(weekly, value(&weekly.ranges, values)),
            _ => hold_view(weekly, value(&weekly.view, values)),
        }
    }

    /// Holds all three tiers at what some values reach.
    pub(super) fn hold_all(&mut self, values: &[f64]) {
        for tier in 0..3 {
            self.hold(tier, values);
        }
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

    fn relaxed(&self, goal: &[Term]) -> Option<Found> {
        let count = self.weekly.model.vars.len();
        let part = Part {
            model: &self.weekly.model,
            goal,
            fixed: &vec![None; count],
            relaxed: &vec![true; count],
            start: None,
            work: None,
        };
        backend::solve(&part).ok()
    }

    /// Days solved again: costs first where there are any, then points.
    fn improved(&mut self, start: Vec<f64>, effort: Effort) -> Held {
        let mut values = start;
        for tier in 0..2 {
            let goal = costs(if tier == 0 { &self.weekly.coverage } else { &self.weekly.ranges });
            let reached = value(&goal, &values);
            if reached < -1e-6 {
                let held = Held { goal: reached, values };
                values = self.improve(&goal, held, effort).values;
            }
            self.hold(tier, &values);
        }
        let view = self.weekly.view.clone();
        let held = Held { goal: value(&view, &values), values };
        self.improve(&view, held, effort)
    }

    fn improve(&self, goal: &[Term], mut best: Held, effort: Effort) -> Held {
        for _ in 0..effort.rounds {
            let before = best.goal;
            best = self.improve_days(goal, best, effort);
            if best.goal <= before + 1e-6 {
                break;
            }
        }
        best
    }

    /// Solves single days again, each once.
    pub(super) fn improve_days(&self, goal: &[Term], best: Held, effort: Effort) -> Held {
        self.weekly.days().fold(best, |best, day| match self.again(goal, &best, day, effort) {
            Some(found) if found.objective > best.goal + 1e-6 => {
                Held { goal: found.objective, values: found.values }
            }
            _ => best,
        })
    }

    /// One day solved again from where it stands, the other days as they are.
    fn again(&self, goal: &[Term], best: &Held, day: usize, effort: Effort) -> Option<Found> {
        let mut fixed: Vec<Option<f64>> = vec![None; self.weekly.model.vars.len()];
        for other in self.weekly.days().filter(|other| *other != day) {
            for var in self.day_vars(other) {
                fixed[var] = Some(best.values[var]);
            }
        }
        let work = Some(Work { nodes: effort.nodes });
        self.part(goal, &fixed, Some(&best.values), work).ok()
    }

    fn part(
        &self,
        goal: &[Term],
        fixed: &[Option<f64>],
        start: Option<&[f64]>,
        work: Option<Work>,
    ) -> Result<Found, backend::Nothing> {
        let relaxed = vec![false; fixed.len()];
        backend::solve(&Part {
            model: &self.weekly.model,
            goal,
            fixed,
            relaxed: &relaxed,
            start,
            work,
        })
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

    fn finish(&self, values: &[f64], bounds: [f64; 3]) -> Solution {
        let weekly = &self.weekly;
        let reached =
            [&weekly.coverage, &weekly.ranges, &weekly.view].map(|tier| value(tier, values));
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
        Solution { split: weekly.split.clone(), done: done(weekly, values), tiers, status }
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

/// To three decimals, and never a negative zero, so that a plan's text does not show rounding.
fn rounded(value: f64) -> f64 {
    (value * 1e3).round() / 1e3 + 0.0
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
