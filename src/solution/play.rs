//! A fast search over whole weeks: small changes on the board, taken when they help or, early on, when they do
//! not hurt much.
//!
//! The draws come from a fixed stream, so that every run of a request plays the same game; the client's seed
//! has no part in it. The order of the tiers decides what is kept; a weighted sum only steers.

use std::sync::Arc;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng as _, SeedableRng as _};
use smallvec::SmallVec;

use super::board::{Board, Worth};
use super::half::{AGAIN, Half, MEETING, PLAIN};
use super::lists::Lists;
use super::matching::MOST_PAIRED;
use super::moves::Change;
use super::pairing::{Pairing, Pairs};
use crate::model::{Pick, Weekly};
use crate::program::Var;

/// Of sixteen draws, how many favor what stood long in earlier games.
const FAVORED: u32 = 12;

/// Of a hundred crosses, how many mix the exercises of each day; the others take whole days.
const MIXED: u32 = 30;

/// Where the fixed stream begins. Others are as good on average, and each misses something on some tight small week.
const STREAM: u64 = 2 << 50;

/// Every so many changes it is seen what stands.
const LOOKS: usize = 32;

/// The picks that are done on a day.
pub(super) type Done = SmallVec<[usize; 10]>;

/// A week in play.
#[derive(Clone)]
pub(super) struct Play<'w, 'a> {
    pub(super) weekly: &'w Weekly<'a>,
    board: Board,
    /// Sets of each pick; 0 is not done.
    pub(super) sets: Vec<u32>,
    pairing: Pairing,
    random: ChaCha8Rng,
    pub(super) lists: Arc<Lists>,
    /// What is done on each day.
    pub(super) done: Vec<Done>,
    /// How often each pick was seen to stand in the week.
    stood: Vec<u32>,
    /// Whether the lists are sorted by what stood long in earlier games.
    pub(super) knows: bool,
    /// Of sixteen draws in a game that knows of others, how many favor what stood long in them.
    pub(super) favored: u32,
}

/// The best week of a game.
pub(super) struct Outcome {
    /// A value for every variable of the model.
    pub(super) values: Vec<f64>,
    /// What it is worth.
    pub(super) worth: Worth,
    /// How often each pick was seen to stand in the games so far.
    pub(super) stood: Vec<u32>,
}

impl<'w, 'a> Play<'w, 'a> {
    /// An empty week, before any game.
    pub(super) fn new(weekly: &'w Weekly<'a>) -> Play<'w, 'a> {
        Play {
            weekly,
            board: Board::new(weekly),
            sets: vec![0; weekly.picks.len()],
            pairing: Pairing::new(weekly),
            random: ChaCha8Rng::seed_from_u64(0),
            lists: Arc::new(Lists::new(weekly)),
            done: vec![Done::new(); weekly.request.days.len()],
            stood: vec![0; weekly.picks.len()],
            knows: false,
            favored: FAVORED,
        }
    }

    /// A game of some number from where the week stands: it draws the same wherever it is played.
    pub(super) fn game(&self, number: u64) -> Play<'w, 'a> {
        let mut game = self.clone();
        game.random = ChaCha8Rng::seed_from_u64(STREAM + number);
        game
    }

    /// A game that tries what did not stand in earlier games more often: not all should look in one direction.
    pub(super) fn open_minded(self, is_so: bool) -> Play<'w, 'a> {
        Play { favored: if is_so { FAVORED / 3 } else { FAVORED }, ..self }
    }

    /// The same week for games in which what stood long in earlier games is tried first.
    pub(super) fn knowing(mut self, stood: &[u32]) -> Play<'w, 'a> {
        let lists = Arc::make_mut(&mut self.lists);
        for list in lists.alike.iter_mut().chain(&mut lists.on_day) {
            list.sort_by_key(|pick| std::cmp::Reverse(stood[*pick]));
        }
        self.knows = true;
        self
    }

    /// The same with a week to go on from.
    pub(super) fn with(mut self, values: &[f64]) -> Play<'w, 'a> {
        self.go_to(&self.sets_in(values));
        self
    }

