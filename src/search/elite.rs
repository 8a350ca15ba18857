//! The elite pool: the best weeks met under a split, crossed with one another and annealed again, until that brings
//! nothing better.

use rayon::prelude::*;

use super::anneal::{Annealer, Incumbent, Landscape};
use super::budget::{Budget, Tuning};

/// Annealing runs side by side.
#[derive(Debug, Clone, Copy)]
pub(super) struct Runs {
    /// The number of the first: a run draws the same wherever it is made.
    pub(super) first: u64,
    /// How many.
    pub(super) count: u32,
    /// Proposals of each.
    pub(super) proposals: u32,
}

impl Runs {
    /// The runs of one split, for a request of some days.
    pub(super) fn of(budget: Budget, days: usize) -> Runs {
        let days = u32::try_from(days).unwrap_or(u32::MAX).max(1);
        let count = budget.runs.max(budget.run_days / days);
        // A week of few days is quickly evaluated, and often tight: its runs are as long as those of a longer week.
        let proposals = budget.proposals_a_day.saturating_mul(days.max(budget.least_days));
        Runs { first: 1, count, proposals }
    }

    /// The shorter runs of a round; no two rounds have a run in common.
    pub(super) fn round(self, budget: Budget, round: u64) -> Runs {
        Runs { first: round << 32, count: budget.round_runs, proposals: self.proposals / 5 * 2 }
    }

    pub(super) fn numbers(self) -> impl IndexedParallelIterator<Item = u64> {
        let numbers: Vec<u64> = (self.first..).take(self.count.max(1) as usize).collect();
        numbers.into_par_iter()
    }
}

/// The best weeks met under a split, the best first, no two of the same score.
pub(super) struct ElitePool {
    weeks: Vec<Incumbent>,
    /// How often each pick was seen to stand in the runs so far.
    pub(super) frequency: Vec<u32>,
}

impl ElitePool {
    pub(super) fn new(first: Incumbent) -> ElitePool {
        ElitePool { frequency: first.frequency.clone(), weeks: vec![first] }
    }

    /// The best week.
    pub(super) fn best(&self) -> &Incumbent {
        &self.weeks[0]
    }

    pub(super) fn take_in(&mut self, incumbents: Vec<Incumbent>, elite: usize) {
        for incumbent in incumbents {
            self.take_in_one(incumbent);
            self.weeks.truncate(elite);
        }
    }

    fn take_in_one(&mut self, incumbent: Incumbent) {
        for (frequency, more) in self.frequency.iter_mut().zip(&incumbent.frequency) {
            *frequency += more;
        }
        let worse = |week: &Incumbent| !week.score.beats(&incumbent.score);
        let place = self.weeks.iter().position(worse).unwrap_or(self.weeks.len());
        let same = self.weeks.get(place).is_some_and(|week| !incumbent.score.beats(&week.score));
        if !same {
            self.weeks.insert(place, incumbent);
        }
    }

    /// Rounds of short runs from crosses of the best weeks, until none has brought a better one for a while.
    pub(super) fn improved(
        mut self,
        landscape: &Landscape,
        runs: Runs,
        budget: Budget,
    ) -> ElitePool {
        let mut idle = 0;
        let raced: u32 = budget.heats.iter().map(|heat| heat.rounds).sum();
        let first = u64::from(raced + budget.first_round);
        for round in (first..).take(budget.rounds as usize) {
            let before = self.best().score;
            self.improve(landscape, runs.round(budget, round));
            idle = if self.best().score.beats(&before) { 0 } else { idle + 1 };
            if idle == budget.patience {
                break;
            }
        }
        if self.best().score.misses() {
            let last = runs.round(budget, first + u64::from(budget.rounds));
            self.heed(landscape, Runs { count: budget.heeding_runs, ..last });
        }
        self.polish(landscape, budget.polished);
        self
    }

    /// The best week, with what all runs saw.
    pub(super) fn into_best(mut self) -> Incumbent {
        let best = self.weeks.swap_remove(0);
        Incumbent { frequency: self.frequency, ..best }
    }

    /// The best few weeks without what a small change still gains.
    fn polish(&mut self, landscape: &Landscape, weeks: usize) {
        let best: Vec<Vec<u32>> =
            self.weeks.iter().take(weeks).map(|week| week.sets.clone()).collect();
        let polished = best.iter().map(|sets| Annealer::new(landscape).with(sets).polished());
        let polished: Vec<Incumbent> = polished.collect();
        self.take_in(polished, landscape.tuning.elite);
    }

    /// Runs from the best week that heed tiers 1 and 2 first: what points forbid in other rounds is tried, as a little less
    /// that is missed can cost many of them.
    fn heed(&mut self, landscape: &Landscape, runs: Runs) {
        let start = Annealer::new(landscape).knowing(&self.frequency).with(&self.best().sets);
        let Tuning { heeding: [heeding, _], again, .. } = landscape.tuning;
        let run = |number| start.run(number).anneal_by(&[heeding, again], runs.proposals);
        let incumbents: Vec<Incumbent> = runs.numbers().map(run).collect();
        self.take_in(incumbents, landscape.tuning.elite);
    }

    /// A round from a week: the plan that is reworked, little changed, is often the best.
    pub(super) fn go_from(&mut self, week: &Incumbent, landscape: &Landscape, runs: Runs) {
        let start = Annealer::new(landscape).with(&week.sets).knowing(&self.frequency);
        let run = |number| start.run(number).reanneal(runs.proposals);
        let incumbents: Vec<Incumbent> = runs.numbers().map(run).collect();
        self.take_in(incumbents, landscape.tuning.elite);
    }

    /// A round: one run from the best week, the others from crosses.
    pub(super) fn improve(&mut self, landscape: &Landscape, runs: Runs) {
        let start = Annealer::new(landscape).knowing(&self.frequency);
        let run = |number: u64| {
            let mut run = start.run(number);
            if number - runs.first < landscape.tuning.from_the_best || self.weeks.len() == 1 {
                return run.with(&self.best().sets).reanneal(runs.proposals);
            }
            let count = u32::try_from(self.weeks.len()).unwrap_or(u32::MAX);
            // The better of two draws, with any other.
            let one = run.proposer.below(count).min(run.proposer.below(count));
            let other = run.proposer.below(count);
            let [one, other] = [one, other].map(|place| &self.weeks[place as usize].sets);
            run.cross(one, other).reanneal(runs.proposals)
        };
        let incumbents: Vec<Incumbent> = runs.numbers().map(run).collect();
        self.take_in(incumbents, landscape.tuning.elite);
    }
}
