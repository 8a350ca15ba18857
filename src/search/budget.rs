//! How much a search may spend, in work and never in clock time, so that the same input gives the same plan.

use crate::program::backend::Backend;

/// How much work a search may spend, in changes played; never in clock time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget {
    /// The solver that weeks are solved whole with.
    pub backend: Backend,
    /// Splits that stay in the race after the first run.
    pub finalists: usize,
    /// Runs played from an empty week for each of them, at least.
    pub runs: u32,
    /// Days that the runs of a short week add up to: it is quickly played, so it is played more often.
    pub run_days: u32,
    /// Days that a run is played for at least.
    pub least_days: u32,
    /// Changes for each day of a run.
    pub proposals_a_day: u32,
    /// Rounds of shorter runs that go on from the best weeks of the best split, at most.
    pub rounds: u32,
    /// Runs of a round.
    pub round_runs: u32,
    /// Rounds without a better week after which the search ends.
    pub patience: u32,
    /// Weeks with at most this many picks are solved whole.
    pub exact_picks: usize,
}

impl Default for Budget {
    fn default() -> Self {
        Budget {
            backend: Backend::default(),
            finalists: 2,
            runs: 2,
            run_days: 20,
            least_days: 8,
            proposals_a_day: 4000,
            rounds: 8,
            round_runs: 5,
            patience: 5,
            exact_picks: 36,
        }
    }
}
