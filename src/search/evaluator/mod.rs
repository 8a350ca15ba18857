//! The weekly model as a evaluator to play on: decisions are set one by one, and everything that follows from
//! them (what rows count, costs and gains, broken rows) is kept up to date.
//!
//! Variables that settle at their least or most follow from the decisions in the order of their creation, so
//! no solver is needed to know what a week is score.

pub(super) mod index;
pub(super) mod matching;
pub(super) mod pairing;

use std::sync::Arc;

use self::index::{Index, Known, Push, RowState, small};
use crate::model::Weekly;
use crate::model::tier::{PerTier, Tier};
use crate::program::Settles;

/// Less than this is rounding.
pub(in crate::search) const ROUNDING: f64 = 1e-6;

/// What a week is score: broken rows, costs of the first two tiers, points of the third.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(in crate::search) struct Score {
    /// How far hard rows are broken, each row in its own unit; nought where all hold.
    pub(in crate::search) broken: f64,
    /// Costs of tier 1.
    pub(in crate::search) coverage: f64,
    /// Costs of tier 2.
    pub(in crate::search) ranges: f64,
    /// Costs of a rework.
    pub(in crate::search) changes: f64,
    /// Points of tier 3.
    pub(in crate::search) view: f64,
}

impl Score {
    /// Costs and points by tier.
    pub(in crate::search) fn per_tier(&self) -> PerTier<f64> {
        PerTier::of(|tier| match tier {
            Tier::Coverage => self.coverage,
            Tier::Ranges => self.ranges,
            Tier::Changes => self.changes,
            Tier::View => self.view,
        })
    }

    /// Whether it has costs of tier 1 or 2.
    pub(in crate::search) fn misses(&self) -> bool {
        self.coverage + self.ranges > ROUNDING
    }

    /// The better one first.
    pub(in crate::search) fn order(&self, other: &Score) -> std::cmp::Ordering {
        match (self.beats(other), other.beats(self)) {
            (true, _) => std::cmp::Ordering::Less,
            (_, true) => std::cmp::Ordering::Greater,
            _ => std::cmp::Ordering::Equal,
        }
    }

    /// Whether it is better, one tier after another.
    pub(in crate::search) fn beats(&self, other: &Score) -> bool {
        let pairs = [
            (other.broken, self.broken),
            (other.coverage, self.coverage),
            (other.ranges, self.ranges),
            (other.changes, self.changes),
            (self.view, other.view),
        ];
        pairs.iter().find(|(more, less)| (more - less).abs() > ROUNDING).is_some_and(|(a, b)| a > b)
    }
}

/// How a evaluator stands before anything is decided.
#[derive(Default)]
struct Start {
    rows: Vec<RowState>,
    values: Vec<f64>,
    score: Score,
}

/// Rows, columns and values.
#[derive(Clone)]
pub(in crate::search) struct Evaluator {
    wiring: Arc<Index>,
    start: Arc<Start>,
    rows: Vec<RowState>,
    /// Values of all variables.
    pub(in crate::search) values: Vec<f64>,
    score: Score,
    waiting: Waiting,
    /// What changed since the last [`Evaluator::commit`]: each value as it was, and each row once.
    values_before: Vec<(u32, f64)>,
    rows_before: Vec<RowBefore>,
    /// Rows that changed in this turn say so, so that each is written down once.
    turn: u32,
    kept: Score,
}

/// A row before it changed.
#[derive(Clone)]
struct RowBefore {
    row: u32,
    left: f64,
    broken: f64,
}

/// Variables that wait to be settled, first created first.
#[derive(Clone, Default)]
struct Waiting {
    words: Vec<u64>,
    /// No word before this one has a bit.
    first: usize,
}

impl Waiting {
    fn insert(&mut self, var: usize) {
        let word = var / 64;
        self.words[word] |= 1 << (var % 64);
        self.first = self.first.min(word);
    }

    fn clear(&mut self) {
        self.words[self.first..].fill(0);
        self.first = self.words.len();
    }

    /// The first one, if it comes before some variable.
    fn pop(&mut self, before: usize) -> Option<usize> {
        while self.first < self.words.len() {
            let word = self.words[self.first];
            if word != 0 {
                let var = self.first * 64 + word.trailing_zeros() as usize;
                return (var < before).then(|| {
                    self.words[self.first] = word & (word - 1);
                    var
                });
            }
            self.first += 1;
        }
        None
    }
}

impl Evaluator {
    /// A evaluator where every decision is no.
    pub(in crate::search) fn new(weekly: &Weekly) -> Evaluator {
        let model = &weekly.model;
        let wiring = Index::new(weekly);
        let rows = vec![RowState { left: 0.0, broken: 0.0, turn: 1 }; model.rows.len()];
        let mut evaluator = Evaluator {
            wiring: Arc::new(wiring),
            start: Arc::default(),
            rows,
            values: vec![0.0; model.vars.len()],
            score: Score::default(),
            waiting: Waiting { words: vec![0; model.vars.len().div_ceil(64) + 1], first: 0 },
            values_before: Vec::new(),
            rows_before: Vec::new(),
            turn: 1,
            kept: Score::default(),
        };
        evaluator.rows_before = (0..evaluator.rows.len())
            .map(|row| RowBefore { row: small(row), left: 0.0, broken: 0.0 })
            .collect();
        for var in 0..evaluator.values.len() {
            if evaluator.wiring.settles[var].0 != Settles::Decision {
                evaluator.waiting.insert(var);
            }
        }
        evaluator.settle();
        evaluator.commit();
        let (rows, values) = (evaluator.rows.clone(), evaluator.values.clone());
        evaluator.start = Arc::new(Start { rows, values, score: evaluator.score });
        evaluator
    }

