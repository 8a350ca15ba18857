//! Games of all splits against one another. A split that falls behind drops out; the best weeks of the winner are
//! crossed, and played on from there, until that brings nothing better.

use rayon::prelude::*;

use super::effort::Effort;
use super::half::{FOR_LESS, PLAIN};
use super::play::{Outcome, Play};
use super::quick;
use super::search::{NoWeek, Search};

/// A split stays in the race if its best week reaches this part of the points of the leader's: after the first game,
/// which differs by about as much from game to game, after half of the games, and after all of them.
const IN_THE_RACE: [f64; 3] = [0.93, 0.95, 0.97];

/// Rounds that splits play which are so near to one another after all games.
const DECIDING: u64 = 2;

/// Weeks of a split that are kept for crossing.
const POOLED: usize = 10;

/// Of a round, the games that go on from the best week; the others start from a cross of two.
const FROM_THE_BEST: u64 = 1;

/// Games that are played side by side.
#[derive(Debug, Clone, Copy)]
pub(super) struct Games {
    /// The number of the first: a game plays the same moves wherever it is played.
    pub(super) first: u64,
    /// How many.
    pub(super) count: u32,
    /// Changes of each.
    pub(super) changes: u32,
}

impl Games {
    fn numbers(self) -> impl IndexedParallelIterator<Item = u64> {
        let numbers: Vec<u64> = (self.first..).take(self.count.max(1) as usize).collect();
        numbers.into_par_iter()
    }
}

/// The best weeks met under a split, the best first, no two worth the same.
pub(super) struct Pool {
    weeks: Vec<Outcome>,
    /// How often each pick was seen to stand in the games so far.
    stood: Vec<u32>,
}

impl Pool {
    fn new(first: Outcome) -> Pool {
        Pool { stood: first.stood.clone(), weeks: vec![first] }
    }

    /// The best week.
    pub(super) fn best(&self) -> &Outcome {
        &self.weeks[0]
    }

    fn take_in(&mut self, outcomes: Vec<Outcome>) {
        for outcome in outcomes {
            self.take_in_one(outcome);
        }
    }

    fn take_in_one(&mut self, outcome: Outcome) {
        for (stood, more) in self.stood.iter_mut().zip(&outcome.stood) {
            *stood += more;
        }
        let worse = |week: &Outcome| !week.worth.beats(&outcome.worth);
        let place = self.weeks.iter().position(worse).unwrap_or(self.weeks.len());
        let same = self.weeks.get(place).is_some_and(|week| !outcome.worth.beats(&week.worth));
        if !same {
            self.weeks.insert(place, outcome);
            self.weeks.truncate(POOLED);
        }
    }
}

/// A split in the race.
pub(super) struct Racer {
    /// Which of the searches.
    pub(super) place: usize,
    /// Its best weeks.
    pub(super) pool: Pool,
}

/// The games of one split, for a request of some days.
pub(super) fn games(effort: Effort, days: usize) -> Games {
    let days = u32::try_from(days).unwrap_or(u32::MAX).max(1);
    let count = effort.games.max(effort.game_days / days);
    // A week of few days is quickly played, and often tight: its games have the changes of a longer week.
    let changes = effort.changes_a_day.saturating_mul(days.max(effort.least_days));
    Games { first: 1, count, changes }
}

/// Which split wins, and its best weeks.
///
/// # Errors
/// Where no first game meets the hard rules, and it is proven that none can, there is no race; nor without splits.
pub(super) fn winner(searches: &[Search], effort: Effort, games: Games) -> Result<Racer, NoWeek> {
    let first: Vec<Pool> =
        searches.par_iter().map(|search| Pool::new(search.played(games.changes))).collect();
    let mut race: Vec<Racer> =
        first.into_iter().enumerate().map(|(place, pool)| Racer { place, pool }).collect();
    sort(&mut race);
    let breaks = |racer: &Racer| racer.pool.best().worth.broken > 1e-6;
    if race.first().is_none_or(breaks) && searches.par_iter().all(Search::collides) {
        return Err(NoWeek::Impossible);
    }
    race.truncate(effort.finalists);
    let half = Games { count: games.count.div_ceil(2), ..games };
    let rest = Games { first: games.first + u64::from(half.count), ..half };
    for (part, games) in IN_THE_RACE.into_iter().zip([half, rest]) {
        keep_near(&mut race, part);
        for racer in &mut race {
            searches[racer.place].play_more(&mut racer.pool, games);
        }
        sort(&mut race);
    }
    keep_near(&mut race, IN_THE_RACE[2]);
    if race.len() > 1 {
        for racer in &mut race {
            let empty = Play::new(&searches[racer.place].weekly);
            for round in 1..=DECIDING {
                play_round(&empty, &mut racer.pool, effort.round(games, round));
            }
        }
        sort(&mut race);
    }
    race.into_iter().next().ok_or(NoWeek::NotFound)
}

