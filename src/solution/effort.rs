//! How much a search may spend, in work and never in clock time, so that the same input gives the same plan.

use crate::program::backend::Backend;

/// How much work a search may spend, in changes played; never in clock time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// The solver that weeks are solved whole with.
    pub backend: Backend,
    /// Splits that stay in the race after the first game.
    pub finalists: usize,
    /// Games played from an empty week for each of them, at least.
    pub games: u32,
    /// Days that the games of a short week add up to: it is quickly played, so it is played more often.
    pub game_days: u32,
    /// Days that a game is played for at least.
    pub least_days: u32,
    /// Changes for each day of a game.
    pub changes_a_day: u32,
    /// Rounds of shorter games that go on from the best weeks of the best split, at most.
    pub rounds: u32,
    /// Games of a round.
    pub round_games: u32,
    /// Rounds without a better week after which the search ends.
    pub most_idle: u32,
    /// Weeks with at most this many picks are solved whole.
    pub whole_picks: usize,
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            backend: Backend::default(),
            finalists: 2,
            games: 2,
            game_days: 20,
            least_days: 8,
            changes_a_day: 4000,
            rounds: 8,
            round_games: 5,
            most_idle: 5,
            whole_picks: 36,
        }
    }
}
