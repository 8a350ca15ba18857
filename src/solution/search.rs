//! The search: whole weeks played on the board, with the relaxation as their bound. Small weeks are solved whole, to
//! the proof.

use std::collections::BTreeSet;

use super::any_week::{THOROUGH, Verdict, whole_search};
pub use super::effort::Effort;
use super::held::{hold_changes, hold_coverage, hold_ranges, hold_view};
use super::race::{self, Racer};
use super::reached;
use super::{Done, Solution, reduce, vary};
use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
use crate::program::backend::{self, Backend, Found, Problem, Work};
use crate::program::{Term, value};
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

/// A search under way.
pub(super) struct Search<'a> {
    /// The solver that weeks are solved whole with.
    backend: Backend,
    /// The model with the rows of the tiers that are held.
    pub(super) weekly: Weekly<'a>,
}

/// Solves a request under each split as far as it stays in the race, and returns the best week. Where no week
/// is found that keeps to all conventions, one is looked for that meets the demands alone.
///
/// # Errors
/// Whether it is proven for every split that there is no week, or none was found.
pub fn best(request: &Request, splits: &[Split], effort: Effort) -> Result<Solution, NoWeek> {
    let keep = reduce::kept(request);
    let searches: Vec<Search> =
        splits.iter().map(|split| Search::new(request, split, &keep, effort.backend)).collect();
    let searches = match played_out(searches, effort) {
        Ok(solution) => return Ok(solution),
        Err((NoWeek::Impossible, _)) => return Err(NoWeek::Impossible),
        Err((NoWeek::NotFound, searches)) => searches,
    };
    let searches = searches.into_iter().map(Search::with_demands_only).collect();
    played_out(searches, effort).or_else(|(nothing, searches)| match nothing {
        NoWeek::Impossible => Err(nothing),
        NoWeek::NotFound => solved_without_games(searches, effort),
    })
}

/// The best week that games find, or what is known instead, and the searches again.
fn played_out(searches: Vec<Search>, effort: Effort) -> Result<Solution, (NoWeek, Vec<Search>)> {
    let days = searches.first().map_or(1, |search| search.weekly.request.days.len());
    let games = race::games(effort, days);
    match race::winner(&searches, effort, games) {
        Ok(Racer { place, pool }) if pool.best().worth.broken < 1e-6 => {
            // What bounds this week bounds every better one, so the two need not wait for each other.
            let (search, values) = (&searches[place], pool.best().values.clone());
            let (outcome, bounds) = rayon::join(
                || search.played_on(pool, games, effort),
                || search.is_played(effort).then(|| search.bounds(&values)),
            );
            let outcome = search.put_back(outcome);
            let search = searches.into_iter().nth(place).expect("the place is one of the searches");
            Ok(search.brought_to_the_end(outcome.values, bounds, effort))
        }
        Ok(_) => Err((NoWeek::NotFound, searches)),
        Err(nothing) => Err((nothing, searches)),
    }
}

/// Where no game meets the hard rules, the solver looks under each split, and may prove that none can.
fn solved_without_games(searches: Vec<Search>, effort: Effort) -> Result<Solution, NoWeek> {
    let mut all_proven = true;
    for search in searches {
        match search.found_by_solver() {
            Ok(values) => {
                let values = search.played_on_from(values, effort);
                return Ok(search.brought_to_the_end(values, None, effort));
            }
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
        let mut weekly = rules::weekly_model(request, split, keep);
        reached::hold(&mut weekly);
        Search { backend, weekly }
    }

    /// The same search without conventions that could stand in the way of every week.
    pub(super) fn with_demands_only(self) -> Search<'a> {
        Search { weekly: rules::demands_only(self.weekly), ..self }
    }

    /// Whether the relaxation proves that the hard rules collide.
    pub(super) fn collides(&self) -> bool {
        let weekly = rules::hard_rows_only(self.weekly.clone());
        let found = Search { backend: self.backend, weekly }.relaxed(&[]);
        matches!(found, Err(backend::Nothing::Infeasible))
    }
}

