//! The weekly model as a board to play on: decisions are set one by one, and everything that follows from
//! them (what rows count, costs and gains, broken rows) is kept up to date.
//!
//! Variables that settle at their least or most follow from the decisions in the order of their creation, so
//! no solver is needed to know what a week is worth.

use crate::model::Weekly;
use crate::program::{Model, Op, Row, Settles};

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

/// Lists behind one another, so that walking them stays in the cache.
struct Lists {
    starts: Vec<u32>,
    items: Vec<(u32, f64)>,
}

impl Lists {
    fn new(lists: Vec<Vec<(usize, f64)>>) -> Lists {
        let place = |place: usize| u32::try_from(place).expect("a weekly model is small");
        let mut starts = vec![0];
        let mut items = Vec::new();
        for list in lists {
            items.extend(list.into_iter().map(|(index, factor)| (place(index), factor)));
            starts.push(place(items.len()));
        }
        Lists { starts, items }
    }

    fn range(&self, list: usize) -> std::ops::Range<usize> {
        self.starts[list] as usize..self.starts[list + 1] as usize
    }

    fn of(&self, list: usize) -> &[(u32, f64)] {
        &self.items[self.range(list)]
    }
}

/// Rows, columns and values.
pub(super) struct Board {
    /// For each variable, its rows and factors.
    columns: Lists,
    /// For each variable, its factor in tier 1, 2 and 3, and in the costs of a rework.
    tiers: Vec<[f64; 4]>,
    /// For each row, the variables that it pushes.
    pushed: Lists,
    /// For each variable that settles, the rows that push it.
    pushing: Lists,
    /// For each row, the variables in it that settle, in order.
    settling: Lists,
    ops: Vec<(Op, f64)>,
    /// Whether a row can be broken at all: a variable that settles may always make it hold.
    can_break: Vec<bool>,
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
        let mut columns: Vec<Vec<(usize, f64)>> = vec![Vec::new(); model.vars.len()];
        for (place, row) in model.rows.iter().enumerate() {
            for (var, factor) in &row.terms {
                columns[var.0].push((place, *factor));
            }
        }
        let mut tiers = vec![[0.0; 4]; model.vars.len()];
        let goals = [&weekly.coverage, &weekly.ranges, &weekly.view, &weekly.changes];
        for (tier, terms) in goals.into_iter().enumerate() {
            for (var, factor) in terms {
                tiers[var.0][tier] += factor;
            }
        }
        let pushed: Vec<_> = model.rows.iter().map(|row| pushed(model, row)).collect();
        let mut pushing: Vec<Vec<(usize, f64)>> = vec![Vec::new(); model.vars.len()];
        for (row, vars) in pushed.iter().enumerate() {
            for (var, factor) in vars {
                pushing[*var].push((row, *factor));
            }
        }
        let settling = model.rows.iter().map(|row| settling(model, row)).collect();
        let units = model
            .rows
            .iter()
            .map(|row| 1.0 / row.terms.iter().map(|(_, factor)| factor.abs()).fold(1.0, f64::max));
        let mut board = Board {
            columns: Lists::new(columns),
            tiers,
            pushed: Lists::new(pushed),
            pushing: Lists::new(pushing),
            settling: Lists::new(settling),
            ops: model.rows.iter().map(|row| (row.op, row.right)).collect(),
            can_break: model.rows.iter().map(|row| can_break(model, row)).collect(),
            units: units.collect(),
            settles: model.vars.iter().map(|var| (var.settles, var.high, var.integer)).collect(),
            values: vec![0.0; model.vars.len()],
            left: vec![0.0; model.rows.len()],
            broken: vec![0.0; model.rows.len()],
            worth: Worth::default(),
            waiting: Waiting { words: vec![0; model.vars.len().div_ceil(64)], first: 0 },
            touched: Vec::new(),
            journal: Vec::new(),
            kept: Worth::default(),
        };
        board.touched = (0..model.rows.len()).filter(|row| board.can_break[*row]).collect();
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
        if self.change(var, value) {
            self.wake(var, 0);
        }
    }

    /// Lets the followers of a variable's rows wait to be settled, from a place in the order on.
    fn wake(&mut self, var: usize, from: usize) {
        for place in self.columns.range(var) {
            let row = self.columns.items[place].0 as usize;
            for (follower, _) in self.pushed.of(row) {
                if *follower as usize >= from {
                    self.waiting.insert(*follower as usize);
                }
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
        for (row, factor) in self.columns.of(var) {
            let row = *row as usize;
            self.journal.push(Was::Left(row, self.left[row]));
            self.left[row] += factor * by;
            if self.can_break[row] {
                self.touched.push(row);
            }
        }
        let tiers = &self.tiers[var];
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
        while let Some(row) = self.touched.pop() {
            let (op, right) = self.ops[row];
            let over = match op {
                Op::Le => self.left[row] - right,
                Op::Ge => right - self.left[row],
                Op::Eq => (self.left[row] - right).abs(),
            };
            let now = if over > ROUNDING { over * self.units[row] } else { 0.0 };
            if (now - self.broken[row]).abs() > 0.0 {
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
        for (row, factor) in self.pushing.of(var) {
            let row = *row as usize;
            let followers = self.settling.of(row);
            let later: f64 = if followers.len() == 1 {
                factor * self.values[var]
            } else {
                followers
                    .iter()
                    .filter(|(follower, _)| *follower as usize >= var)
                    .map(|(follower, factor)| factor * self.values[*follower as usize])
                    .sum()
            };
            let (op, right) = self.ops[row];
            let bound = (right - (self.left[row] - later)) / factor;
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

/// Whether a row can be broken on the board: not where its bounds keep it, and not where one of the variables that
/// it pushes reaches far enough to keep it, whatever the others are.
fn can_break(model: &Model, row: &Row) -> bool {
    let sign = match row.op {
        Op::Le => 1.0,
        Op::Ge => -1.0,
        Op::Eq => return true,
    };
    // How far the left side may be over, with every variable where it hurts most.
    let over = |skipped: usize| -> f64 {
        let others = row.terms.iter().filter(|(var, _)| var.0 != skipped);
        let worst = others.map(|(var, factor)| {
            let def = &model.vars[var.0];
            (sign * factor * def.low).max(sign * factor * def.high)
        });
        worst.sum::<f64>() - sign * row.right
    };
    let keeps = |(var, factor): &(usize, f64)| {
        let def = &model.vars[*var];
        let best = (sign * factor * def.low).min(sign * factor * def.high);
        over(*var) + best <= ROUNDING
    };
    over(usize::MAX) > ROUNDING && !pushed(model, row).iter().any(keeps)
}

/// The variables of a row that settle, in order of creation.
fn settling(model: &Model, row: &Row) -> Vec<(usize, f64)> {
    let settles = |var: usize| model.vars[var].settles != Settles::Decision;
    row.terms.iter().filter(|(var, _)| settles(var.0)).map(|(var, by)| (var.0, *by)).collect()
}

/// The variables that a row pushes: up where they settle at their least, down where at their most.
fn pushed(model: &Model, row: &Row) -> Vec<(usize, f64)> {
    let pushes = |(var, factor): &(usize, f64)| {
        let upper = (row.op == Op::Le) == (*factor > 0.0);
        row.op == Op::Eq || upper == (model.vars[*var].settles == Settles::Most)
    };
    settling(model, row).into_iter().filter(pushes).collect()
}
