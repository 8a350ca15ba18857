//! How much a search may spend, in work and never in clock time, so that the same input gives the same plan.

use crate::program::backend::Backend;

/// How much work a search may spend, in changes played and nodes of the search tree; never in clock time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// The solver that weeks are solved whole with.
    pub backend: Backend,
    /// Splits that stay in the race after the first game.
    pub finalists: usize,
    /// Games played from an empty week for each of them, at least.
    pub games: u32,
    /// Rounds of half games that start from the best week of the best split, at most.
    pub reheats: u32,
    /// Days that the games of a short week add up to: it is quickly played, so it is played more often.
    pub game_days: u32,
    /// Days that a game is played for at least.
    pub least_days: u32,
    /// Changes for each day of the first, short game.
    pub first_changes_a_day: u32,
    /// Changes for each day of a whole game.
    pub changes_a_day: u32,
    /// Weeks with at most this many picks are solved whole.
    pub whole_picks: usize,
    /// Nodes for each tier of a week that is solved whole.
    pub whole_nodes: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            backend: Backend::default(),
            finalists: 4,
            games: 2,
            reheats: 12,
            game_days: 18,
            least_days: 8,
            first_changes_a_day: 4000,
            changes_a_day: 4000,
            whole_picks: 36,
            whole_nodes: 20_000,
        }
    }
}