impl Search<'_> {
    /// Whether games alone look for the best week, which is not solved whole.
    fn is_played(&self, effort: Effort) -> bool {
        self.weekly.picks.len() > effort.whole_picks && !self.backend.takes_whole_weeks()
    }

    /// From a week that meets the hard rules to the best one and the later blocks. Bounds are found where none
    /// are given.
    fn brought_to_the_end(
        self,
        values: Vec<f64>,
        bounds: Option<[f64; 4]>,
        effort: Effort,
    ) -> Solution {
        if !self.is_played(effort) {
            return self.whole(values);
        }
        let mut bounds = bounds.unwrap_or_else(|| self.bounds(&values));
        bounds[3] = bounds[3].max(value(&self.weekly.view, &values));
        let blocks = vary::varied(&self, &values);
        self.finish(&blocks, bounds)
    }

    /// Bounds of every tier for weeks that are as good in the tiers before: of costs from below, of points from above.
    fn bounds(&self, values: &[f64]) -> [f64; 4] {
        let mut held = Search { backend: self.backend, weekly: self.weekly.clone() };
        let [coverage, ranges] = held.cost_bounds(values);
        for tier in 0..3 {
            held.hold(tier, values);
        }
        let view = &held.weekly.view;
        let reached = value(view, values);
        let bound = held.relaxed(view).map_or(reached, |found| found.objective.max(reached));
        [coverage, ranges, held.changes_bound(), bound]
    }

    /// Drops the rows that hold tiers: the board compares tiers by itself.
    pub(super) fn release(&mut self) {
        super::held::release(&mut self.weekly);
    }

    /// Where no game meets the hard rules, the hard rules alone are asked; else the solver looks.
    fn found_by_solver(&self) -> Result<Vec<f64>, NoWeek> {
        match self.any_week(&THOROUGH) {
            Ok(outcome) => return Ok(outcome.values),
            Err(Verdict::Impossible) => return Err(NoWeek::Impossible),
            Err(_) if !self.backend.takes_whole_weeks() => return Err(NoWeek::NotFound),
            Err(_) => {}
        }
        match self.solved(&costs(&self.weekly.coverage), None) {
            Ok(found) => Ok(found.values),
            Err(backend::Nothing::Infeasible) => Err(NoWeek::Impossible),
            Err(backend::Nothing::Stopped) => Err(NoWeek::NotFound),
        }
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

    pub(super) fn relaxed(&self, goal: &[Term]) -> Result<Found, backend::Nothing> {
        let (backend, model) = (Backend::default(), &self.weekly.model);
        backend::solve(&Problem { backend, model, goal, relaxed: true, start: None, work: None })
    }

    /// The whole week by the solver of the search, as far as the work for a model of its size goes.
    pub(super) fn solved(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
    ) -> Result<Found, backend::Nothing> {
        let (backend, model) = (self.backend, &self.weekly.model);
        let work = Some(Work { nodes: whole_search(model) });
        backend::solve(&Problem { backend, model, goal, relaxed: false, start, work })
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::planner::{Options, Planner};
    use crate::split::design;

    /// A week that only the last resort finds is as good as one that games find, or nearly.
    #[test]
    fn what_the_last_resort_finds_is_played_on() {
        let profile = serde_yaml::from_str(
            "client: last-01\ntraining_status: intermediate\ngoal: general-fitness\nequipment: [dumbbells, bench]\n\
             sessions: [{day: mon, minutes: 45}, {day: thu, minutes: 45}]\n",
        );
        let options = Options::default();
        let request = Planner::built_in().request(&profile.unwrap(), &options);
        let (splits, effort) = (design::candidates(&request), options.effort);
        let keep = reduce::kept(&request);
        let search = || Search::new(&request, &splits[0], &keep, effort.backend);
        let points = |solution: &Solution| solution.tiers.last().unwrap().value;
        let best = points(&best(&request, &splits[..1], effort).unwrap());
        let any = value(&search().weekly.view, &search().found_by_solver().unwrap());
        let played = points(&solved_without_games(vec![search()], effort).unwrap());
        assert!(any < 0.97 * best, "any week is good enough: {any} of {best}");
        assert!(played > 0.98 * best, "{played} of {best}");
    }
}
