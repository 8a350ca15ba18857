//! Quick answers from games alone: whether there is a week, a week without bounds, and what the plan that is
//! reworked is worth as it stands.

use rayon::prelude::*;

use super::any_week::{QUICK, Stage, Verdict, any_week};
use super::play::{Outcome, Play};
use super::search::{Effort, Search, rounded};
use super::{Solution, race, reduce};
use crate::model::Weekly;
use crate::program::backend::Backend;
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Changes for each day of a game that goes on from any week.
const MENDING: u32 = 2_000;

/// A quick week without bounds that meets the demands, played on from any week that does.
#[must_use]
pub fn sketch_of_any(request: &Request, splits: &[Split]) -> Option<Solution> {
    let keep = reduce::kept(request);
    let found = splits.par_iter().filter_map(|split| {
        let search = Search::new(request, split, &keep, Backend::default()).with_demands_only();
        let outcome = search.any_week(&QUICK).ok()?;
        Some((search, outcome))
    });
    let found: Vec<(Search, Outcome)> = found.collect();
    let best = found
        .into_iter()
        .reduce(|best, next| if next.1.worth.beats(&best.1.worth) { next } else { best });
    let (search, outcome) = best?;
    Some(search.finished(&outcome))
}

/// A quick week without bounds: one game under each split, and the best of them if it meets the hard rules.
#[must_use]
pub fn sketch(request: &Request, splits: &[Split], changes_a_day: u32) -> Option<Solution> {
    let keep = reduce::kept(request);
    let searches: Vec<Search> =
        splits.iter().map(|split| Search::new(request, split, &keep, Backend::default())).collect();
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    let changes = changes_a_day.saturating_mul(days);
    let played = searches.par_iter().map(|search| search.played(changes));
    let outcomes: Vec<Outcome> = played.collect();
    let best = outcomes
        .iter()
        .enumerate()
        .reduce(|best, next| if next.1.worth.beats(&best.1.worth) { next } else { best });
    let (place, outcome) = best.filter(|(_, outcome)| outcome.worth.broken < 1e-6)?;
    Some(searches[place].finished(outcome))
}

/// What a split is worth after its first game in the race.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// The split.
    pub split: Split,
    /// Costs of tiers 1 and 2 and points of tier 3, where the game met the hard rules.
    pub tiers: Option<[f64; 3]>,
}

/// The first game of each split; the winner of the race is then played on.
#[must_use]
pub fn tried(request: &Request, splits: &[Split], effort: Effort) -> Vec<Tried> {
    let keep = reduce::kept(request);
    let games = race::games(effort, request.days.len());
    let first_game = |split: &Split| {
        let worth = Search::new(request, split, &keep, effort.backend).played(games.changes).worth;
        let tiers = [worth.coverage, worth.ranges, worth.view].map(rounded);
        Tried { split: split.clone(), tiers: (worth.broken < 1e-6).then_some(tiers) }
    };
    splits.par_iter().map(first_game).collect()
}

/// What the picks of the plan that is reworked are worth as they stand: costs of tiers 1 and 2, points of tier 3;
/// under the split that serves them best.
#[must_use]
pub fn as_it_stands(request: &Request, splits: &[Split]) -> Option<[f64; 3]> {
    let keep = reduce::kept(request);
    let worths = splits.iter().map(|split| {
        let search = Search::new(request, split, &keep, Backend::default());
        Play::new(&search.weekly).with(&before(&search.weekly)).worth()
    });
    let best = worths.reduce(|best, next| if next.beats(&best) { next } else { best })?;
    Some([rounded(best.coverage), rounded(best.ranges), rounded(best.view)])
}

impl Search<'_> {
    /// A week as a solution that says nothing of bounds.
    fn finished(&self, outcome: &Outcome) -> Solution {
        let worth = outcome.worth;
        let bounds = [worth.coverage, worth.ranges, worth.changes, worth.view];
        self.finish(std::slice::from_ref(&outcome.values), bounds)
    }

    /// Any week that meets the hard rules, as it is quickly found, and played on from there.
    pub(super) fn any_week(&self, stages: &[Stage]) -> Result<Outcome, Verdict> {
        let days = u32::try_from(self.weekly.request.days.len()).unwrap_or(u32::MAX);
        let rows = [rules::hard_rows_only(self.weekly.clone())];
        let asked = any_week(&rows, stages);
        let verdict = asked.verdict();
        let (_, values) = asked.week.ok_or(verdict)?;
        let start = Play::new(&self.weekly).with(&values).game(0);
        let outcome = start.again(MENDING.saturating_mul(days));
        if outcome.worth.broken < 1e-6 { Ok(outcome) } else { Err(Verdict::Unknown) }
    }
}

/// Where games start: at an empty week, or at the plan that is reworked.
pub(super) fn start<'w, 'a>(weekly: &'w Weekly<'a>) -> Play<'w, 'a> {
    let empty = Play::new(weekly);
    match &weekly.request.rework {
        Some(_) => empty.with(&before(weekly)),
        None => empty,
    }
}

/// The picks of the plan before, as values, as far as they may still be chosen.
pub(super) fn before(weekly: &Weekly) -> Vec<f64> {
    let mut values = vec![0.0; weekly.model.vars.len()];
    let Some(rework) = &weekly.request.rework else { return values };
    for pick in &weekly.picks {
        let id = &weekly.candidate(pick).id;
        if let Some(sets) = rework.picks.get(&(pick.day, id.clone())) {
            values[pick.chosen.0] = 1.0;
            values[pick.extra.0] =
                f64::from((*sets).clamp(pick.sets[0], pick.sets[1]) - pick.sets[0]);
        }
    }
    values
}
