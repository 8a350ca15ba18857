//! The cooling schedule of a phase: from how warm to how cold it goes, and what rows and costs weigh in it.

use crate::model::tier::{PerTier, Tier};
use crate::search::budget::Phase;
use crate::search::evaluator::{Score, Tables, Weights};

/// What a changed pick of a rework weighs in points of tier 3, while a run is steered.
const CHANGE: f64 = 25.0;

/// More points of tier 3 than a change is expected to bring where it breaks a row.
const MOST_POINTS: f64 = 100.0;

impl Phase {
    /// The temperature of each of some proposals.
    pub(super) fn cooled(&self, proposals: u32) -> impl Iterator<Item = f64> + use<> {
        let [warm, cold] = self.temperatures;
        let cooling = libm::pow(cold / warm, 1.0 / f64::from(proposals.max(1)));
        let temperatures =
            std::iter::successors(Some(warm * cooling), move |now| Some(now * cooling));
        temperatures.take(proposals as usize)
    }

    pub(super) fn weights(&self, tables: &Tables) -> Weights {
        let [broken, coverage, ranges] = self.weights;
        let tiers = PerTier::of(|tier| match tier {
            Tier::Coverage => coverage,
            Tier::Ranges => ranges,
            Tier::Changes => CHANGE,
            Tier::View => 1.0,
        });
        Weights::new(tables, Score { broken, tiers })
    }

    /// More than any change of a week gains.
    pub(super) fn most_gain(&self, now: &Score) -> f64 {
        let [broken, coverage, ranges] = self.weights;
        broken * now.broken
            + coverage * now.tiers[Tier::Coverage]
            + ranges * now.tiers[Tier::Ranges]
            + CHANGE * now.tiers[Tier::Changes]
            + MOST_POINTS
    }
}
