//! Which rows of a model can make it impossible, and which always give way.

use super::{Model, Op, Row, Settles};

/// For each row, whether it can collide with others. Rows give way where one of their variables has a value at
/// which all its rows hold, whatever the other variables are: these are the costs and gains of wishes.
#[must_use]
pub fn unyielding(model: &Model) -> Vec<bool> {
    let mut rows_of: Vec<Vec<usize>> = vec![Vec::new(); model.vars.len()];
    for (place, row) in model.rows.iter().enumerate() {
        for (var, _) in &row.terms {
            rows_of[var.0].push(place);
        }
    }
    let mut unyielding = vec![true; model.rows.len()];
    for (var, def) in model.vars.iter().enumerate() {
        let gives = |value: f64| {
            rows_of[var]
                .iter()
                .all(|row| always_holds(model, &model.rows[*row], Some((var, value))))
        };
        if def.settles != Settles::Decision && (gives(def.low) || gives(def.high)) {
            for row in &rows_of[var] {
                unyielding[*row] = false;
            }
        }
    }
    unyielding
}

/// Whether a row holds with perhaps one variable at a value, wherever the others are.
pub(super) fn always_holds(model: &Model, row: &Row, at: Option<(usize, f64)>) -> bool {
    let sum = |most: bool| -> f64 {
        row.terms
            .iter()
            .map(|(term, factor)| {
                let def = &model.vars[term.0];
                let end = if (*factor > 0.0) == most { def.high } else { def.low };
                let at = at.filter(|(var, _)| *var == term.0);
                factor * at.map_or(end, |(_, value)| value)
            })
            .sum()
    };
    match row.op {
        Op::Le => sum(true) <= row.right,
        Op::Ge => sum(false) >= row.right,
        Op::Eq => false,
    }
}
