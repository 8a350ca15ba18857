//! How the variables of a model follow from the decisions: which rows push each one, and which rows can be broken.
//!
//! A variable that settles takes its least or most value by its rows in the order of creation, so no solver is needed
//! to know what a week is worth.

use super::score::{ROUNDING, Score};
use crate::model::Weekly;
use crate::program::{Model, Op, Role, Row, Settles};

/// A row that bounds a variable from the side that it settles at.
#[derive(Clone, Copy)]
pub(super) struct Push {
    pub(super) row: usize,
    /// The variable's factor in the row.
    pub(super) factor: f64,
}

/// How a model's variables settle, and what they bring.
pub(super) struct Settling<'w> {
    pub(super) model: &'w Model,
    /// For each variable, the rows that push it; none for decisions.
    pub(super) pushes: Vec<Vec<Push>>,
    /// For each variable, what one of it costs or brings.
    pub(super) goals: Vec<Score>,
}

impl<'w> Settling<'w> {
    /// The rows and goals of a model.
    pub(super) fn new(weekly: &'w Weekly) -> Settling<'w> {
        let model = &weekly.model;
        let mut pushes = vec![Vec::new(); model.vars.len()];
        for (place, row) in model.rows.iter().enumerate() {
            for (var, factor) in pushed(model, row) {
                pushes[var].push(Push { row: place, factor });
            }
        }
        let mut goals = vec![Score::default(); model.vars.len()];
        for goal in &weekly.goals {
            goals[goal.var.0].tiers[goal.tier] += goal.weight;
        }
        Settling { model, pushes, goals }
    }

    /// Whether a variable settles, and is no decision.
    pub(super) fn settles(&self, var: usize) -> bool {
        self.model.vars[var].settles != Settles::Decision
    }

    /// Narrows the range of a variable by a row whose other terms are a constant.
    pub(super) fn bound(&self, push: Push, constant: f64, range: &mut [f64; 2]) {
        let row = &self.model.rows[push.row];
        let bound = (row.right - constant) / push.factor;
        if is_upper(row, push.factor) {
            range[1] = range[1].min(bound);
        } else {
            range[0] = range[0].max(bound);
        }
    }

    /// By how much a row is broken that has some left side, in steps of its largest factor.
    pub(super) fn broken(&self, row: usize, left: f64) -> f64 {
        let row = &self.model.rows[row];
        let over = match row.op {
            Op::Le => left - row.right,
            Op::Ge => row.right - left,
            Op::Eq => (left - row.right).abs(),
        };
        if over <= ROUNDING {
            return 0.0;
        }
        over / row.terms.iter().map(|(_, factor)| factor.abs()).fold(1.0, f64::max)
    }

    /// Whether a week can break a row: not where it says what decisions mean, nor where its bounds keep it, nor
    /// where one of the variables that it pushes reaches far enough to keep it, whatever the others are.
    pub(super) fn can_break(&self, row: usize) -> bool {
        let row = &self.model.rows[row];
        let follows = row.terms.iter().any(|(var, _)| self.settles(var.0));
        let sign = match row.op {
            _ if row.role == Role::Definition && !follows => return false,
            Op::Le => 1.0,
            Op::Ge => -1.0,
            Op::Eq => return !follows,
        };
        // How far the left side may be over, with every variable but one where it hurts most.
        let over = |skipped: Option<usize>| -> f64 {
            let others = row.terms.iter().filter(|(var, _)| Some(var.0) != skipped);
            let worst = others.map(|(var, factor)| {
                let def = &self.model.vars[var.0];
                (sign * factor * def.low).max(sign * factor * def.high)
            });
            worst.sum::<f64>() - sign * row.right
        };
        let keeps = |(var, factor): &(usize, f64)| {
            let def = &self.model.vars[*var];
            let best = (sign * factor * def.low).min(sign * factor * def.high);
            over(Some(*var)) + best <= ROUNDING
        };
        over(None) > ROUNDING && !pushed(self.model, row).iter().any(keeps)
    }
}

/// The value at which a variable settles within a range.
pub(super) fn settled(settles: Settles, whole: bool, [least, most]: [f64; 2]) -> f64 {
    match (settles, whole) {
        (Settles::Most, true) => (most.max(0.0) + ROUNDING).floor(),
        (Settles::Most, false) => most.max(0.0),
        (_, true) => (least.min(most) - ROUNDING).ceil().max(0.0),
        (_, false) => least.min(most),
    }
}

/// Whether a row bounds a variable with some factor from above.
fn is_upper(row: &Row, factor: f64) -> bool {
    (row.op == Op::Le) == (factor > 0.0)
}

/// The variables that a row pushes: up where they settle at their least, down where at their most. An equation
/// defines the last of its own.
fn pushed(model: &Model, row: &Row) -> Vec<(usize, f64)> {
    let settles = |var: usize| model.vars[var].settles;
    let mut settling = row
        .terms
        .iter()
        .map(|(var, factor)| (var.0, *factor))
        .filter(|(var, _)| settles(*var) != Settles::Decision);
    if row.op == Op::Eq {
        return settling.next_back().into_iter().collect();
    }
    let pushes = |(var, factor): &(usize, f64)| {
        settles(*var) != Settles::Equal
            && is_upper(row, *factor) == (settles(*var) == Settles::Most)
    };
    settling.filter(pushes).collect()
}
