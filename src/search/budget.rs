//! How much a search may spend, in work and never in clock time, so that the same input gives the same plan; and every
//! constant that steers it.

use crate::program::backend::Backend;
use crate::request::turn::Turn;

/// How much work a search may spend, in proposals and nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Budget {
    /// The solver that weeks are solved whole with.
    pub backend: Backend,
    /// How splits race, one heat after another.
    pub heats: [Heat; 5],
    /// Runs from an empty week for a split that wins, at least.
    pub runs: u32,
    /// Days that the runs of a short week add up to: it is quickly evaluated, so it is annealed more often.
    pub run_days: u32,
    /// Days that a run has proposals for at least.
    pub least_days: u32,
    /// Proposals for each day of a run.
    pub proposals_a_day: u32,
    /// Rounds of shorter runs that go on from the best weeks of the best split, at most.
    pub rounds: u32,
    /// Runs of a round.
    pub round_runs: u32,
    /// Rounds without a better week after which the search ends.
    pub patience: u32,
    /// Weeks in which every small change is looked for at the end.
    pub polished: usize,
    /// Proposals for each block and day toward what the seed prefers.
    pub variety_a_day: u32,
    /// Whether it is found out what limits a wish that falls short.
    pub asks_why: bool,
    /// Whether bounds and later blocks are found as well.
    pub tells_all: bool,
    /// Whether it goes on from what a quick answer would spend, and splits race only where much changes.
    pub goes_on: bool,
    /// From so many changed picks of a rework on, splits race as well.
    pub much_changed: f64,
    /// Weeks of a step, and steps, in which the plan that is reworked is mended.
    pub mending: [usize; 2],
    /// The number of its first round, after those of the race.
    pub first_round: u32,
    /// Last runs that heed tiers 1 and 2 far above points, where the best week misses something of them.
    pub heeding_runs: u32,
    /// Weeks with at most this many picks are solved whole.
    pub exact_picks: usize,
    /// Which fixed stream the draws come from; the client's seed has no part in it.
    pub stream: u64,
    /// How runs are steered.
    pub tuning: Tuning,
    /// Ends the work early once nobody waits for it; the request hands it on.
    pub turn: Turn,
}

impl Default for Budget {
    fn default() -> Self {
        Budget {
            backend: Backend::default(),
            heats: Heat::USUAL,
            runs: 2,
            run_days: 8,
            least_days: 8,
            proposals_a_day: 12_000,
            rounds: 8,
            round_runs: 2,
            patience: 4,
            polished: 1,
            variety_a_day: 4000,
            asks_why: true,
            tells_all: true,
            goes_on: false,
            much_changed: 4.0,
            mending: [2, 5],
            first_round: 1,
            heeding_runs: 2,
            exact_picks: 36,
            stream: 1,
            tuning: Tuning::default(),
            turn: Turn::default(),
        }
    }
}

impl Budget {
    /// A first answer while a better one is looked for: few and short runs, and no reasons of what falls short.
    #[must_use]
    pub fn quick() -> Budget {
        Budget { variety_a_day: 1000, asks_why: false, ..Budget::default().with_short_runs() }
    }

    fn with_short_runs(self) -> Budget {
        Budget {
            heats: Heat::QUICK,
            runs: 1,
            run_days: 1,
            least_days: 6,
            proposals_a_day: 6000,
            rounds: 2,
            round_runs: 2,
            patience: 1,
            polished: 0,
            ..self
        }
    }

    /// For a plan that is reworked: most of it stays, so that fewer runs find what has to go.
    #[must_use]
    pub fn of_a_rework(self) -> Budget {
        let less = Budget { heats: Heat::REWORK, rounds: 4, patience: 2, goes_on: true, ..self };
        if self.rounds > less.rounds { less } else { self }
    }

    /// For a rework that goes on from a quick answer: many short runs side by side.
    pub(super) fn going_on(self, look: Budget) -> Budget {
        // After the rounds of the look, its last one, and the round from the plan that is reworked.
        let first_round = look.rounds + 3;
        Budget { heats: look.heats, round_runs: 6, patience: 1, first_round, ..self }
    }

    /// What a quick answer would spend, which a longer search begins with, so that it is never behind it; nothing for a
    /// quick answer itself.
    #[must_use]
    pub fn first_look(self) -> Option<Budget> {
        let look = self.with_short_runs();
        (self.rounds > look.rounds).then_some(look)
    }
}

/// A phase of annealing. What is kept is decided tier by tier, not by these weights, which only steer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Phase {
    /// Weights of a broken row and of the costs of tiers 1 and 2, in points of tier 3.
    pub weights: [f64; 3],
    /// Temperatures at its beginning and at its end, in points of tier 3.
    pub temperatures: [f64; 2],
}

