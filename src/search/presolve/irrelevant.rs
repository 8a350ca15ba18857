//! A question about few rules needs few exercises: the others only take minutes, so that any week without them
//! answers it as well.

use std::collections::BTreeSet;

use crate::model::Weekly;
use crate::program::{Model, Op, Role, Row, Settles, Term, Var};

/// The rows of a week without the exercises that no row but the meaning of the variables gains from.
///
/// Such an exercise can be taken out of any week that meets the rows: a pair with it saves at most its own rests and
/// the way to it, which go with it. Where a row other than the minutes looks at pairs, all stay.
#[must_use]
pub(in crate::search) fn without_irrelevant(weekly: &Weekly) -> Model {
    let model = &weekly.model;
    let pairs: BTreeSet<Var> = weekly
        .pairs
        .iter()
        .map(|pair| pair.count)
        .chain(weekly.picks.iter().flat_map(|pick| pick.paired()))
        .collect();
    let looks_at_pairs = |row: &Row| {
        row.role != Role::Definition
            && row.rule != "session-minutes"
            && row.terms.iter().any(|(var, _)| pairs.contains(var))
    };
    if model.rows.iter().any(looks_at_pairs) {
        return model.clone();
    }
    let gains = gains(model);
    let idle = weekly.picks.iter().filter(|pick| !gains[pick.chosen.0] && !gains[pick.extra.0]);
    let mut nought = vec![false; model.vars.len()];
    for var in idle.flat_map(|pick| pick.decisions()) {
        nought[var.0] = true;
    }
    unpaired(model, &mut nought);
    shortened(model, &nought)
}

/// For each variable, whether a row is nearer to holding with more of it.
fn gains(model: &Model) -> Vec<bool> {
    let mut gains = vec![false; model.vars.len()];
    for row in model.rows.iter().filter(|row| row.role != Role::Definition) {
        for (var, factor) in &row.terms {
            gains[var.0] |= match row.op {
                Op::Le => *factor < 0.0,
                Op::Ge => *factor > 0.0,
                Op::Eq => true,
            };
        }
    }
    // Sums are made after their parts, and sums of sums after these.
    for row in model.rows.iter().rev().filter(|row| row.role == Role::Definition) {
        let [parts @ .., (sum, _)] = row.terms.as_slice() else { continue };
        if model.vars[sum.0].settles == Settles::Equal && gains[sum.0] {
            for (part, _) in parts {
                gains[part.0] = true;
            }
        }
    }
    gains
}

/// Pairs with a class that has nobody left are nought too.
fn unpaired(model: &Model, nought: &mut [bool]) {
    let is_decided =
        |row: &Row| row.terms.iter().all(|(var, _)| model.vars[var.0].settles == Settles::Decision);
    let defines = |row: &Row| row.role == Role::Definition && row.op == Op::Eq && is_decided(row);
    let equations = || model.rows.iter().filter(|row| defines(row));
    loop {
        let mut more = Vec::new();
        for row in equations() {
            let left = row.terms.iter().filter(|(var, _)| !nought[var.0]);
            let (members, counts): (Vec<&Term>, Vec<&Term>) =
                left.partition(|(_, factor)| *factor > 0.0);
            if members.is_empty() {
                more.extend(counts.iter().map(|(var, _)| *var));
            }
        }
        if more.is_empty() {
            return;
        }
        for var in more {
            nought[var.0] = true;
        }
    }
}

/// The model without the variables that are nought, and without those that no row has left.
fn shortened(model: &Model, nought: &[bool]) -> Model {
    let mut rows = model.rows.clone();
    for row in &mut rows {
        row.terms.retain(|(var, _)| !nought[var.0]);
    }
    rows.retain(|row| !row.terms.is_empty() || !crate::program::holds(0.0, row.op, row.right));
    let used: BTreeSet<Var> = rows.iter().flat_map(|row| &row.terms).map(|(var, _)| *var).collect();
    let mut places = vec![Var(0); model.vars.len()];
    let mut vars = Vec::with_capacity(used.len());
    for var in used {
        places[var.0] = Var(vars.len());
        vars.push(model.vars[var.0].clone());
    }
    for (var, _) in rows.iter_mut().flat_map(|row| &mut row.terms) {
        *var = places[var.0];
    }
    Model { vars, rows }
}
