//! Why there is no plan, and what would bring one. Every sentence here has been solved again before it is said.

pub mod conflict;
pub mod filter;
pub mod shortfall;
pub mod ways;

use crate::solution::search::Effort;

/// The short search that checks a way out.
pub(crate) const QUICK: Effort = Effort {
    finalists: 1,
    games: 1,
    first_changes_a_day: 1500,
    changes_a_day: 3000,
    nodes: 20,
    rounds: 1,
    whole_picks: 0,
    whole_nodes: 60,
};
