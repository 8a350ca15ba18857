//! A week counted by the rows themselves, from nothing: the value of every variable, and what the week is worth. Slow
//! and plain; the tables have to agree with it.

use super::Evaluator;
use super::score::Score;
use super::settling::{Settling, settled};
use super::tables::Tables;
use crate::model::Weekly;
use crate::program::Settles;

/// A week as the model sees it.
pub(in crate::search) struct Counted {
    /// A value for every variable of the model.
    pub(in crate::search) values: Vec<f64>,
    pub(in crate::search) score: Score,
}

/// Counts a week with some sets of each pick, paired as the evaluator pairs it.
pub(in crate::search) fn count(weekly: &Weekly, tables: &Tables, sets: &[u32]) -> Counted {
    let mut evaluator = Evaluator::new(tables);
    evaluator.go_to(sets);
    let mut values = vec![0.0; weekly.model.vars.len()];
    for (pick, sets) in weekly.picks.iter().zip(sets).filter(|(_, sets)| **sets > 0) {
        values[pick.chosen.0] = 1.0;
        values[pick.extra.0] = f64::from(sets.saturating_sub(pick.sets[0]));
    }
    for (one, other, count) in evaluator.all_pairs() {
        values[count] += 1.0;
        for pick in [one, other] {
            let ways = weekly.picks[pick].in_turn.iter().flatten();
            for way in ways.filter(|way| way.rounds == sets[pick]) {
                values[way.var.0] = 1.0;
            }
        }
    }
    counted(weekly, values)
}

/// The values of a week from those of its decisions alone.
pub(in crate::search) fn of_decisions(weekly: &Weekly, decisions: &[f64]) -> Vec<f64> {
    let vars = weekly.model.vars.iter().zip(decisions);
    let only = vars.map(|(def, value)| if def.settles == Settles::Decision { *value } else { 0.0 });
    counted(weekly, only.collect()).values
}

/// Settles every variable that follows from the decisions, in the order of creation.
fn counted(weekly: &Weekly, mut values: Vec<f64>) -> Counted {
    let settling = Settling::new(weekly);
    let rows = &weekly.model.rows;
    let mut rows_of: Vec<Vec<(usize, f64)>> = vec![Vec::new(); values.len()];
    for (place, row) in rows.iter().enumerate() {
        for (var, factor) in &row.terms {
            rows_of[var.0].push((place, *factor));
        }
    }
    let mut left: Vec<f64> =
        rows.iter().map(|row| crate::program::value(&row.terms, &values)).collect();
    let mut score = Score::default();
    for (var, def) in weekly.model.vars.iter().enumerate() {
        if settling.settles(var) {
            // Variables after this one are nought as yet, and it is so itself.
            let mut range = [0.0, def.high];
            for push in &settling.pushes[var] {
                settling.bound(*push, left[push.row], &mut range);
            }
            let value = settled(def.settles, def.integer, range);
            values[var] = value;
            for (row, factor) in &rows_of[var] {
                left[*row] += factor * value;
            }
        }
        score.add(&settling.goals[var], values[var]);
    }
    score.broken = (0..rows.len()).map(|row| settling.broken(row, left[row])).sum();
    Counted { values, score }
}
