//! A fast search over whole weeks: small changes on the evaluator, taken when they help or, early on, when they do
//! not hurt much.
//!
//! The draws come from a fixed stream, so that every run of a request plays the same run; the client's seed
//! has no part in it. The order of the tiers decides what is kept; a weighted sum only steers.

mod moves;
mod neighbors;
pub(super) mod schedule;

use std::sync::Arc;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng as _, SeedableRng as _};
use smallvec::SmallVec;

use self::moves::Change;
use self::neighbors::Lists;
use self::schedule::{AGAIN, MEETING, PLAIN, Phase};
use super::evaluator::matching::MOST_PAIRED;
use super::evaluator::pairing::{Pairing, Pairs};
use super::evaluator::{Evaluator, Score};
use crate::model::{Pick, Weekly};
use crate::program::Var;

/// Of sixteen draws, how many favor what frequency long in earlier runs.
const FAVORED: u32 = 12;

/// Of a hundred crosses, how many mix the exercises of each day; the others take whole days.
const MIXED: u32 = 30;

/// Where the fixed stream begins. Others are as good on average, and each misses something on some tight small week.
const STREAM: u64 = 2 << 50;

/// Every so many changes it is seen what stands.
const LOOKS: usize = 32;

/// The picks that are done on a day.
pub(in crate::search) type Done = SmallVec<[usize; 10]>;

/// A week in play.
#[derive(Clone)]
pub(in crate::search) struct Annealer<'w, 'a> {
    pub(in crate::search) weekly: &'w Weekly<'a>,
    evaluator: Evaluator,
    /// Sets of each pick; 0 is not done.
    pub(in crate::search) sets: Vec<u32>,
    pairing: Pairing,
    random: ChaCha8Rng,
    pub(in crate::search) lists: Arc<Lists>,
    /// What is done on each day.
    pub(in crate::search) done: Vec<Done>,
    /// How often each pick was seen to stand in the week.
    frequency: Vec<u32>,
    /// Whether the lists are sorted by what frequency long in earlier runs.
    pub(in crate::search) knows: bool,
    /// Of sixteen draws in a run that knows of others, how many favor what frequency long in them.
    pub(in crate::search) favored: u32,
}

/// The best week of a run.
pub(in crate::search) struct Incumbent {
    /// A value for every variable of the model.
    pub(in crate::search) values: Vec<f64>,
    /// What it is score.
    pub(in crate::search) score: Score,
    /// How often each pick was seen to stand in the runs so far.
    pub(in crate::search) frequency: Vec<u32>,
}

impl<'w, 'a> Annealer<'w, 'a> {
    /// An empty week, before any run.
    pub(in crate::search) fn new(weekly: &'w Weekly<'a>) -> Annealer<'w, 'a> {
        Annealer {
            weekly,
            evaluator: Evaluator::new(weekly),
            sets: vec![0; weekly.picks.len()],
            pairing: Pairing::new(weekly),
            random: ChaCha8Rng::seed_from_u64(0),
            lists: Arc::new(Lists::new(weekly)),
            done: vec![Done::new(); weekly.request.days.len()],
            frequency: vec![0; weekly.picks.len()],
            knows: false,
            favored: FAVORED,
        }
    }

    /// Where runs start: at an empty week, or at the plan that is reworked.
    pub(in crate::search) fn at_start(weekly: &'w Weekly<'a>) -> Annealer<'w, 'a> {
        let empty = Annealer::new(weekly);
        if weekly.request.rework.is_some() { empty.with(&before(weekly)) } else { empty }
    }

    /// A run of some number from where the week stands: it draws the same wherever it is played.
    pub(in crate::search) fn run(&self, number: u64) -> Annealer<'w, 'a> {
        let mut run = self.clone();
        run.random = ChaCha8Rng::seed_from_u64(STREAM + number);
        run
    }

    /// A run that tries what did not stand in earlier runs more often: not all should look in one direction.
    pub(in crate::search) fn open_minded(self, is_so: bool) -> Annealer<'w, 'a> {
        Annealer { favored: if is_so { FAVORED / 3 } else { FAVORED }, ..self }
    }

    /// The same week for runs in which what frequency long in earlier runs is tried first.
    pub(in crate::search) fn knowing(mut self, frequency: &[u32]) -> Annealer<'w, 'a> {
        let lists = Arc::make_mut(&mut self.lists);
        for list in lists.alike.iter_mut().chain(&mut lists.on_day) {
            list.sort_by_key(|pick| std::cmp::Reverse(frequency[*pick]));
        }
        self.knows = true;
        self
    }

    /// The same with a week to go on from.
    pub(in crate::search) fn with(mut self, values: &[f64]) -> Annealer<'w, 'a> {
        self.go_to(&self.sets_in(values));
        self
    }