/// The leader first.
fn sort(race: &mut [Racer]) {
    race.sort_by(|one, other| one.pool.best().worth.order(&other.pool.best().worth));
}

/// Drops splits that do not reach a part of the points of the leader's.
fn keep_near(race: &mut Vec<Racer>, part: f64) {
    let leader = race.first().map_or(0.0, |racer| racer.pool.best().worth.view);
    race.retain(|racer| racer.pool.best().worth.view >= leader - (1.0 - part) * leader.abs());
}

impl Effort {
    /// A round of shorter games; no two rounds have a game in common.
    fn round(self, games: Games, round: u64) -> Games {
        Games { first: round << 32, count: self.round_games, changes: games.changes / 5 * 2 }
    }
}

impl Search<'_> {
    /// A game from an empty week, or from the week that is reworked.
    pub(super) fn played(&self, changes: u32) -> Outcome {
        quick::start(&self.weekly).game(0).run(changes)
    }

    /// More of the same, after a game that tells what is worth a try.
    fn play_more(&self, pool: &mut Pool, games: Games) {
        let start = quick::start(&self.weekly).knowing(&pool.stood);
        let ways = if pool.best().worth.misses() { &FOR_LESS[..] } else { &[PLAIN] };
        let game = |number: u64, halves| {
            start.game(number).open_minded(number.is_multiple_of(2)).run_by(halves, games.changes)
        };
        let games =
            ways.par_iter().flat_map(|halves| games.numbers().map(|number| game(number, halves)));
        let outcomes: Vec<Outcome> = games.collect();
        pool.take_in(outcomes);
    }

    /// A week played on by rounds; one whose pairs only the solver sees stays as it is.
    pub(super) fn played_on_from(&self, values: Vec<f64>, effort: Effort) -> Vec<f64> {
        let first = Play::new(&self.weekly).with(&values).run(0);
        if first.worth.broken > 1e-6 {
            return values;
        }
        let games = games(effort, self.weekly.request.days.len());
        self.played_on(Pool::new(first), games, effort).values
    }

    /// Rounds of short games from crosses of the best weeks, until none has brought a better one for a while.
    pub(super) fn played_on(&self, mut pool: Pool, games: Games, effort: Effort) -> Outcome {
        let empty = Play::new(&self.weekly);
        let mut idle = 0;
        for round in DECIDING + 1..=DECIDING + u64::from(effort.rounds) {
            let before = pool.best().worth;
            play_round(&empty, &mut pool, effort.round(games, round));
            idle = if pool.best().worth.beats(&before) { 0 } else { idle + 1 };
            if idle == effort.most_idle {
                break;
            }
        }
        let best = pool.weeks.swap_remove(0);
        Outcome { stood: pool.stood, ..best }
    }
}

/// A round of games: one from the best week, the others from crosses.
fn play_round(empty: &Play, pool: &mut Pool, games: Games) {
    let start = empty.clone().knowing(&pool.stood);
    let game = |number: u64| {
        let mut game = start.game(number);
        if number - games.first < FROM_THE_BEST || pool.weeks.len() == 1 {
            return game.with(&pool.best().values).again(games.changes);
        }
        let count = u32::try_from(pool.weeks.len()).unwrap_or(u32::MAX);
        // The better of two draws, with any other.
        let one = game.below(count).min(game.below(count));
        let other = game.below(count);
        let [one, other] = [one, other].map(|place| &pool.weeks[place as usize].values);
        game.cross(one, other).again(games.changes)
    };
    let outcomes: Vec<Outcome> = games.numbers().map(game).collect();
    pool.take_in(outcomes);
}
