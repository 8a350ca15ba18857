//! Variety: the seed chooses among equally good weeks, and later blocks bring other accessories. Tiers 1 to 3
//! are held at their values, so that neither costs any of them.

use std::collections::BTreeSet;

use super::anneal::Annealer;
use super::preference;
use crate::model::Weekly;
use crate::model::tier::Tier;
use crate::program::Var;
use crate::request::dose::Duty;
use crate::words::Muscle;

/// Points that a main lift which stays, or an accessory which has had its block, weighs against the seed's.
const ROTATION: f64 = 1000.0;

/// Changes tried for each block and day.
const CHANGES_A_DAY: u32 = 1000;

/// The week of the first block by the seed's preferences, then one for each later block.
pub(super) fn blocks(weekly: &Weekly, best: &[f64]) -> Vec<Vec<f64>> {
    let request = weekly.request;
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    // What a rework changed is counted in the first block; accessories of later blocks rotate as ever.
    let mut later = weekly.clone();
    later.goals.retain(|goal| goal.tier != Tier::Changes);
    let mut blocks: Vec<Vec<f64>> = Vec::new();
    for block in 0..request.blocks() {
        let last = blocks.last().map_or(best, Vec::as_slice);
        let goal = preferences(weekly, block, &blocks);
        let of_block = if block == 0 { weekly } else { &later };
        let annealer = Annealer::new(of_block).with(last).run(u64::from(block));
        let most = blocks.first().map_or_else(Vec::new, |first| most(weekly, first));
        let moved = annealer.wander(&goal, &most, CHANGES_A_DAY.saturating_mul(days));
        blocks.push(moved);
    }
    blocks
}

/// For each muscle, the most half-sets of a later block: those of the first, or the top of its range.
fn most(weekly: &Weekly, first: &[f64]) -> Vec<(Var, f64)> {
    let high = |muscle: &Muscle| {
        let target = weekly.request.targets.get(muscle);
        target.map_or(0.0, |target| 2.0 * target.high)
    };
    let sums = Muscle::ALL.iter().flat_map(|muscle| {
        weekly.halves(*muscle).into_iter().map(|(sum, _)| (sum, first[sum.0].max(high(muscle))))
    });
    sums.collect()
}

/// The seed's preference for each pick; after the first block main lifts stay and accessories change.
fn preferences(weekly: &Weekly, block: u32, earlier: &[Vec<f64>]) -> Vec<f64> {
    let request = weekly.request;
    let used: BTreeSet<usize> = weekly
        .picks
        .iter()
        .filter(|pick| earlier.last().is_some_and(|held| held[pick.chosen.0] > 0.5))
        .map(|pick| pick.candidate)
        .collect();
    let picks = weekly.picks.iter();
    picks
        .map(|pick| {
            let candidate = &request.candidates[pick.candidate];
            let seed = request.seed.wrapping_add(u64::from(block) << 32);
            let drawn = preference::drawn(seed, &candidate.id, pick.day, request.profile.variety);
            let was_here = earlier.last().is_some_and(|held| held[pick.chosen.0] > 0.5);
            let rotation = match candidate.duty {
                Duty::Main if was_here => ROTATION,
                Duty::Main => 0.0,
                _ if used.contains(&pick.candidate) => -ROTATION,
                _ => 0.0,
            };
            f64::from(drawn) + rotation
        })
        .collect()
}
