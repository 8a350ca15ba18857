//! Racing: the splits are annealed against one another, and one that falls behind drops out.

use rayon::prelude::*;

use super::anneal::{Annealer, Incumbent};
use super::budget::{Budget, Tuning};
use super::elite::{ElitePool, Runs};
use super::problem::{NoWeek, SplitProblem};
use crate::model::tier::Tier;

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
    let breaks = |racer: &Racer| !racer.pool.best().score.is_feasible();
    if race.first().is_none_or(breaks) && problems.par_iter().all(SplitProblem::collides) {
        return Err(NoWeek::Impossible);
    }
    race.truncate(budget.finalists);
    let half = Runs { count: runs.count.div_ceil(2), ..runs };
    let rest = Runs { first: runs.first + u64::from(half.count), ..half };
    for (part, runs) in budget.tuning.in_the_race.into_iter().zip([half, rest]) {
        keep_near(&mut race, part);
        for racer in &mut race {
            more_runs(&problems[racer.place], &mut racer.pool, runs);
        }
        sort(&mut race);
    }
    keep_near(&mut race, budget.tuning.in_the_race[2]);
    if race.len() > 1 {
        for racer in &mut race {
            for round in 1..=u64::from(budget.tuning.deciding) {
                racer.pool.improve(&problems[racer.place].landscape, runs.round(budget, round));
            }
        }
        sort(&mut race);
    }
    race.into_iter().next().ok_or(NoWeek::NotFound)
}

/// A run from an empty week, or from the week that is reworked.
pub(super) fn first_run(problem: &SplitProblem, proposals: u32) -> Incumbent {
    Annealer::at_start(&problem.landscape).run(0).anneal(proposals)
}

/// More of the same, after a run that tells what is worth a try.
fn more_runs(problem: &SplitProblem, pool: &mut ElitePool, runs: Runs) {
    let start = Annealer::at_start(&problem.landscape).knowing(&pool.frequency);
    let Tuning { looking, cooling, heeding: [one, other], .. } = problem.landscape.tuning;
    let ways = [looking, one, other].map(|first| [first, cooling]);
    let ways = if pool.best().score.misses() { &ways[..] } else { &ways[..1] };
    let run = |number: u64, phases| {
        let is_open = number.is_multiple_of(2);
        start.run(number).open_minded(is_open).anneal_by(phases, runs.proposals)
    };
    let incumbents =
        ways.par_iter().flat_map(|phases| runs.numbers().map(|number| run(number, phases)));
    let incumbents: Vec<Incumbent> = incumbents.collect();
    pool.take_in(incumbents, problem.landscape.tuning.elite);
}

/// The leader first.
fn sort(race: &mut [Racer]) {
    race.sort_by(|one, other| one.pool.best().score.order(&other.pool.best().score));
}

/// Drops splits that do not reach a part of the points of the leader's.
fn keep_near(race: &mut Vec<Racer>, part: f64) {
    let leader = race.first().map_or(0.0, |racer| racer.pool.best().score.tiers[Tier::View]);
    race.retain(|racer| {
        racer.pool.best().score.tiers[Tier::View] >= leader - (1.0 - part) * leader.abs()
    });
}
