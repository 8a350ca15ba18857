//! The search: whole weeks played on the board, then single days solved again while the others stand, and the
//! relaxation as the bound. Small weeks are solved whole, to the proof.

use std::collections::BTreeSet;

use rayon::prelude::*;

pub use super::effort::Effort;
use super::held::{hold_changes, hold_coverage, hold_ranges, hold_view};
use super::play::{Outcome, Play};
use super::{Done, Solution, reduce, vary};
use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
use crate::program::backend::{self, Backend, Found, Part, Work};
use crate::program::{Term, value};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Values of all variables, and what the goal at hand is at them.
#[derive(Debug, Clone)]
struct Held {
    values: Vec<f64>,
    goal: f64,
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
    /// The solver that weeks are solved whole with.
    backend: Backend,
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
}

/// Solves a request under each split as far as it stays in the race, and returns the best week.
///
/// # Errors
/// Whether it is proven for every split that there is no week, or none was found.
pub fn best(request: &Request, splits: &[Split], effort: Effort) -> Result<Solution, NoWeek> {
    let keep = reduce::kept(request);
    let searches: Vec<Search> =
        splits.iter().map(|split| Search::new(request, split, &keep, effort.backend)).collect();
    let first = searches
        .par_iter()
        .map(|search| search.played(0, 1, effort.first_changes_a_day))
        .collect::<Vec<_>>();
    let mut ranked: Vec<(usize, Outcome)> = first.into_iter().enumerate().collect();
    ranked.sort_by(|(_, one), (_, other)| one.worth.order(&other.worth));
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    let games = effort.games.max(effort.game_days / days.max(1));
    let race: Vec<(usize, Outcome)> = ranked
        .into_iter()
        .take(effort.finalists)
        .map(|(place, outcome)| {
            let again = searches[place].played(1, games, effort.changes_a_day);
            (place, if again.worth.beats(&outcome.worth) { again } else { outcome })
        })
        .collect();
    let winner = race
        .into_iter()
        .reduce(|best, next| if next.1.worth.beats(&best.1.worth) { next } else { best });
    match winner {
        Some((place, outcome)) if outcome.worth.broken < 1e-6 => {
            let outcome = searches[place].played_on(outcome, games, effort);
            let search = searches.into_iter().nth(place).expect("the place is one of the searches");
            Ok(search.to_the_end(outcome.values, effort))
        }
        _ => solved_without_games(searches, effort),
    }
}

/// Where no game meets the hard rules, the solver looks under each split, and may prove that none can.
fn solved_without_games(searches: Vec<Search>, effort: Effort) -> Result<Solution, NoWeek> {
    let mut all_proven = true;
    for search in searches {
        match search.found_by_solver(effort) {
            Ok(values) => return Ok(search.to_the_end(values, effort)),
            Err(nothing) => all_proven &= nothing == NoWeek::Impossible,
        }
    }
    Err(if all_proven { NoWeek::Impossible } else { NoWeek::NotFound })
}

/// Costs as a goal to maximize.
pub(super) fn costs(terms: &[Term]) -> Vec<Term> {
    terms.iter().map(|(var, cost)| (*var, -cost)).collect()
}

impl<'a> Search<'a> {
    /// The model of a request under a split.
    pub(super) fn new(
        request: &'a Request,
        split: &'a Split,
        keep: &BTreeSet<usize>,
        backend: Backend,
    ) -> Search<'a> {
        Search { backend, weekly: rules::weekly_model(request, split, keep) }
    }
}