    /// Moves toward the picks that are preferred, where no tier changes by it and no variable passes its most;
    /// returns the values reached.
    pub(in crate::search) fn wander(
        mut self,
        preferences: &[f64],
        most: &[(Var, f64)],
        changes: u32,
    ) -> Vec<f64> {
        let base = self.evaluator.settle();
        for _ in 0..changes {
            let Some(proposed) = self.propose_other() else { continue };
            let gain: f64 = proposed
                .iter()
                .map(
                    |(pick, sets)| if *sets > 0 { preferences[*pick] } else { -preferences[*pick] },
                )
                .sum();
            if gain <= 0.0 {
                continue;
            }
            let applied = self.apply(&proposed);
            let score = self.evaluator.settle();
            // A better week would be one that only some seeds find.
            let values = &self.evaluator.values;
            let stays = most.iter().all(|(var, most)| values[var.0] <= most + 1e-6);
            if stays && base.order(&score).is_eq() {
                self.evaluator.commit();
            } else {
                self.undo(applied);
            }
        }
        self.incumbent(&self.sets).values
    }

    /// Takes back an applied change.
    fn undo(&mut self, applied: Applied) {
        self.evaluator.rollback();
        for (day, done, pairs) in applied.days {
            self.done[day] = done;
            self.pairing.put_back(day, pairs);
        }
        for (pick, sets) in applied.before {
            self.sets[pick] = sets;
        }
    }

    /// Plays a number of changes and returns the best week met.
    pub(in crate::search) fn anneal(self, changes: u32) -> Incumbent {
        self.anneal_by(&PLAIN, changes)
    }

    /// The same with other phases.
    pub(in crate::search) fn anneal_by(mut self, phases: &[Phase; 2], changes: u32) -> Incumbent {
        let mut best = (self.evaluator.settle(), self.sets.clone());
        for phase in phases {
            self.go_to(&best.1);
            self.phase(phase, changes / 2, &mut best);
        }
        self.incumbent(&best.1)
    }

    /// Plays a second phase once more from where the week stands, less warm than the first time.
    pub(in crate::search) fn reanneal(mut self, changes: u32) -> Incumbent {
        let mut best = (self.evaluator.settle(), self.sets.clone());
        self.phase(&AGAIN, changes, &mut best);
        self.incumbent(&best.1)
    }

    /// Plays from where the week stands, from warm to cold, and keeps the best week met.
    fn phase(&mut self, phase: &Phase, changes: u32, best: &mut (Score, Vec<u32>)) {
        let mut now = self.evaluator.settle();
        for (change, temperature) in phase.temperatures(changes).enumerate() {
            if change % LOOKS == 0 {
                for pick in self.done.iter().flatten() {
                    self.frequency[*pick] += 1;
                }
            }
            let Some(proposed) = self.propose_one_or_two() else { continue };
            let least = self.least_gain(temperature);
            let Some(score) = self.taken(&proposed, phase, &now, least) else { continue };
            now = score;
            if score.beats(&best.0) {
                best.0 = score;
                best.1.clone_from(&self.sets);
            }
        }
    }

    /// The week's score after a change that gains enough; any other is refused as soon as that is known.
    fn taken(&mut self, change: &Change, phase: &Phase, now: &Score, least: f64) -> Option<Score> {
        let applied = self.set_picks(change);
        if phase.most_gain(self.evaluator.broken_by_picks(), None, now) < least {
            self.undo(applied);
            return None;
        }
        self.pair_days(&applied);
        let (breaks, costs) = self.evaluator.settle_costs();
        if phase.most_gain(breaks, Some(&costs), now) < least {
            self.undo(applied);
            return None;
        }
        let score = self.evaluator.settle();
        if phase.steer(&score) - phase.steer(now) < least {
            self.undo(applied);
            return None;
        }
        self.evaluator.commit();
        Some(score)
    }

    /// The least gain that a change must have at some temperature: drawn before it is tried, so that a hopeless one is soon
    /// refused.
    fn least_gain(&mut self, temperature: f64) -> f64 {
        temperature * libm::log((f64::from(self.below(1_000_000)) + 0.5) / 1e6)
    }

    /// A week with a part of one week and the rest of another: whole days, or exercises of each day.
    pub(in crate::search) fn cross(mut self, one: &[f64], other: &[f64]) -> Annealer<'w, 'a> {
        let mixed = self.done.len() == 1 || self.below(100) < MIXED;
        let mut from: Vec<bool> = (0..self.done.len()).map(|_| self.below(2) == 0).collect();
        if from.iter().all(|day| *day == from[0]) {
            let day = self.below(u32::try_from(from.len()).unwrap_or(1)) as usize;
            from[day] = !from[day];
        }
        let (one, other) = (self.sets_in(one), self.sets_in(other));
        let mut sets = one.clone();
        for (place, pick) in self.weekly.picks.iter().enumerate() {
            let differs = one[place] != other[place];
            if differs && if mixed { self.below(2) == 0 } else { from[pick.day] } {
                sets[place] = other[place];
            }
        }
        self.go_to(&sets);
        self
    }

