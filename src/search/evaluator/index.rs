//! What of a evaluator never changes: which rows a variable is in, what they push, and which can break.

use std::collections::BTreeSet;

use super::ROUNDING;
use crate::model::tier::PerTier;
use crate::model::{Pick, Weekly};
use crate::program::{Model, Op, Row, Settles, holds};

/// Lists behind one another, so that walking them stays in the cache.
pub(super) struct Lists<T> {
    starts: Vec<u32>,
    items: Vec<T>,
}

impl<T> Lists<T> {
    fn new(lists: impl IntoIterator<Item = Vec<T>>) -> Lists<T> {
        let mut starts = vec![0];
        let mut items = Vec::new();
        for list in lists {
            items.extend(list);
            starts.push(small(items.len()));
        }
        Lists { starts, items }
    }

    pub(super) fn of(&self, list: usize) -> &[T] {
        &self.items[self.starts[list] as usize..self.starts[list + 1] as usize]
    }
}

pub(super) fn small(place: usize) -> u32 {
    u32::try_from(place).expect("a weekly model is small")
}

/// A row as it stands. Small, so that all of them stay near.
#[derive(Clone)]
pub(super) struct RowState {
    pub(super) left: f64,
    /// How far it is broken.
    pub(super) broken: f64,
    /// The turn in which it was last written down.
    pub(super) turn: u32,
}

/// What of a row never changes.
pub(super) struct Limit {
    pub(super) right: f64,
    pub(super) op: Op,
    /// One over the largest factor of the row: what counts as one step of breaking it.
    unit: f64,
    /// Whether it can be broken at all: a variable that settles may always make it hold.
    pub(super) can_break: bool,
    /// What it takes to know whether it holds.
    pub(super) known: Known,
}

/// When it is known of a row whether a change breaks it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Known {
    /// As soon as picks have their sets.
    ByPicks,
    /// When pairs are formed and the costs of tiers 1 and 2 have settled.
    Costed,
    /// When all that follows has settled.
    Settled,
}

impl Limit {
    /// How far some left side breaks the row.
    pub(super) fn broken_by(&self, left: f64) -> f64 {
        let over = match self.op {
            Op::Le => left - self.right,
            Op::Ge => self.right - left,
            Op::Eq => (left - self.right).abs(),
        };
        if over > ROUNDING { over * self.unit } else { 0.0 }
    }
}

/// A row that pushes a variable.
pub(super) struct Push {
    pub(super) row: u32,
    /// One over the factor of the pushed one.
    pub(super) over: f64,
    /// Whether it is pushed down, else up.
    pub(super) down: bool,
    /// Of the variables of the row that settle, the place of the pushed one.
    pub(super) place: u32,
}

/// What of a evaluator never changes.
pub(super) struct Index {
    /// The rows.
    pub(super) limits: Vec<Limit>,
    /// For each variable, the rows that can break or push, with its factors.
    pub(super) columns: Lists<(u32, f64)>,
    /// For each variable, its weight in each tier.
    pub(super) tiers: Vec<PerTier<f64>>,
    /// For each variable, those that its rows push, in order.
    pub(super) dependents: Lists<u32>,
    /// For each variable that settles, the rows that push it.
    pub(super) pushing: Lists<Push>,
    /// For each row, the variables in it that settle, in order.
    pub(super) settling: Lists<(u32, f64)>,
    pub(super) settles: Vec<(Settles, f64, bool)>,
    /// The first variable after all that cost something in tier 1 or 2 or in a rework.
    pub(super) costs_end: usize,
}

impl Index {
    /// What of the model never changes.
    pub(super) fn new(weekly: &Weekly) -> Index {
        let model = &weekly.model;
        let mut columns: Vec<Vec<(usize, f64)>> = vec![Vec::new(); model.vars.len()];
        for (place, row) in model.rows.iter().enumerate() {
            for (var, factor) in &row.terms {
                columns[var.0].push((place, *factor));
            }
        }
        let mut tiers = vec![PerTier::default(); model.vars.len()];
        for goal in &weekly.goals {
            tiers[goal.var.0][goal.tier] += goal.weight;
        }
        let costs_end = costs_end(&tiers);
        let pushed: Vec<_> = model.rows.iter().map(|row| pushed(model, row)).collect();
        let settling: Vec<_> = model.rows.iter().map(|row| settling(model, row)).collect();
        let mut pushing: Vec<Vec<Push>> = model.vars.iter().map(|_| Vec::new()).collect();
        for (row, vars) in pushed.iter().enumerate() {
            for (var, factor) in vars {
                let place = settling[row].iter().position(|(other, _)| other == var);
                let place = small(place.expect("what is pushed settles"));
                let down = (model.rows[row].op == Op::Le) == (*factor > 0.0);
                pushing[*var].push(Push { row: small(row), over: 1.0 / factor, down, place });
            }
        }
        let is_pair = pair_vars(weekly);
        let mut limits: Vec<Limit> =
            model.rows.iter().map(|row| limit(model, row, &is_pair, costs_end)).collect();
        for pick in &weekly.picks {
            for (row, _) in &columns[pick.extra.0] {
                limits[*row].can_break &= !always_kept_by(pick, &model.rows[*row]);
            }
        }
        let dependents = columns.iter().map(|column| {
            let all = column.iter().flat_map(|(row, _)| &pushed[*row]).map(|(var, _)| small(*var));
            all.collect::<BTreeSet<u32>>().into_iter().collect()
        });
        let dependents = Lists::new(dependents);
        let watched = |(row, _): &(usize, f64)| limits[*row].can_break || !pushed[*row].is_empty();
        let columns = columns.into_iter().map(|column| shortened(column, watched));
        let columns = Lists::new(columns);
        Index {
            limits,
            columns,
            tiers,
            dependents,
            pushing: Lists::new(pushing),
            settling: Lists::new(settling.into_iter().map(|row| shortened(row, |_| true))),
            costs_end,
            settles: model.vars.iter().map(|var| (var.settles, var.high, var.integer)).collect(),
        }
    }
}

