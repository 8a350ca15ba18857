//! Numbers read as rows: what a sum of decisions breaks, and the variables that settle by it.

use super::score::{ROUNDING, Score};
use super::settling::{Settling, settled};
use crate::model::tier::Tier;
use crate::program::{Op, Settles};

/// A variable that settles by a row.
#[derive(Clone)]
pub(super) struct Own {
    /// Its factor in the row.
    by: f64,
    settles: Settles,
    whole: bool,
    /// Where rows of constants leave it.
    range: [f64; 2],
    goals: Score,
}

/// A row whose left side is a number times a factor, and variables of its own.
#[derive(Clone)]
pub(super) struct Reading {
    factor: f64,
    op: Op,
    right: f64,
    /// One over the largest factor of the row where the row can be broken, else nought.
    unit: f64,
    own: Vec<Own>,
}

impl Own {
    /// A variable with some factor in a row; rows of constants may bound it further.
    pub(super) fn new(settling: &Settling, var: usize, by: f64, range: [f64; 2]) -> Own {
        let def = &settling.model.vars[var];
        let goals = settling.goals[var];
        Own { by, settles: def.settles, whole: def.integer, range, goals }
    }

    /// The same, where what it costs or brings is counted elsewhere.
    pub(super) fn without_goals(self) -> Own {
        Own { goals: Score::default(), ..self }
    }

    /// Its value by rows of constants alone.
    pub(super) fn value_alone(&self) -> f64 {
        settled(self.settles, self.whole, self.range)
    }

    /// Its value where the row leaves it some room.
    fn value(&self, op: Op, room: f64) -> f64 {
        let bound = room / self.by;
        let [mut least, mut most] = self.range;
        let is_upper = match op {
            // An equation gives the value itself, from the side that the variable leans to.
            Op::Eq => self.settles == Settles::Most,
            _ => (op == Op::Le) == (self.by > 0.0),
        };
        if is_upper {
            most = most.min(bound);
        } else {
            least = least.max(bound);
        }
        settled(self.settles, self.whole, [least, most])
    }
}

impl Reading {
    /// A row as a factor of a number, less a constant part of its left side.
    pub(super) fn of_row(
        settling: &Settling,
        row: usize,
        [factor, constant]: [f64; 2],
        can_break: bool,
        own: Vec<Own>,
    ) -> Reading {
        let row = &settling.model.rows[row];
        let largest = row.terms.iter().map(|(_, factor)| factor.abs()).fold(1.0, f64::max);
        let unit = if can_break { 1.0 / largest } else { 0.0 };
        Reading { factor, op: row.op, right: row.right - constant, unit, own }
    }

    /// A variable that is a number times a factor, plus a constant.
    pub(super) fn of_value(own: Own, [factor, constant]: [f64; 2]) -> Reading {
        Reading {
            factor: -factor,
            op: Op::Eq,
            right: constant,
            unit: 0.0,
            own: vec![Own { by: 1.0, ..own }],
        }
    }

    /// A variable that is at least a number times a factor.
    pub(super) fn at_least(factor: f64, own: Own) -> Reading {
        Reading { factor, op: Op::Le, right: 0.0, unit: 0.0, own: vec![Own { by: -1.0, ..own }] }
    }

    /// The greatest value that its variables can take.
    pub(super) fn high(&self) -> f64 {
        self.own.iter().map(|own| own.range[1]).fold(0.0, f64::max)
    }

    /// What the row and its variables are worth at a number.
    pub(super) fn score(&self, number: i32) -> Score {
        let mut score = Score::default();
        let mut left = self.factor * f64::from(number);
        for own in &self.own {
            let value = own.value(self.op, self.right - left);
            left += own.by * value;
            score.add(&own.goals, value);
        }
        let over = match self.op {
            Op::Le => left - self.right,
            Op::Ge => self.right - left,
            Op::Eq => (left - self.right).abs(),
        };
        if over > ROUNDING {
            score.broken += over * self.unit;
        }
        score
    }

    /// The value of one of its variables at a number.
    pub(super) fn value(&self, own: usize, number: i32) -> f64 {
        let mut left = self.factor * f64::from(number);
        let mut value = 0.0;
        for own in &self.own[..=own] {
            value = own.value(self.op, self.right - left);
            left += own.by * value;
        }
        value
    }

    /// What tells it from other readings, so that equal ones share a table.
    pub(super) fn key(&self) -> impl Iterator<Item = u64> + use<'_> {
        let own = self.own.iter().flat_map(|own| {
            let goals = Tier::ALL.map(|tier| own.goals.tiers[tier]);
            let numbers = [own.by, own.range[0], own.range[1]].into_iter().chain(goals);
            let kind = own.settles as u64 * 2 + u64::from(own.whole);
            numbers.map(f64::to_bits).chain([kind])
        });
        let head = [self.factor, self.right, self.unit].map(f64::to_bits);
        head.into_iter().chain([self.op as u64, self.own.len() as u64]).chain(own)
    }

    /// Whether it is worth something at some number.
    pub(super) fn matters(&self) -> bool {
        self.unit > 0.0 || self.own.iter().any(|own| own.goals != Score::default())
    }

    /// Whether it costs anything of tiers 1 and 2.
    pub(super) fn costs(&self) -> bool {
        let costs = |own: &Own| own.goals.misses();
        self.own.iter().any(costs)
    }

    /// Whether its row can be broken.
    pub(super) fn can_break(&self) -> bool {
        self.unit > 0.0
    }
}
