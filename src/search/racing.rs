//! Racing: the splits are annealed against one another, and one that falls behind drops out.

use rayon::prelude::*;

use super::anneal::schedule::{FOR_LESS, PLAIN};
use super::anneal::{Annealer, Incumbent};
use super::budget::Budget;
use super::elite::{DECIDING, ElitePool, Runs};
use super::problem::{NoWeek, SplitProblem};

/// A split stays in the race if its best week reaches this part of the points of the leader's: after the first run,
/// which differs by about as much from run to run, after half of the runs, and after all of them.
const IN_THE_RACE: [f64; 3] = [0.93, 0.95, 0.97];

/// A split in the race.
pub(super) struct Racer {
    /// Which of the problems.
    pub(super) place: usize,
    /// Its best weeks.
    pub(super) pool: ElitePool,
}

/// Which split wins, and its best weeks.
///
/// # Errors
/// Where no first run meets the hard rules, and it is proven that none can, there is no race; nor without splits.
pub(super) fn winner(
    problems: &[SplitProblem],
    budget: Budget,
    runs: Runs,
) -> Result<Racer, NoWeek> {
    let first: Vec<ElitePool> = problems
        .par_iter()
        .map(|problem| ElitePool::new(first_run(problem, runs.proposals)))
        .collect();
    let mut race: Vec<Racer> =
        first.into_iter().enumerate().map(|(place, pool)| Racer { place, pool }).collect();
    sort(&mut race);
    let breaks = |racer: &Racer| racer.pool.best().score.broken > 1e-6;
    if race.first().is_none_or(breaks) && problems.par_iter().all(SplitProblem::collides) {
        return Err(NoWeek::Impossible);
    }
    race.truncate(budget.finalists);
    let half = Runs { count: runs.count.div_ceil(2), ..runs };
    let rest = Runs { first: runs.first + u64::from(half.count), ..half };
    for (part, runs) in IN_THE_RACE.into_iter().zip([half, rest]) {
        keep_near(&mut race, part);
        for racer in &mut race {
            more_runs(&problems[racer.place], &mut racer.pool, runs);
        }
        sort(&mut race);
    }
    keep_near(&mut race, IN_THE_RACE[2]);
    if race.len() > 1 {
        for racer in &mut race {
            let empty = Annealer::new(&problems[racer.place].weekly);
            for round in 1..=DECIDING {
                racer.pool.improve(&empty, runs.round(budget, round));
            }
        }
        sort(&mut race);
    }
    race.into_iter().next().ok_or(NoWeek::NotFound)
}

/// A run from an empty week, or from the week that is reworked.
pub(super) fn first_run(problem: &SplitProblem, proposals: u32) -> Incumbent {
    Annealer::at_start(&problem.weekly).run(0).anneal(proposals)
}

/// More of the same, after a run that tells what is worth a try.
fn more_runs(problem: &SplitProblem, pool: &mut ElitePool, runs: Runs) {
    let start = Annealer::at_start(&problem.weekly).knowing(&pool.frequency);
    let ways = if pool.best().score.misses() { &FOR_LESS[..] } else { &[PLAIN] };
    let run = |number: u64, phases| {
        let is_open = number.is_multiple_of(2);
        start.run(number).open_minded(is_open).anneal_by(phases, runs.proposals)
    };
    let incumbents =
        ways.par_iter().flat_map(|phases| runs.numbers().map(|number| run(number, phases)));
    let incumbents: Vec<Incumbent> = incumbents.collect();
    pool.take_in(incumbents);
}

/// The leader first.
fn sort(race: &mut [Racer]) {
    race.sort_by(|one, other| one.pool.best().score.order(&other.pool.best().score));
}

/// Drops splits that do not reach a part of the points of the leader's.
fn keep_near(race: &mut Vec<Racer>, part: f64) {
    let leader = race.first().map_or(0.0, |racer| racer.pool.best().score.view);
    race.retain(|racer| racer.pool.best().score.view >= leader - (1.0 - part) * leader.abs());
}