impl Search<'_> {
    /// The best of several games from an empty week.
    pub(super) fn played(&self, from: u64, games: u32, changes_a_day: u32) -> Outcome {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let changes = changes_a_day.saturating_mul(days);
        let numbers: Vec<u64> = (from..from + u64::from(games.max(1))).collect();
        let outcomes: Vec<Outcome> =
            numbers.par_iter().map(|game| self.game(*game).run(changes)).collect();
        outcomes.into_iter().reduce(Outcome::better).expect("there is at least one game")
    }

    /// The best of some more half games that start from a week.
    fn played_on(&self, mut best: Outcome, games: u32, effort: Effort) -> Outcome {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let changes = effort.changes_a_day.saturating_mul(days) / 2;
        for round in 1..=effort.reheats {
            let numbers: Vec<u64> =
                (0..games).map(|game| u64::from(round) << 32 | u64::from(game)).collect();
            let start = &best.values;
            let outcomes: Vec<Outcome> = numbers
                .par_iter()
                .map(|number| Play::from(&self.weekly, *number, start).again(changes))
                .collect();
            best = outcomes.into_iter().fold(best, Outcome::better);
        }
        best
    }

    /// From a week that meets the hard rules to the best one, its bounds, and the later blocks.
    fn to_the_end(mut self, values: Vec<f64>, effort: Effort) -> Solution {
        if self.weekly.picks.len() <= effort.whole_picks {
            return self.whole(values, effort);
        }
        let bounds = self.cost_bounds(&values);
        let best = self.improved(values, effort);
        if self.backend.takes_whole_weeks() {
            self.release();
            return self.whole(best.values, effort);
        }
        let view = self.weekly.view.clone();
        let bound = self.relaxed(&view).map_or(best.goal, |found| found.objective);
        let bound = bound.max(value(&view, &best.values));
        let changes = self.changes_bound();
        self.release();
        let blocks = vary::varied(&self, best.values);
        self.finish(&blocks, [bounds[0], bounds[1], changes, bound])
    }

    /// Drops the rows that hold tiers: the board compares tiers by itself.
    fn release(&mut self) {
        super::held::release(&mut self.weekly);
    }

    /// Where no game meets the hard rules, the relaxation may prove that none can; else the solver looks.
    fn found_by_solver(&self, effort: Effort) -> Result<Vec<f64>, NoWeek> {
        let goal = costs(&self.weekly.coverage);
        self.relaxed(&goal).ok_or(NoWeek::Impossible)?;
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let changes = effort.changes_a_day.saturating_mul(days);
        if let Some(outcome) = self.game(0).meets(changes) {
            return Ok(outcome.values);
        }
        let work = Some(Work { nodes: effort.whole_nodes });
        match self.all_free(&goal, None, work) {
            Ok(found) => Ok(found.values),
            Err(backend::Nothing::Infeasible) => Err(NoWeek::Impossible),
            Err(backend::Nothing::Stopped) => Err(NoWeek::NotFound),
        }
    }

    /// Every tier in turn to the proof, as far as the work goes.
    fn whole(mut self, start: Vec<f64>, effort: Effort) -> Solution {
        let weekly = &self.weekly;
        let tiers = [
            costs(&weekly.coverage),
            costs(&weekly.ranges),
            costs(&weekly.changes),
            weekly.view.clone(),
        ];
        let mut values = start;
        let mut bounds = [0.0; 4];
        for (tier, goal) in tiers.iter().enumerate() {
            let reached = value(goal, &values);
            let work = Some(Work { nodes: effort.whole_nodes });
            let cost_free = tier < 3 && reached > -1e-6;
            let bound = if cost_free {
                reached
            } else {
                match self.all_free(goal, Some(&values), work) {
                    Ok(found) => {
                        if found.objective > reached + 1e-6 {
                            values = found.values;
                        }
                        found.bound
                    }
                    Err(_) => self.relaxed(goal).map_or(f64::INFINITY, |found| found.objective),
                }
            };
            let bound = bound.max(value(goal, &values));
            bounds[tier] = if tier < 3 { (-bound).max(0.0) } else { bound };
            self.hold(tier, &values);
        }
        self.release();
        let blocks = vary::varied(&self, values);
        self.finish(&blocks, bounds)
    }

    /// Holds a tier at what some values reach.
    fn hold(&mut self, tier: usize, values: &[f64]) {
        let weekly = &mut self.weekly;
        match tier {
            0 => hold_coverage(weekly, value(&weekly.coverage, values)),
            1 => hold_ranges(weekly, value(&weekly.ranges, values)),
            2 => hold_changes(weekly, value(&weekly.changes, values)),
            _ => hold_view(weekly, value(&weekly.view, values)),
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

    pub(super) fn relaxed(&self, goal: &[Term]) -> Option<Found> {
        let count = self.weekly.model.vars.len();
        let part = Part {
            backend: Backend::default(),
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
        for tier in 0..3 {
            let goal = match tier {
                0 => costs(&self.weekly.coverage),
                1 => costs(&self.weekly.ranges),
                _ => costs(&self.weekly.changes),
            };
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
    fn improve_days(&self, goal: &[Term], best: Held, effort: Effort) -> Held {
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
        self.part(Backend::default(), goal, &fixed, Some(&best.values), work).ok()
    }

    /// The whole week, no day held.
    fn all_free(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
        work: Option<Work>,
    ) -> Result<Found, backend::Nothing> {
        let fixed = vec![None; self.weekly.model.vars.len()];
        self.part(self.backend, goal, &fixed, start, work)
    }

    fn part(
        &self,
        backend: Backend,
        goal: &[Term],
        fixed: &[Option<f64>],
        start: Option<&[f64]>,
        work: Option<Work>,
    ) -> Result<Found, backend::Nothing> {
        let relaxed = vec![false; fixed.len()];
        let model = &self.weekly.model;
        backend::solve(&Part { backend, model, goal, fixed, relaxed: &relaxed, start, work })
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

    pub(super) fn finish(&self, blocks: &[Vec<f64>], bounds: [f64; 4]) -> Solution {
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
