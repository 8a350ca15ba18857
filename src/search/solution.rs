//! What a search returns: a solved week, with value and bound of each tier.

use crate::input::plan::{RuleValue, SolveStatus, TierValue};
use crate::program::backend::Backend;
use crate::split::Split;

/// What is done: an exercise on a day, its sets, and whether in a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Done {
    /// The day's place in the request.
    pub day: usize,
    /// The candidate's place in the request.
    pub candidate: usize,
    /// Sets.
    pub sets: u32,
    /// Whether it is part of a pair.
    pub paired: bool,
}

/// A solved week.
#[derive(Debug, Clone, PartialEq)]
pub struct Solution {
    /// The solver that solved it.
    pub backend: Backend,
    /// The split that it stands on.
    pub split: Split,
    /// What is done, by day.
    pub done: Vec<Done>,
    /// The same for each later block of four weeks: main lifts stay, accessories change where that costs nothing.
    pub later: Vec<Vec<Done>>,
    /// Value and bound of each tier: costs, then points of the last; a rework has its changes before that.
    pub tiers: Vec<TierValue>,
    /// What each rule costs or brings in its tier.
    pub points: Vec<RuleValue>,
    /// How far the search got.
    pub status: SolveStatus,
}

impl Solution {
    /// Tiers compared one after another: smaller costs first, then more points. `true` if better.
    #[must_use]
    pub fn beats(&self, other: &Solution) -> bool {
        const SAME: f64 = 1e-6;
        for (place, (one, two)) in self.tiers.iter().zip(&other.tiers).enumerate() {
            let gain = if place + 1 < self.tiers.len() {
                two.value - one.value
            } else {
                one.value - two.value
            };
            if gain.abs() > SAME {
                return gain > 0.0;
            }
        }
        false
    }
}
