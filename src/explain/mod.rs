//! Why there is no plan, and what would bring one. Every sentence here has been solved again before it is said.

pub mod conflict;
pub mod filter;
pub mod hard;
pub mod idle;
pub mod shortfall;
pub mod ways;

use crate::program::backend::Backend;
use crate::solution::search::Effort;

/// The short search that checks a way out.
pub(crate) const QUICK: Effort = Effort {
    backend: Backend::Microlp,
    finalists: 1,
    games: 1,
    game_days: 1,
    least_days: 1,
    changes_a_day: 2000,
    rounds: 0,
    round_games: 1,
    most_idle: 1,
    whole_picks: 0,
    whole_nodes: 60,
};
