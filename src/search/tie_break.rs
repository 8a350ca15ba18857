//! Variety: the seed chooses among equally good weeks, and later blocks bring other accessories. Tiers 1 to 3
//! are held at their values, so that neither costs any of them.

use std::collections::BTreeSet;

use super::anneal::{Annealer, Landscape};
use super::budget::Budget;
use super::evaluator::{Evaluator, ROUNDING, Score, Weights};
use super::preference;
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Var;
use crate::request::dose::Duty;
use crate::words::Muscle;

/// Points that a main lift which stays, or an accessory which has had its block, weighs against the seed's.
const ROTATION: f64 = 1000.0;

/// What the seed's preference may lose by a change at first: weeks that are equally good lie apart, with others between
/// them. Falls to nothing over two thirds of the proposals.
const MOST_LOSS: f64 = 60.0;

/// The week of the first block by the seed's preferences, then one for each later block: sets of each pick.
pub(super) fn blocks(
    weekly: &Weekly,
    landscape: &Landscape,
    budget: Budget,
    best: &[u32],
) -> Vec<Vec<u32>> {
    let request = weekly.request;
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    let count = if budget.tells_all { request.blocks() } else { 1 };
    // What a rework changed is counted in the first block; accessories of later blocks rotate as ever.
    let is_reworked = weekly.goals_of(Tier::Changes).next().is_some();
    let without_changes = (is_reworked && count > 1).then(|| {
        let mut later = weekly.clone();
        later.goals.retain(|goal| goal.tier != Tier::Changes);
        Landscape::new(&later, &budget)
    });
    let later = without_changes.as_ref().unwrap_or(landscape);
    let mut blocks: Vec<Vec<u32>> = Vec::new();
    for block in 0..count {
        let last = blocks.last().map_or(best, Vec::as_slice);
        let preferences = preferences(weekly, block, &blocks);
        let landscape = if block == 0 { landscape } else { later };
        let start = Annealer::new(landscape).with(last).run(u64::from(block));
        let most = blocks.first().map_or_else(Vec::new, |first| most(weekly, landscape, first));
        let proposals = budget.variety_a_day.saturating_mul(days);
        request.turn.takes(u64::from(proposals));
        blocks.push(toward(start, &preferences, &most, proposals));
    }
    blocks
}

/// Moves toward the picks that are preferred, where no tier changes by it and no variable passes its most.
fn toward(from: Annealer, preferences: &[f64], most: &[(Var, f64)], proposals: u32) -> Vec<u32> {
    let Annealer { mut evaluator, mut proposer, .. } = from;
    let weights = Weights::new(proposer.tables(), Score { broken: 1.0, ..Score::default() });
    for proposal in 0..proposals {
        let left = 1.0 - 1.5 * f64::from(proposal) / f64::from(proposals);
        let most_loss = MOST_LOSS * left.max(0.0);
        let Some(change) = proposer.exchange(&evaluator) else { continue };
        let by_pick = change
            .iter()
            .map(|(pick, sets)| if *sets > 0 { preferences[*pick] } else { -preferences[*pick] });
        if by_pick.sum::<f64>() <= -most_loss
            || evaluator.weigh(&change, &weights, -ROUNDING, 0.0).is_none()
        {
            continue;
        }
        // A better week would be one that only some seeds find.
        let stays = evaluator.score_in_hand().order(&evaluator.score()).is_eq();
        let is_within = |(var, most): &(Var, f64)| {
            evaluator.sum_in_hand(*var).is_none_or(|sum| sum <= most + ROUNDING)
        };
        if stays && most.iter().all(is_within) {
            evaluator.commit(&change);
        }
    }
    evaluator.sets().to_vec()
}

/// For each muscle, the most half-sets of a later block: those of the first, or the top of its range.
fn most(weekly: &Weekly, landscape: &Landscape, first: &[u32]) -> Vec<(Var, f64)> {
    let mut evaluator = Evaluator::new(&landscape.tables);
    evaluator.go_to(first);
    let high = |muscle: &Muscle| {
        let target = weekly.request.targets.get(muscle);
        target.map_or(0.0, |target| 2.0 * target.high)
    };
    let sums = Muscle::ALL.iter().flat_map(|muscle| {
        weekly
            .halves(*muscle)
            .into_iter()
            .filter_map(|(sum, _)| Some((sum, evaluator.sum(sum)?.max(high(muscle)))))
    });
    sums.collect()
}

/// The seed's preference for each pick; after the first block main lifts stay and accessories change.
fn preferences(weekly: &Weekly, block: u32, earlier: &[Vec<u32>]) -> Vec<f64> {
    let request = weekly.request;
    let last = earlier.last();
    let was_here = |pick: usize| last.is_some_and(|sets| sets[pick] > 0);
    let places = 0..weekly.picks.len();
    let used: BTreeSet<usize> = places
        .filter(|place| was_here(*place))
        .map(|place| weekly.picks[place].candidate)
        .collect();
    let preference = |(place, pick): (usize, &Pick)| {
        let candidate = &request.candidates[pick.candidate];
        let seed = request.seed.wrapping_add(u64::from(block) << 32);
        let drawn = preference::drawn(seed, &candidate.id, pick.day, request.profile.variety);
        let rotation = match candidate.duty {
            Duty::Main if was_here(place) => ROTATION,
            Duty::Main => 0.0,
            _ if used.contains(&pick.candidate) => -ROTATION,
            _ => 0.0,
        };
        f64::from(drawn) + rotation
    };
    weekly.picks.iter().enumerate().map(preference).collect()
}