    /// Moves toward the picks that are preferred, where no tier changes by it and no variable passes its most;
    /// returns the values reached.
    pub(super) fn wander(
        mut self,
        preferences: &[f64],
        most: &[(Var, f64)],
        changes: u32,
    ) -> Vec<f64> {
        let base = self.board.settle();
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
            let worth = self.board.settle();
            // A better week would be one that only some seeds find.
            let values = &self.board.values;
            let stays = most.iter().all(|(var, most)| values[var.0] <= most + 1e-6);
            if stays && base.order(&worth).is_eq() {
                self.board.keep();
            } else {
                self.undo(applied);
            }
        }
        self.outcome(&self.sets).values
    }

    /// Takes back an applied change.
    fn undo(&mut self, applied: Applied) {
        self.board.take_back();
        for (day, done, pairs) in applied.days {
            self.done[day] = done;
            self.pairing.put_back(day, pairs);
        }
        for (pick, sets) in applied.before {
            self.sets[pick] = sets;
        }
    }

    /// Plays a number of changes and returns the best week met.
    pub(super) fn run(self, changes: u32) -> Outcome {
        self.run_by(&PLAIN, changes)
    }

    /// The same with other halves.
    pub(super) fn run_by(mut self, halves: &[Half; 2], changes: u32) -> Outcome {
        let mut best = (self.board.settle(), self.sets.clone());
        for half in halves {
            self.go_to(&best.1);
            self.play(half, changes / 2, &mut best);
        }
        self.outcome(&best.1)
    }

    /// Plays a second half once more from where the week stands, less warm than the first time.
    pub(super) fn again(mut self, changes: u32) -> Outcome {
        let mut best = (self.board.settle(), self.sets.clone());
        self.play(&AGAIN, changes, &mut best);
        self.outcome(&best.1)
    }

    /// Plays from where the week stands, from warm to cold, and keeps the best week met.
    fn play(&mut self, half: &Half, changes: u32, best: &mut (Worth, Vec<u32>)) {
        let mut now = self.board.settle();
        for (change, heat) in half.heats(changes).enumerate() {
            if change % LOOKS == 0 {
                for pick in self.done.iter().flatten() {
                    self.stood[*pick] += 1;
                }
            }
            let Some(proposed) = self.propose_one_or_two() else { continue };
            let least = self.least_gain(heat);
            let Some(worth) = self.taken(&proposed, half, &now, least) else { continue };
            now = worth;
            if worth.beats(&best.0) {
                best.0 = worth;
                best.1.clone_from(&self.sets);
            }
        }
    }

    /// The week's worth after a change that gains enough; any other is refused as soon as that is known.
    fn taken(&mut self, change: &Change, half: &Half, now: &Worth, least: f64) -> Option<Worth> {
        let applied = self.set_picks(change);
        if half.most_gain(self.board.broken_by_picks(), None, now) < least {
            self.undo(applied);
            return None;
        }
        self.pair_days(&applied);
        let (breaks, costs) = self.board.settle_costs();
        if half.most_gain(breaks, Some(&costs), now) < least {
            self.undo(applied);
            return None;
        }
        let worth = self.board.settle();
        if half.steer(&worth) - half.steer(now) < least {
            self.undo(applied);
            return None;
        }
        self.board.keep();
        Some(worth)
    }

    /// The least gain that a change must have at some heat: drawn before it is tried, so that a hopeless one is soon
    /// refused.
    fn least_gain(&mut self, heat: f64) -> f64 {
        heat * libm::log((f64::from(self.below(1_000_000)) + 0.5) / 1e6)
    }

    /// A week with a part of one week and the rest of another: whole days, or exercises of each day.
    pub(super) fn cross(mut self, one: &[f64], other: &[f64]) -> Play<'w, 'a> {
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
        self.board.settle();
        self.board.keep();
    }

    /// A week that meets all rows, if a game that looks for nothing else finds one within a number of changes.
    pub(super) fn meets(mut self, changes: u32) -> Option<Outcome> {
        let mut now = self.board.settle();
        let mut heats = MEETING.heats(changes);
        while now.broken > 1e-6
            && let Some(heat) = heats.next()
        {
            let Some(proposed) = self.propose_one_or_two() else { continue };
            let least = self.least_gain(heat);
            now = self.taken(&proposed, &MEETING, &now, least).unwrap_or(now);
        }
        let outcome = self.outcome(&self.sets);
        (outcome.worth.broken < 1e-6).then_some(outcome)
    }

    /// The worth of the week as it stands.
    pub(super) fn worth(mut self) -> Worth {
        self.board.settle()
    }

    /// The week with some sets, from an empty board, so that no rounding is carried over.
    fn outcome(&self, sets: &[u32]) -> Outcome {
        let mut fresh = self.empty();
        let done = sets.iter().copied().enumerate().filter(|(_, sets)| *sets > 0);
        fresh.apply(&done.collect());
        let worth = fresh.board.settle();
        Outcome { values: fresh.board.values, worth, stood: self.stood.clone() }
    }

    /// The same board with nothing done.
    fn empty(&self) -> Play<'w, 'a> {
        let mut empty = self.clone();
        empty.board.clear();
        empty.pairing.clear();
        empty.sets.fill(0);
        empty.done.iter_mut().for_each(Done::clear);
        empty
    }

    pub(super) fn below(&mut self, count: u32) -> u32 {
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
            self.board.set(known.chosen.0, chosen);
            self.board.set(known.extra.0, extra);
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
            self.pairing.pair(self.weekly, &mut self.board, *day, done, &self.sets);
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
