//! The search: from the model of a request to the best week that is found, with value and bound of each tier.
//!
//! `solve` is the way through: presolve, simulated annealing of every split in a race, crossover of the elite weeks,
//! bounds, and the seed's choice among equally good weeks.

mod anneal;
mod bound;
pub(crate) mod budget;
mod elite;
mod evaluator;
mod exact;
pub mod feasibility;
pub(crate) mod model_file;
pub(crate) mod preference;
pub(crate) mod presolve;
pub(crate) mod probe;
mod problem;
mod racing;
pub(crate) mod relaxation;
pub(crate) mod rework;
mod solution;
pub mod solve;
mod tie_break;

pub use self::solution::Done;
pub(crate) use self::solution::Solution;
use crate::model::Weekly;
use crate::model::tier::Tier;

/// The points of tier 3 after one run from an empty week; for measuring.
#[must_use]
pub fn points_of_a_run(weekly: &Weekly, changes: u32) -> f64 {
    anneal::Annealer::new(&anneal::Landscape::new(weekly, &budget::Budget::default()))
        .anneal(changes)
        .score
        .tiers[Tier::View]
}