/// A heat of the race of splits: what each of them plays, and which stay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// Runs from an empty week, in hundredths of those of a split.
    pub runs: u32,
    /// Their length, in hundredths of that of a run.
    pub length: u32,
    /// Rounds of crosses.
    pub rounds: u32,
    /// Splits that stay, at most.
    pub stay: usize,
    /// Those that are so many points behind the leader do not.
    pub behind: f64,
}

impl Heat {
    /// Nothing is played.
    const NONE: Heat = Heat { runs: 0, length: 100, rounds: 0, stay: 1, behind: 0.0 };
    /// The split whose first run is best plays on alone.
    pub const ONE_SPLIT: [Heat; 5] =
        Heat::two(Heat { runs: 1, ..Heat::NONE }, Heat { runs: 100, ..Heat::NONE });
    /// Up to three splits after short runs, then the best one.
    const QUICK: [Heat; 5] = Heat::two(
        Heat { runs: 1, length: 40, rounds: 0, stay: 3, behind: 60.0 },
        Heat { runs: 100, length: 50, rounds: 1, ..Heat::NONE },
    );
    /// Up to two splits after short runs, then the best one.
    const REWORK: [Heat; 5] = Heat::two(
        Heat { runs: 1, length: 25, rounds: 0, stay: 2, behind: 80.0 },
        Heat { runs: 1, length: 100, rounds: 0, ..Heat::NONE },
    );

    const fn two(first: Heat, second: Heat) -> [Heat; 5] {
        [first, second, Heat::NONE, Heat::NONE, Heat::NONE]
    }

    /// Which split is best shows late, as single runs differ by tens of points: all play two short runs, half of them
    /// longer ones and a round.
    const USUAL: [Heat; 5] = [
        Heat { runs: 1, length: 50, rounds: 0, stay: 9, behind: 80.0 },
        Heat { runs: 20, length: 50, rounds: 0, stay: 3, behind: 60.0 },
        Heat { runs: 20, length: 100, rounds: 1, stay: 2, behind: 25.0 },
        Heat { runs: 20, length: 100, rounds: 1, stay: 1, behind: 0.0 },
        Heat::NONE,
    ];
}

/// How runs are steered. Found by trying on the demos and on small weeks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tuning {
    /// The first phase of a run looks around.
    pub looking: Phase,
    /// The second starts again from the best week met, and its tiers are so far apart that none is given up for the
    /// next.
    pub cooling: Phase,
    /// From a good week, or a cross of two, on: less warm.
    pub again: Phase,
    /// Other first phases, which heed tiers 1 and 2 more, beside the usual one where a first run misses something of
    /// them.
    pub heeding: [Phase; 2],
    /// Toward any week that meets all rows.
    pub meeting: Phase,
    /// Of a hundred proposals, how many are two moves at once: where minutes are short, one alone often cannot help.
    pub two_at_once: u32,
    /// Of a hundred second moves, how many are on the day of the first.
    pub same_day: u32,
    /// Of a hundred second moves, how many give minutes back that the first takes, or take those that it gives.
    pub balanced: u32,
    /// Of a hundred moves, how many are of each kind: another exercise of its kind, a set more or less, one more
    /// exercise, one less, any other exercise, a set from one to another, on another day, another everywhere, two that
    /// change days, another one of its kind with any sets.
    pub moves: [u32; 10],
    /// Of sixteen draws in a run that knows of others, how many favor what stood long in them.
    pub favored: u32,
    /// Of a hundred crosses, how many mix the exercises of each day; the others take whole days.
    pub mixed: u32,
    /// Weeks of a split that are kept for crossing.
    pub elite: usize,
    /// Of a round, the runs that go on from the best week; the others start from a cross of two.
    pub from_the_best: u64,
}

impl Default for Tuning {
    fn default() -> Self {
        let looking = Phase { weights: [100.0, 10.0, 0.33], temperatures: [60.0, 2.0] };
        let cooling = Phase { weights: [3000.0, 300.0, 10.0], temperatures: [5.0, 0.3] };
        Tuning {
            looking,
            cooling,
            again: Phase { temperatures: [8.0, 0.3], ..cooling },
            heeding: [
                Phase { weights: [3000.0, 1000.0, 100.0], temperatures: [200.0, 20.0] },
                Phase { weights: [100.0, 10.0, 3.0], ..looking },
            ],
            meeting: Phase { weights: [1000.0, 0.0, 0.0], temperatures: [200.0, 20.0] },
            two_at_once: 40,
            same_day: 80,
            balanced: 30,
            moves: [25, 18, 10, 7, 8, 7, 7, 6, 6, 6],
            favored: 6,
            mixed: 30,
            elite: 10,
            from_the_best: 1,
        }
    }
}