    /// The sets of each pick, from values of the model.
    fn sets_in(&self, values: &[f64]) -> Vec<u32> {
        let sets = |pick: &Pick| {
            let is_done = values[pick.chosen.0] > 0.5;
            if is_done { pick.sets[0] + whole(values[pick.extra.0]) } else { 0 }
        };
        self.weekly.picks.iter().map(sets).collect()
    }

    /// Sets every pick to some sets.
    fn go_to(&mut self, sets: &[u32]) {
        let pairs = sets.iter().copied().enumerate();
        let change: Change = pairs.filter(|(pick, sets)| self.sets[*pick] != *sets).collect();
        self.apply(&change);
        self.evaluator.settle();
        self.evaluator.commit();
    }

    /// A week that meets all rows, if a run that looks for nothing else finds one within a number of changes.
    pub(in crate::search) fn meets(mut self, changes: u32) -> Option<Incumbent> {
        let mut now = self.evaluator.settle();
        let mut temperatures = MEETING.temperatures(changes);
        while now.broken > 1e-6
            && let Some(temperature) = temperatures.next()
        {
            let Some(proposed) = self.propose_one_or_two() else { continue };
            let least = self.least_gain(temperature);
            now = self.taken(&proposed, &MEETING, &now, least).unwrap_or(now);
        }
        let incumbent = self.incumbent(&self.sets);
        (incumbent.score.broken < 1e-6).then_some(incumbent)
    }

    /// The score of the week as it stands.
    pub(in crate::search) fn score(mut self) -> Score {
        self.evaluator.settle()
    }

    /// The week with some sets, from an empty evaluator, so that no rounding is carried over.
    fn incumbent(&self, sets: &[u32]) -> Incumbent {
        let mut fresh = self.empty();
        let done = sets.iter().copied().enumerate().filter(|(_, sets)| *sets > 0);
        fresh.apply(&done.collect());
        let score = fresh.evaluator.settle();
        Incumbent { values: fresh.evaluator.values, score, frequency: self.frequency.clone() }
    }

    /// The same evaluator with nothing done.
    fn empty(&self) -> Annealer<'w, 'a> {
        let mut empty = self.clone();
        empty.evaluator.clear();
        empty.pairing.clear();
        empty.sets.fill(0);
        empty.done.iter_mut().for_each(Done::clear);
        empty
    }

    pub(in crate::search) fn below(&mut self, count: u32) -> u32 {
        self.random.next_u32() % count.max(1)
    }

    /// Sets picks to their sets, and pairs the days that changed anew. Returns what is needed to undo it.
    fn apply(&mut self, change: &Change) -> Applied {
        let applied = self.set_picks(change);
        self.pair_days(&applied);
        applied
    }

    fn set_picks(&mut self, change: &Change) -> Applied {
        let mut applied = Applied::default();
        for (pick, sets) in change {
            let known = &self.weekly.picks[*pick];
            let (day, was) = (known.day, self.sets[*pick]);
            if !applied.days.iter().any(|(other, ..)| *other == day) {
                applied.days.push((day, self.done[day].clone(), self.pairing.standing(day)));
            }
            applied.before.push((*pick, was));
            self.sets[*pick] = *sets;
            let chosen = if *sets > 0 { 1.0 } else { 0.0 };
            let extra = f64::from(sets.saturating_sub(known.sets[0]));
            self.evaluator.set(known.chosen.0, chosen);
            self.evaluator.set(known.extra.0, extra);
            match (was > 0, *sets > 0) {
                (false, true) => self.done[day].push(*pick),
                (true, false) => self.done[day].retain(|other| other != pick),
                _ => {}
            }
        }
        applied
    }

    fn pair_days(&mut self, applied: &Applied) {
        for (day, ..) in &applied.days {
            // More than any session may have: such a day is left straight, as matching it would take long.
            let all = &self.done[*day];
            let done = if all.len() > MOST_PAIRED { &[][..] } else { all };
            self.pairing.pair(self.weekly, &mut self.evaluator, *day, done, &self.sets);
        }
    }
}

/// What was before a change.
#[derive(Default)]
struct Applied {
    before: Change,
    /// Each day that changed, with what was done on it and its pairs.
    days: SmallVec<[(usize, Done, Pairs); 2]>,
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small whole number")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}

/// The picks of the plan before, as values, as far as they may still be chosen.
pub(in crate::search) fn before(weekly: &Weekly) -> Vec<f64> {
    let mut values = vec![0.0; weekly.model.vars.len()];
    let Some(rework) = &weekly.request.rework else { return values };
    for pick in &weekly.picks {
        let id = &weekly.candidate(pick).id;
        if let Some(sets) = rework.picks.get(&(pick.day, id.clone())) {
            values[pick.chosen.0] = 1.0;
            values[pick.extra.0] =
                f64::from((*sets).clamp(pick.sets[0], pick.sets[1]) - pick.sets[0]);
        }
    }
    values
}
