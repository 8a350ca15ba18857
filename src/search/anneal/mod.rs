//! Simulated annealing over whole weeks: small changes, taken when they help or, early on, when they do not hurt much.
//!
//! The draws come from a fixed stream, so that every run over a request draws the same; the client's seed has no part
//! in it. The order of the tiers decides what is kept; a weighted sum only steers.

mod mend;
mod moves;
mod neighbors;
mod polish;
mod schedule;

use std::sync::{Arc, Mutex, PoisonError};

use rand::SeedableRng as _;
use rand_chacha::ChaCha8Rng;

use self::moves::Draws;
pub(in crate::search) use self::moves::Proposer;
use self::neighbors::Neighbors;
use super::budget::{Budget, Phase, Tuning};
use super::evaluator::{Evaluator, Memos, Score, Tables, Weights};
use crate::model::Weekly;
use crate::request::turn::Turn;

/// Every so many proposals it is seen what stands.
const LOOKS: usize = 32;
/// Every so many it is seen whether it pays to know what is ahead: where it is warm, that refuses little, and each change
/// that is taken moves it.
const PACE: usize = 256;
/// It does where fewer of them were taken.
const RARELY: usize = 48;

/// A week's model as runs see it: tables, what a proposal is drawn from, and the week that they start from.
pub(in crate::search) struct Landscape {
    pub(in crate::search) tables: Tables,
    neighbors: Arc<Neighbors>,
    /// Sets of each pick in the plan that is reworked; none where nothing is.
    pub(in crate::search) start: Vec<u32>,
    /// How runs are steered.
    pub(in crate::search) tuning: Tuning,
    /// Which stream the draws come from.
    stream: u64,
    /// Ends runs early once nobody waits for them.
    turn: Turn,
    /// What scores weigh in the phases so far, as runs share it.
    weights: Mutex<Vec<([f64; 3], Arc<Weights>)>>,
    /// The pairs that runs have looked for so far.
    memos: Mutex<Memos>,
}

impl Landscape {
    pub(in crate::search) fn new(weekly: &Weekly, budget: &Budget) -> Landscape {
        Landscape {
            tuning: budget.tuning,
            stream: budget.stream,
            turn: weekly.request.turn,
            tables: Tables::new(weekly),
            neighbors: Arc::new(Neighbors::new(weekly)),
            start: before(weekly),
            weights: Mutex::default(),
            memos: Mutex::default(),
        }
    }

    /// What scores weigh in a phase.
    fn weights(&self, phase: &Phase) -> Arc<Weights> {
        let mut known = self.weights.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, weights)) = known.iter().find(|(of, _)| *of == phase.weights) {
            return Arc::clone(weights);
        }
        let weights = Arc::new(phase.weights(&self.tables));
        known.push((phase.weights, Arc::clone(&weights)));
        weights
    }

    /// The pairs that runs have looked for so far.
    fn memos(&self) -> Memos {
        self.memos.lock().unwrap_or_else(PoisonError::into_inner).handed_on()
    }

    /// Keeps the pairs that a run has looked for.
    fn keep(&self, memos: Memos) {
        self.memos.lock().unwrap_or_else(PoisonError::into_inner).take_in(memos);
    }
}

/// Sets of each pick in the plan that is reworked, as far as it may still be chosen.
fn before(weekly: &Weekly) -> Vec<u32> {
    let Some(rework) = &weekly.request.rework else { return vec![0; weekly.picks.len()] };
    let sets = |pick: &crate::model::Pick| {
        let sets = rework.picks.get(&(pick.day, weekly.candidate(pick).id.clone()));
        sets.map_or(0, |sets| (*sets).clamp(pick.sets[0], pick.sets[1]))
    };
    weekly.picks.iter().map(sets).collect()
}

/// The best week of a run.
#[derive(Clone)]
pub(in crate::search) struct Incumbent {
    /// Sets of each pick; none is not done.
    pub(in crate::search) sets: Vec<u32>,
    /// What it is worth.
    pub(in crate::search) score: Score,
    /// How often each pick was seen to stand in the runs so far.
    pub(in crate::search) frequency: Vec<u32>,
}

/// A run from some week on.
#[derive(Clone)]
pub(in crate::search) struct Annealer<'l> {
    landscape: &'l Landscape,
    pub(in crate::search) evaluator: Evaluator<'l>,
    pub(in crate::search) proposer: Proposer<'l>,
    frequency: Vec<u32>,
}

impl<'l> Annealer<'l> {
    /// An empty week.
    pub(in crate::search) fn new(landscape: &'l Landscape) -> Annealer<'l> {
        Annealer {
            landscape,
            evaluator: Evaluator::knowing(&landscape.tables, landscape.memos()),
            proposer: Proposer {
                tables: &landscape.tables,
                tuning: &landscape.tuning,
                neighbors: Arc::clone(&landscape.neighbors),
                kinds: moves::kinds(&landscape.tuning.moves),
                draws: Draws { random: ChaCha8Rng::seed_from_u64(0), favored: 0 },
            },
            frequency: vec![0; landscape.start.len()],
        }
    }

    /// Where runs start: at an empty week, or at the plan that is reworked.
    pub(in crate::search) fn at_start(landscape: &'l Landscape) -> Annealer<'l> {
        Annealer::new(landscape).with(&landscape.start)
    }

    /// A run of some number from where the week stands: it draws the same wherever it is made.
    pub(in crate::search) fn run(&self, number: u64) -> Annealer<'l> {
        let mut run = self.clone();
        run.proposer.draws.random = ChaCha8Rng::seed_from_u64(number);
        run.proposer.draws.random.set_stream(self.landscape.stream);
        run
    }

    /// The same week for runs in which what stood long in earlier ones is tried first.
    pub(in crate::search) fn knowing(mut self, frequency: &[u32]) -> Annealer<'l> {
        self.proposer.neighbors = Arc::new(self.landscape.neighbors.sorted(frequency));
        self.proposer.draws.favored = self.landscape.tuning.favored;
        self
    }