    /// Sets a decision; [`Evaluator::settle`] must follow before the score is read.
    pub(in crate::search) fn set(&mut self, var: usize, value: f64) {
        if self.change(var, value) {
            self.wake(var, 0);
        }
    }

    /// Lets what a variable's rows push wait to be settled, from a place in the order on.
    fn wake(&mut self, var: usize, from: usize) {
        for follower in self.wiring.dependents.of(var) {
            if *follower as usize >= from {
                self.waiting.insert(*follower as usize);
            }
        }
    }

    fn change(&mut self, var: usize, value: f64) -> bool {
        let by = value - self.values[var];
        if by == 0.0 {
            return false;
        }
        self.values_before.push((small(var), self.values[var]));
        self.values[var] = value;
        for (place, factor) in self.wiring.columns.of(var) {
            let row = &mut self.rows[*place as usize];
            if row.turn != self.turn {
                row.turn = self.turn;
                let before = RowBefore { row: *place, left: row.left, broken: row.broken };
                self.rows_before.push(before);
            }
            row.left += factor * by;
        }
        let tiers = &self.wiring.tiers[var];
        self.score.coverage += tiers[Tier::Coverage] * by;
        self.score.ranges += tiers[Tier::Ranges] * by;
        self.score.view += tiers[Tier::View] * by;
        self.score.changes += tiers[Tier::Changes] * by;
        true
    }

    /// How much more is broken than before of the rows that picks and their sets alone decide.
    pub(in crate::search) fn broken_by_picks(&self) -> f64 {
        self.more_broken(Known::ByPicks)
    }

    /// Settles the costs of tiers 1 and 2, and returns how much more is broken than before of the rows known by then,
    /// with the score so far.
    pub(in crate::search) fn settle_costs(&mut self) -> (f64, Score) {
        self.settle_before(self.wiring.costs_end);
        (self.more_broken(Known::Costed), self.score)
    }

    fn more_broken(&self, by_now: Known) -> f64 {
        let rows = self.rows_before.iter().map(|before| before.row as usize);
        let limits = rows.map(|row| (&self.wiring.limits[row], &self.rows[row]));
        let known = limits.filter(|(limit, _)| limit.known <= by_now && limit.can_break);
        known.map(|(limit, row)| limit.broken_by(row.left) - row.broken).sum()
    }

    fn settle_before(&mut self, end: usize) {
        while let Some(var) = self.waiting.pop(end) {
            let value = self.settled(var);
            if (value - self.values[var]).abs() > 1e-9 && self.change(var, value) {
                self.wake(var, var + 1);
            }
        }
    }

    /// Brings everything that follows up to date, and returns the score.
    pub(in crate::search) fn settle(&mut self) -> Score {
        self.settle_before(usize::MAX);
        for before in &self.rows_before {
            let row = &mut self.rows[before.row as usize];
            let limit = &self.wiring.limits[before.row as usize];
            if limit.can_break {
                let now = limit.broken_by(row.left);
                self.score.broken += now - row.broken;
                row.broken = now;
            }
        }
        self.score
    }

    /// Takes back everything that was ever set.
    pub(in crate::search) fn clear(&mut self) {
        let start = Arc::clone(&self.start);
        self.rows.clone_from(&start.rows);
        self.values.clone_from(&start.values);
        self.score = start.score;
        self.kept = start.score;
        self.next_turn();
        self.waiting.clear();
    }

    /// Keeps what was set and settled.
    pub(in crate::search) fn commit(&mut self) {
        self.kept = self.score;
        self.next_turn();
    }

    /// Takes back everything since the last [`Evaluator::commit`].
    pub(in crate::search) fn rollback(&mut self) {
        while let Some((var, value)) = self.values_before.pop() {
            self.values[var as usize] = value;
        }
        for before in &self.rows_before {
            let row = &mut self.rows[before.row as usize];
            (row.left, row.broken) = (before.left, before.broken);
        }
        self.score = self.kept;
        self.next_turn();
        self.waiting.clear();
    }

    fn next_turn(&mut self) {
        self.values_before.clear();
        self.rows_before.clear();
        self.turn += 1;
    }

    /// The value that a following variable takes, by its rows without it and without those after it.
    fn settled(&self, var: usize) -> f64 {
        let (settles, high, whole) = self.wiring.settles[var];
        let (mut least, mut most) = (0.0_f64, high);
        for Push { row, over, down, place } in self.wiring.pushing.of(var) {
            let later = &self.wiring.settling.of(*row as usize)[*place as usize..];
            let later: f64 = later
                .iter()
                .map(|(follower, factor)| factor * self.values[*follower as usize])
                .sum();
            let (right, left) =
                (self.wiring.limits[*row as usize].right, self.rows[*row as usize].left);
            let bound = (right - (left - later)) * over;
            if *down {
                most = most.min(bound);
            } else {
                least = least.max(bound);
            }
        }
        let value = match settles {
            Settles::Most => most.max(0.0),
            Settles::Least | Settles::Equal | Settles::Decision => least.min(high),
        };
        match (whole, settles) {
            (true, Settles::Most) => (value + ROUNDING).floor(),
            (true, _) => (value - ROUNDING).ceil().max(0.0),
            (false, _) => value,
        }
    }
}
