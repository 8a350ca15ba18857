//! The weekly model as a board to play on: decisions are set one by one, and everything that follows from
//! them (what rows count, costs and gains, broken rows) is kept up to date.
//!
//! Variables that settle at their least or most follow from the decisions in the order of their creation, so
//! no solver is needed to know what a week is worth.

use crate::model::Weekly;
use crate::program::{Model, Op, Settles, Term};

/// Less than this is rounding.
const ROUNDING: f64 = 1e-6;

/// What a week is worth: broken rows, costs of the first two tiers, points of the third.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Worth {
    /// How far hard rows are broken, each row in its own unit; nought where all hold.
    pub(super) broken: f64,
    /// Costs of tier 1.
    pub(super) coverage: f64,
    /// Costs of tier 2.
    pub(super) ranges: f64,
    /// Points of tier 3.
    pub(super) view: f64,
}

impl Worth {
    /// Whether it is better, one tier after another.
    pub(super) fn beats(&self, other: &Worth) -> bool {
        let pairs = [
            (other.broken, self.broken),
            (other.coverage, self.coverage),
            (other.ranges, self.ranges),
            (self.view, other.view),
        ];
        pairs.iter().find(|(more, less)| (more - less).abs() > ROUNDING).is_some_and(|(a, b)| a > b)
    }
}

/// Where a variable stands in the model.
struct Column {
    rows: Vec<(usize, f64)>,
    /// Its factor in tier 1, 2 and 3.
    tiers: [f64; 3],
}

/// Rows, columns and values.
pub(super) struct Board {
    columns: Vec<Column>,
    /// For each row, the variables in it that settle, in order.
    followers: Vec<Vec<(usize, f64)>>,
    ops: Vec<(Op, f64)>,
    /// One over the largest factor of a row: what counts as one step of breaking it.
    units: Vec<f64>,
    settles: Vec<(Settles, f64, bool)>,
    /// Values of all variables.
    pub(super) values: Vec<f64>,
    left: Vec<f64>,
    broken: Vec<f64>,
    worth: Worth,
    waiting: Waiting,
    touched: Vec<usize>,
    /// What changed since the last [`Board::keep`]: values, left sides and broken rows as they were.
    journal: Vec<Was>,
    kept: Worth,
}

/// A number before it changed.
enum Was {
    Value(usize, f64),
    Left(usize, f64),
    Broken(usize, f64),
}