    /// A run that tries what did not stand in earlier runs more often: not all should look in one direction.
    pub(in crate::search) fn open_minded(mut self, is_so: bool) -> Annealer<'l> {
        if is_so {
            self.proposer.draws.favored /= 3;
        }
        self
    }

    /// The same with another week to go on from.
    pub(in crate::search) fn with(mut self, sets: &[u32]) -> Annealer<'l> {
        self.evaluator.go_to(sets);
        self
    }

    /// Anneals for a number of proposals, and returns the best week met.
    pub(in crate::search) fn anneal(self, proposals: u32) -> Incumbent {
        let Tuning { looking, cooling, .. } = self.landscape.tuning;
        self.anneal_by(&[looking, cooling], proposals)
    }

    /// The same by other phases; each goes on from the best week of the one before.
    pub(in crate::search) fn anneal_by(mut self, phases: &[Phase; 2], proposals: u32) -> Incumbent {
        let mut best = (self.evaluator.score(), self.evaluator.sets().to_vec());
        for phase in phases {
            self.evaluator.go_to(&best.1);
            self.cool(phase, proposals / 2, &mut best);
        }
        self.incumbent(&best.1)
    }

    /// Anneals once more from where the week stands, less warm than from an empty one.
    pub(in crate::search) fn reanneal(mut self, proposals: u32) -> Incumbent {
        let mut best = (self.evaluator.score(), self.evaluator.sets().to_vec());
        let again = self.landscape.tuning.again;
        self.cool(&again, proposals, &mut best);
        self.incumbent(&best.1)
    }

    /// A week that meets all rows, if a run that looks for nothing else finds one within a number of proposals.
    pub(in crate::search) fn meets(mut self, proposals: u32) -> Option<Vec<u32>> {
        let meeting = self.landscape.tuning.meeting;
        let weights = self.landscape.weights(&meeting);
        for temperature in meeting.cooled(proposals) {
            if self.evaluator.score().is_feasible() {
                break;
            }
            self.step(&meeting, &weights, temperature);
        }
        let sets = self.evaluator.sets().to_vec();
        let found = self.incumbent(&sets);
        found.score.is_feasible().then_some(found.sets)
    }

    /// From warm to cold, keeping the best week met.
    fn cool(&mut self, phase: &Phase, proposals: u32, best: &mut (Score, Vec<u32>)) {
        let weights = self.landscape.weights(phase);
        let mut taken = PACE;
        self.landscape.turn.takes(u64::from(proposals));
        for (proposal, temperature) in phase.cooled(proposals).enumerate() {
            if proposal % LOOKS == 0 {
                if self.landscape.turn.is_over() {
                    break;
                }
                for pick in self.evaluator.done().iter().flatten() {
                    self.frequency[*pick] += 1;
                }
            }
            if proposal % PACE == 0 {
                self.evaluator.look_ahead_if(taken < RARELY, &weights);
                taken = 0;
            }
            let is_taken = self.step(phase, &weights, temperature);
            taken += usize::from(is_taken);
            if is_taken && self.evaluator.score().beats(&best.0) {
                best.0 = self.evaluator.score();
                best.1.clear();
                best.1.extend_from_slice(self.evaluator.sets());
            }
        }
    }

    /// Draws a change, and makes it if it gains enough at a temperature. The gain that it must have is drawn first, so
    /// that a hopeless one is soon refused: that is the rule of Metropolis with the draw turned around.
    fn step(&mut self, phase: &Phase, weights: &Weights, temperature: f64) -> bool {
        let Some(change) = self.proposer.one_or_two(&self.evaluator) else { return false };
        let drawn = f64::from(self.proposer.below(1_000_000));
        let wanted = temperature * libm::log((drawn + 0.5) / 1e6);
        let hope = phase.most_gain(&self.evaluator.score());
        let is_taken = self.evaluator.weigh(&change, weights, wanted, hope).is_some();
        if is_taken {
            self.evaluator.take(&change, weights);
        }
        is_taken
    }

    /// A week with a part of one week and the rest of another: whole days, or exercises of each day.
    pub(in crate::search) fn cross(mut self, one: &[u32], other: &[u32]) -> Annealer<'l> {
        let days = self.evaluator.done().len();
        let mixed = days == 1 || self.proposer.below(100) < self.landscape.tuning.mixed;
        let mut from: Vec<bool> = (0..days).map(|_| self.proposer.below(2) == 0).collect();
        if from.iter().all(|day| *day == from[0]) {
            let day = self.proposer.below(u32::try_from(days).unwrap_or(1)) as usize;
            from[day] = !from[day];
        }
        let mut sets = one.to_vec();
        for (pick, sets) in
            sets.iter_mut().enumerate().filter(|(pick, _)| one[*pick] != other[*pick])
        {
            let day = self.landscape.tables.pick(pick).day as usize;
            if if mixed { self.proposer.below(2) == 0 } else { from[day] } {
                *sets = other[pick];
            }
        }
        self.with(&sets)
    }

    /// A week as the best of this run, evaluated from nothing, so that no rounding is carried over.
    fn incumbent(mut self, sets: &[u32]) -> Incumbent {
        self.evaluator.go_to(sets);
        let incumbent = Incumbent {
            sets: self.evaluator.sets().to_vec(),
            score: self.evaluator.score(),
            frequency: self.frequency,
        };
        self.landscape.keep(self.evaluator.into_memos());
        incumbent
    }
}
