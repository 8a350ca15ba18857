//! Racing: the splits are annealed against one another, and one that falls behind drops out.

use rayon::prelude::*;

use super::anneal::{Annealer, Incumbent};
use super::budget::{Budget, Heat, Tuning};
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
    let race = first_heat(problems, budget, runs)?;
    other_heats(race, problems, budget, runs)
}

/// What stays in the race after one run under each split, the leader first.
///
/// # Errors
/// Where no run meets the hard rules, and it is proven that none can.
pub(super) fn first_heat(
    problems: &[SplitProblem],
    budget: Budget,
    runs: Runs,
) -> Result<Vec<Racer>, NoWeek> {
    let first = &budget.heats[0];
    let first_run = |problem| {
        let mut pool = ElitePool::new(first_run(problem, first.proposals(runs)));
        let mended = Annealer::mended(&problem.landscape, budget.mending);
        pool.take_in(mended.into_iter().collect(), budget.tuning.elite);
        pool
    };
    let pools: Vec<ElitePool> = problems.par_iter().map(first_run).collect();
    let mut race: Vec<Racer> =
        pools.into_iter().enumerate().map(|(place, pool)| Racer { place, pool }).collect();
    sort(&mut race);
    let breaks = |racer: &Racer| !racer.pool.best().score.is_feasible();
    if race.first().is_none_or(breaks) {
        problems.iter().for_each(SplitProblem::takes_a_relaxation);
        if problems.par_iter().all(SplitProblem::collides) {
            return Err(NoWeek::Impossible);
        }
    }
    first.ends(&mut race);
    Ok(race)
}

/// The heats after the first.
///
/// # Errors
/// Without splits.
pub(super) fn other_heats(
    mut race: Vec<Racer>,
    problems: &[SplitProblem],
    budget: Budget,
    runs: Runs,
) -> Result<Racer, NoWeek> {
    let (mut played, mut round) = (1, 0);
    for heat in &budget.heats[1..] {
        let fresh = heat.fresh(runs, played);
        // A lone split plays its rounds later.
        let rounds = if race.len() > 1 { heat.rounds } else { 0 };
        race.par_iter_mut().for_each(|racer| {
            let problem = &problems[racer.place];
            if fresh.count > 0 {
                more_runs(problem, &mut racer.pool, fresh);
            }
            for round in round + 1..=round + u64::from(rounds) {
                racer.pool.improve(&problem.landscape, runs.round(budget, round));
            }
        });
        played += u64::from(fresh.count);
        round += u64::from(rounds);
        sort(&mut race);
        heat.ends(&mut race);
    }
    race.into_iter().next().ok_or(NoWeek::NotFound)
}

impl Heat {
    /// Proposals of each of its runs.
    fn proposals(&self, runs: Runs) -> u32 {
        runs.proposals / 100 * self.length
    }

    /// Its runs from an empty week, after some that were played.
    fn fresh(&self, runs: Runs, played: u64) -> Runs {
        let count = (runs.count * self.runs).div_ceil(100);
        Runs { first: played, count, proposals: self.proposals(runs) }
    }

    /// Drops the splits that do not stay; the leader stands first.
    fn ends(&self, race: &mut Vec<Racer>) {
        let points = |racer: &Racer| racer.pool.best().score.tiers[Tier::View];
        let leader = race.first().map_or(0.0, points);
        race.retain(|racer| points(racer) >= leader - self.behind);
        race.truncate(self.stay);
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::tier::PerTier;
    use crate::search::evaluator::Score;

    fn racer(place: usize, points: f64) -> Racer {
        let tiers = PerTier::of(|tier| if tier == Tier::View { points } else { 0.0 });
        let score = Score { broken: 0.0, tiers };
        Racer { place, pool: ElitePool::new(Incumbent { sets: vec![], score, frequency: vec![] }) }
    }

    /// Points may be few or under nought, so what counts is the distance and no part of them.
    #[test]
    fn splits_far_behind_drop_out_and_no_more_stay_than_may() {
        let left = |heat: Heat| {
            let mut race: Vec<Racer> = [5.0, -10.0, -25.0, -60.0]
                .into_iter()
                .enumerate()
                .map(|(place, points)| racer(place, points))
                .collect();
            heat.ends(&mut race);
            race.iter().map(|racer| racer.place).collect::<Vec<usize>>()
        };
        let heat = Heat { runs: 1, length: 100, rounds: 0, stay: 9, behind: 30.0 };
        assert_eq!(left(heat), [0, 1, 2]);
        assert_eq!(left(Heat { stay: 2, ..heat }), [0, 1]);
        assert_eq!(left(Heat { behind: 10.0, ..heat }), [0]);
    }

    #[test]
    fn no_run_of_a_heat_is_played_before() {
        let runs = Runs { first: 1, count: 6, proposals: 32_000 };
        let heat = Heat { runs: 20, length: 50, rounds: 0, stay: 9, behind: 0.0 };
        let fresh = heat.fresh(runs, 3);
        assert_eq!((fresh.first, fresh.count, fresh.proposals), (3, 2, 16_000));
    }
}