/// Variables that wait to be settled, first created first.
#[derive(Default)]
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
        let mut columns: Vec<Column> =
            model.vars.iter().map(|_| Column { rows: Vec::new(), tiers: [0.0; 3] }).collect();
        for (place, row) in model.rows.iter().enumerate() {
            for (var, factor) in &row.terms {
                columns[var.0].rows.push((place, *factor));
            }
        }
        for (tier, terms) in
            [&weekly.coverage, &weekly.ranges, &weekly.view].into_iter().enumerate()
        {
            for (var, factor) in terms {
                columns[var.0].tiers[tier] += factor;
            }
        }
        let followers = model.rows.iter().map(|row| followers(model, &row.terms)).collect();
        let units = model
            .rows
            .iter()
            .map(|row| 1.0 / row.terms.iter().map(|(_, factor)| factor.abs()).fold(1.0, f64::max));
        let mut board = Board {
            columns,
            followers,
            ops: model.rows.iter().map(|row| (row.op, row.right)).collect(),
            units: units.collect(),
            settles: model.vars.iter().map(|var| (var.settles, var.high, var.integer)).collect(),
            values: vec![0.0; model.vars.len()],
            left: vec![0.0; model.rows.len()],
            broken: vec![0.0; model.rows.len()],
            worth: Worth::default(),
            waiting: Waiting { words: vec![0; model.vars.len().div_ceil(64)], first: 0 },
            touched: (0..model.rows.len()).collect(),
            journal: Vec::new(),
            kept: Worth::default(),
        };
        for var in 0..board.settles.len() {
            if board.settles[var].0 != Settles::Decision {
                board.waiting.insert(var);
            }
        }
        board.settle();
        board.keep();
        board
    }

    /// Sets a decision; [`Board::settle`] must follow before the worth is read.
    pub(super) fn set(&mut self, var: usize, value: f64) {
        self.change(var, value);
        for place in 0..self.columns[var].rows.len() {
            let row = self.columns[var].rows[place].0;
            for (follower, _) in &self.followers[row] {
                self.waiting.insert(*follower);
            }
        }
    }

    fn change(&mut self, var: usize, value: f64) {
        let by = value - self.values[var];
        if by == 0.0 {
            return;
        }
        self.journal.push(Was::Value(var, self.values[var]));
        self.values[var] = value;
        let column = &self.columns[var];
        for (row, factor) in &column.rows {
            self.journal.push(Was::Left(*row, self.left[*row]));
            self.left[*row] += factor * by;
            self.touched.push(*row);
        }
        self.worth.coverage += column.tiers[0] * by;
        self.worth.ranges += column.tiers[1] * by;
        self.worth.view += column.tiers[2] * by;
    }

    /// Brings everything that follows up to date, and returns the worth.
    pub(super) fn settle(&mut self) -> Worth {
        while let Some(var) = self.waiting.pop() {
            let value = self.settled(var);
            if (value - self.values[var]).abs() > 1e-9 {
                self.change(var, value);
                for place in 0..self.columns[var].rows.len() {
                    let row = self.columns[var].rows[place].0;
                    for (follower, _) in &self.followers[row] {
                        if *follower > var {
                            self.waiting.insert(*follower);
                        }
                    }
                }
            }
        }
        while let Some(row) = self.touched.pop() {
            let (op, right) = self.ops[row];
            let over = match op {
                Op::Le => self.left[row] - right,
                Op::Ge => right - self.left[row],
                Op::Eq => (self.left[row] - right).abs(),
            };
            let now = if over > ROUNDING { over * self.units[row] } else { 0.0 };
            if now != self.broken[row] {
                self.journal.push(Was::Broken(row, self.broken[row]));
                self.worth.broken += now - self.broken[row];
                self.broken[row] = now;
            }
        }
        self.worth
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
                Was::Left(row, value) => self.left[row] = value,
                Was::Broken(row, value) => self.broken[row] = value,
            }
        }
        self.worth = self.kept;
    }

    /// The value that a following variable takes, by its rows without it and without those after it.
    fn settled(&self, var: usize) -> f64 {
        let (settles, high, whole) = self.settles[var];
        let (mut least, mut most) = (0.0_f64, high);
        for (row, factor) in &self.columns[var].rows {
            let later: f64 = self.followers[*row]
                .iter()
                .filter(|(follower, _)| *follower >= var)
                .map(|(follower, factor)| factor * self.values[*follower])
                .sum();
            let (op, right) = self.ops[*row];
            let bound = (right - (self.left[*row] - later)) / factor;
            let upper = (op == Op::Le) == (*factor > 0.0);
            if upper {
                most = most.min(bound);
            } else {
                least = least.max(bound);
            }
        }
        let value = match settles {
            Settles::Most => most.max(0.0),
            Settles::Least | Settles::Decision => least.min(high),
        };
        match (whole, settles) {
            (true, Settles::Most) => (value + ROUNDING).floor(),
            (true, _) => (value - ROUNDING).ceil().max(0.0),
            (false, _) => value,
        }
    }
}

/// The variables of a row that settle, in order of creation.
fn followers(model: &Model, terms: &[Term]) -> Vec<(usize, f64)> {
    let settles = |var: usize| model.vars[var].settles != Settles::Decision;
    terms.iter().filter(|(var, _)| settles(var.0)).map(|(var, factor)| (var.0, *factor)).collect()
}
