//! From a model to picks: tiers solved and held one after another, day by day where the week is large.

pub mod any_week;
mod board;
pub mod draw;
mod effort;
mod half;
mod held;
pub mod idle;
mod lists;
mod matching;
pub mod model_file;
mod moves;
mod pairing;
mod play;
pub mod quick;
mod race;
pub mod reached;
pub mod reduce;
pub mod search;
mod solved;
mod vary;
mod wiring;

use crate::input::plan::{SolveStatus, Tier};
use crate::model::Weekly;
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
    pub tiers: Vec<Tier>,
    /// How far the search got.
    pub status: SolveStatus,
}

/// The points of tier 3 after one game from an empty week; for measuring.
#[must_use]
pub fn points_of_a_game(weekly: &Weekly, changes: u32) -> f64 {
    play::Play::new(weekly).run(changes).worth.view
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