/// What of a row never changes.
fn limit(model: &Model, row: &Row, is_pair: &[bool], costs_end: usize) -> Limit {
    let largest = row.terms.iter().map(|(_, factor)| factor.abs()).fold(1.0, f64::max);
    Limit {
        right: row.right,
        op: row.op,
        unit: 1.0 / largest,
        can_break: can_break(model, row),
        known: known(model, row, is_pair, costs_end),
    }
}

fn known(model: &Model, row: &Row, is_pair: &[bool], costs_end: usize) -> Known {
    match settling(model, row).last() {
        Some((last, _)) if *last >= costs_end => Known::Settled,
        None if !row.terms.iter().any(|(var, _)| is_pair[var.0]) => Known::ByPicks,
        _ => Known::Costed,
    }
}

/// Whether a row is about one pick alone and holds however it is done, or not at all.
fn always_kept_by(pick: &Pick, row: &Row) -> bool {
    let [least, most] = pick.sets.map(f64::from);
    let left = |chosen: f64, extra: f64| -> Option<f64> {
        let terms = row.terms.iter().map(|(var, factor)| match *var {
            var if var == pick.chosen => Some(factor * chosen),
            var if var == pick.extra => Some(factor * extra),
            _ => None,
        });
        terms.sum()
    };
    // A row is straight, so what holds at both ends holds between them.
    let ends = [(0.0, 0.0), (1.0, 0.0), (1.0, most - least)];
    let kept = |(chosen, extra)| left(chosen, extra).is_some_and(|at| holds(at, row.op, row.right));
    ends.into_iter().all(kept)
}

/// The first variable after all that cost something in tier 1 or 2 or in a rework.
fn costs_end(tiers: &[PerTier<f64>]) -> usize {
    let costs = |weights: &PerTier<f64>| {
        weights.iter().any(|(tier, weight)| tier.is_cost() && *weight != 0.0)
    };
    tiers.iter().rposition(costs).map_or(0, |last| last + 1)
}

/// For each variable, whether it says what is paired.
fn pair_vars(weekly: &Weekly) -> Vec<bool> {
    let mut is_pair = vec![false; weekly.model.vars.len()];
    let counts = weekly.pairs.iter().map(|pair| pair.count);
    for var in counts.chain(weekly.picks.iter().filter_map(|pick| pick.paired)) {
        is_pair[var.0] = true;
    }
    is_pair
}

/// Places as small numbers, of those that are kept.
fn shortened(list: Vec<(usize, f64)>, keep: impl Fn(&(usize, f64)) -> bool) -> Vec<(u32, f64)> {
    list.into_iter().filter(keep).map(|(place, factor)| (small(place), factor)).collect()
}

/// Whether a row can be broken on the evaluator: not where its bounds keep it, and not where one of the variables that
/// it pushes reaches far enough to keep it, whatever the others are.
fn can_break(model: &Model, row: &Row) -> bool {
    let sign = match row.op {
        Op::Le => 1.0,
        Op::Ge => -1.0,
        // An equation that defines a variable always holds.
        Op::Eq => return settling(model, row).is_empty(),
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

/// The variables that a row pushes: up where they settle at their least, down where at their most. An equation
/// defines the last of its own.
fn pushed(model: &Model, row: &Row) -> Vec<(usize, f64)> {
    if row.op == Op::Eq {
        return settling(model, row).pop().into_iter().collect();
    }
    let pushes = |(var, factor): &(usize, f64)| {
        let upper = (row.op == Op::Le) == (*factor > 0.0);
        let settles = model.vars[*var].settles;
        settles != Settles::Equal && upper == (settles == Settles::Most)
    };
    settling(model, row).into_iter().filter(pushes).collect()
}
