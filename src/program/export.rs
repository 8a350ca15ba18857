//! The model as free MPS, so that any other solver can be put beside ours.
//!
//! Names are readable and of letters, digits and `_` only. Every column has explicit bounds: without them some
//! readers take an integer column for a binary one.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::{Model, Op, Term};

/// A model with a goal to be maximized, written as the minimization of its negative.
#[must_use]
pub fn free_mps(model: &Model, goal: &[Term], name: &str) -> String {
    let columns: Vec<String> = unique(model.vars.iter().map(|var| word(&var.name)));
    let rows: Vec<String> =
        unique(model.rows.iter().map(|row| word(&format!("{}_{}", row.rule, row.subject))));
    let mut text = format!("NAME {}\nROWS\n N cost\n", word(name));
    for (row, name) in model.rows.iter().zip(&rows) {
        let kind = match row.op {
            Op::Le => 'L',
            Op::Ge => 'G',
            Op::Eq => 'E',
        };
        line(&mut text, format_args!(" {kind} {name}"));
    }
    text.push_str("COLUMNS\n");
    write_columns(&mut text, model, goal, &columns, &rows);
    text.push_str("RHS\n");
    for (row, name) in model.rows.iter().zip(&rows).filter(|(row, _)| row.right != 0.0) {
        line(&mut text, format_args!(" rhs {name} {}", row.right));
    }
    text.push_str("BOUNDS\n");
    for (var, name) in model.vars.iter().zip(&columns) {
        line(&mut text, format_args!(" LO bnd {name} {}", var.low));
        line(&mut text, format_args!(" UP bnd {name} {}", var.high));
    }
    text.push_str("ENDATA\n");
    text
}

fn write_columns(
    text: &mut String,
    model: &Model,
    goal: &[Term],
    columns: &[String],
    rows: &[String],
) {
    let mut entries: Vec<Vec<(&str, f64)>> = vec![Vec::new(); model.vars.len()];
    for (var, factor) in super::merged(goal.to_vec()) {
        entries[var.0].push(("cost", -factor));
    }
    for (row, name) in model.rows.iter().zip(rows) {
        for (var, factor) in &row.terms {
            entries[var.0].push((name, *factor));
        }
    }
    let mut whole = false;
    for (place, var) in model.vars.iter().enumerate() {
        if var.integer != whole {
            let marker = if var.integer { "INTORG" } else { "INTEND" };
            line(text, format_args!(" mark{place} 'MARKER' '{marker}'"));
            whole = var.integer;
        }
        for (row, factor) in &entries[place] {
            line(text, format_args!(" {} {row} {factor}", columns[place]));
        }
    }
    if whole {
        text.push_str(" mark_end 'MARKER' 'INTEND'\n");
    }
}

fn line(text: &mut String, content: std::fmt::Arguments) {
    writeln!(text, "{content}").expect("a string takes every write");
}

/// Letters, digits and `_` only.
fn word(name: &str) -> String {
    name.chars().map(|one| if one.is_ascii_alphanumeric() { one } else { '_' }).collect()
}

/// Names with a number behind each that came before.
fn unique(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut seen: BTreeMap<String, u32> = BTreeMap::new();
    names
        .map(|name| {
            let times = seen.entry(name.clone()).or_default();
            *times += 1;
            if *times == 1 { name } else { format!("{name}_{times}") }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The small model of the handbook (min 4b + 2.5f, b + 0.5f >= 9, 4b + 2.5f <= 40, b <= 6, f <= 10): other
    /// solvers read a file of this form and found 39.0 at (6, 6).
    #[test]
    fn the_small_model_has_names_marks_and_bounds() {
        let mut model = Model::default();
        let bench = model.integer("bench-press".to_owned(), 0, 6);
        let fly = model.integer("fly".to_owned(), 0, 10);
        model.demand("floor", "chest", vec![(bench, 1.0), (fly, 0.5)], Op::Ge, 9.0);
        model.demand("minutes", "mon", vec![(bench, 4.0), (fly, 2.5)], Op::Le, 40.0);
        let goal = [(bench, -4.0), (fly, -2.5)];
        let text = free_mps(&model, &goal, "small");
        let wanted = "NAME small\nROWS\n N cost\n G floor_chest\n L minutes_mon\nCOLUMNS\n mark0 'MARKER' 'INTORG'\n \
            bench_press cost 4\n bench_press floor_chest 1\n bench_press minutes_mon 4\n fly cost 2.5\n fly floor_chest 0.5\n \
            fly minutes_mon 2.5\n mark_end 'MARKER' 'INTEND'\nRHS\n rhs floor_chest 9\n rhs minutes_mon 40\nBOUNDS\n \
            LO bnd bench_press 0\n UP bnd bench_press 6\n LO bnd fly 0\n UP bnd fly 10\nENDATA\n";
        assert_eq!(text, wanted);
        let found = crate::program::backend::maximize(&model, &goal, None).expect("it is feasible");
        assert!((found.objective + 39.0).abs() < 1e-6 && found.proven);
    }
}
