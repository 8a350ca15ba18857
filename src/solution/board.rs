//! The weekly model as a board to play on: decisions are set one by one, and everything that follows from
//! them (what rows count, costs and gains, broken rows) is kept up to date.
//!
//! Variables that settle at their least or most follow from the decisions in the order of their creation, so
//! no solver is needed to know what a week is worth.

use std::sync::Arc;

use super::wiring::{Push, Standing, Wiring};
use crate::model::Weekly;
use crate::program::{Op, Settles};

/// Less than this is rounding.
pub(super) const ROUNDING: f64 = 1e-6;

/// What a week is worth: broken rows, costs of the first two tiers, points of the third.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Worth {
    /// How far hard rows are broken, each row in its own unit; nought where all hold.
    pub(super) broken: f64,
    /// Costs of tier 1.
    pub(super) coverage: f64,
    /// Costs of tier 2.
    pub(super) ranges: f64,
    /// Costs of a rework.
    pub(super) changes: f64,
    /// Points of tier 3.
    pub(super) view: f64,
}

impl Worth {
    /// The better one first.
    pub(super) fn order(&self, other: &Worth) -> std::cmp::Ordering {
        match (self.beats(other), other.beats(self)) {
            (true, _) => std::cmp::Ordering::Less,
            (_, true) => std::cmp::Ordering::Greater,
            _ => std::cmp::Ordering::Equal,
        }
    }

    /// Whether it is better, one tier after another.
    pub(super) fn beats(&self, other: &Worth) -> bool {
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

/// How a board stands before anything is decided.
#[derive(Default)]
struct Start {
    rows: Vec<Standing>,
    values: Vec<f64>,
    worth: Worth,
}

/// Rows, columns and values.
#[derive(Clone)]
pub(super) struct Board {
    wiring: Arc<Wiring>,
    start: Arc<Start>,
    rows: Vec<Standing>,
    /// Values of all variables.
    pub(super) values: Vec<f64>,
    worth: Worth,
    waiting: Waiting,
    touched: Vec<usize>,
    /// What changed since the last [`Board::keep`]: values, left sides and broken rows as they were.
    journal: Vec<Was>,
    kept: Worth,
}

/// A number before it changed.
#[derive(Clone)]
enum Was {
    Value(usize, f64),
    Left(usize, f64),
    Broken(usize, f64),
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

    fn pop(&mut self) -> Option<usize> {
        while self.first < self.words.len() {
            let word = self.words[self.first];
            if word != 0 {
                self.words[self.first] = word & (word - 1);
                return Some(self.first * 64 + word.trailing_zeros() as usize);
            }
            self.first += 1;
        }
        None
    }
}

impl Board {
    /// A board where every decision is no.
    pub(super) fn new(weekly: &Weekly) -> Board {
        let model = &weekly.model;
        let (wiring, rows) = Wiring::new(weekly);
        let mut board = Board {
            wiring: Arc::new(wiring),
            start: Arc::default(),
            rows,
            values: vec![0.0; model.vars.len()],
            worth: Worth::default(),
            waiting: Waiting { words: vec![0; model.vars.len().div_ceil(64) + 1], first: 0 },
            touched: Vec::new(),
            journal: Vec::new(),
            kept: Worth::default(),
        };
        board.touched = (0..board.rows.len()).filter(|row| board.rows[*row].can_break).collect();
        for var in 0..board.values.len() {
            if board.wiring.settles[var].0 != Settles::Decision {
                board.waiting.insert(var);
            }
        }
        board.settle();
        board.keep();
        let (rows, values) = (board.rows.clone(), board.values.clone());
        board.start = Arc::new(Start { rows, values, worth: board.worth });
        board
    }

    /// Sets a decision; [`Board::settle`] must follow before the worth is read.
    pub(super) fn set(&mut self, var: usize, value: f64) {
        if self.change(var, value) {
            self.wake(var, 0);
        }
    }

    /// Lets what a variable's rows push wait to be settled, from a place in the order on.
    fn wake(&mut self, var: usize, from: usize) {
        for follower in self.wiring.followers.of(var) {
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
        self.journal.push(Was::Value(var, self.values[var]));
        self.values[var] = value;
        for (place, factor) in self.wiring.columns.of(var) {
            let row = &mut self.rows[*place as usize];
            self.journal.push(Was::Left(*place as usize, row.left));
            row.left += factor * by;
            if row.can_break {
                self.touched.push(*place as usize);
            }
        }
        let tiers = &self.wiring.tiers[var];
        self.worth.coverage += tiers[0] * by;
        self.worth.ranges += tiers[1] * by;
        self.worth.view += tiers[2] * by;
        self.worth.changes += tiers[3] * by;
        true
    }

    /// Brings everything that follows up to date, and returns the worth.
    pub(super) fn settle(&mut self) -> Worth {
        while let Some(var) = self.waiting.pop() {
            let value = self.settled(var);
            if (value - self.values[var]).abs() > 1e-9 && self.change(var, value) {
                self.wake(var, var + 1);
            }
        }
        while let Some(place) = self.touched.pop() {
            let row = &mut self.rows[place];
            let now = row.broken_now();
            if (now - row.broken).abs() > 0.0 {
                self.journal.push(Was::Broken(place, row.broken));
                self.worth.broken += now - row.broken;
                row.broken = now;
            }
        }
        self.worth
    }

    /// The most by which a row of picks alone is more broken than before, nothing settled yet.
    pub(super) fn broken_by_picks(&self) -> f64 {
        let rows = self.touched.iter().map(|place| &self.rows[*place]);
        rows.filter(|row| row.of_picks).map(|row| row.broken_now() - row.broken).fold(0.0, f64::max)
    }

    /// Takes back everything that was ever set.
    pub(super) fn clear(&mut self) {
        let start = Arc::clone(&self.start);
        self.rows.clone_from(&start.rows);
        self.values.clone_from(&start.values);
        self.worth = start.worth;
        self.kept = start.worth;
        self.journal.clear();
        self.touched.clear();
        self.waiting.clear();
    }

    /// Keeps what was set and settled.
    pub(super) fn keep(&mut self) {
        self.journal.clear();
        self.kept = self.worth;
    }

    /// Takes back everything since the last [`Board::keep`].
    pub(super) fn take_back(&mut self) {
        while let Some(was) = self.journal.pop() {
            match was {
                Was::Value(var, value) => self.values[var] = value,
                Was::Left(row, value) => self.rows[row].left = value,
                Was::Broken(row, value) => self.rows[row].broken = value,
            }
        }
        self.worth = self.kept;
        self.touched.clear();
        self.waiting.clear();
    }

    /// The value that a following variable takes, by its rows without it and without those after it.
    fn settled(&self, var: usize) -> f64 {
        let (settles, high, whole) = self.wiring.settles[var];
        let (mut least, mut most) = (0.0_f64, high);
        for Push { row, factor, place } in self.wiring.pushing.of(var) {
            let later = &self.wiring.settling.of(*row as usize)[*place as usize..];
            let later: f64 = later
                .iter()
                .map(|(follower, factor)| factor * self.values[*follower as usize])
                .sum();
            let row = &self.rows[*row as usize];
            let bound = (row.right - (row.left - later)) / factor;
            let upper = (row.op == Op::Le) == (*factor > 0.0);
            if upper {
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
