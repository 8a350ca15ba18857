//! Tiers that are already reached are held by rows while the next is solved.

use super::search::{Search, costs};
use crate::model::Weekly;
use crate::program::{Op, Term};

/// Room for rounding when a tier is held: a millionth, absolute or relative.
const ROOM: f64 = 1e-6;

/// Holds the costs of tier 1 at most at a value.
pub(super) fn hold_coverage(weekly: &mut Weekly, value: f64) {
    let terms = weekly.coverage.clone();
    hold(weekly, "tier-1", terms, Op::Le, value);
}

/// Holds the costs of tier 2 at most at a value.
pub(super) fn hold_ranges(weekly: &mut Weekly, value: f64) {
    let terms = weekly.ranges.clone();
    hold(weekly, "tier-2", terms, Op::Le, value);
}

/// Holds the costs of a rework at most at a value.
pub(super) fn hold_changes(weekly: &mut Weekly, value: f64) {
    let terms = weekly.changes.clone();
    if !terms.is_empty() {
        hold(weekly, "tier-changes", terms, Op::Le, value);
    }
}

/// Holds the points of tier 3 at least at a value.
pub(super) fn hold_view(weekly: &mut Weekly, value: f64) {
    let terms = weekly.view.clone();
    hold(weekly, "tier-3", terms, Op::Ge, value);
}

/// Drops the rows of all tiers.
pub(super) fn release(weekly: &mut Weekly) {
    weekly.model.rows.retain(|row| !row.rule.starts_with("tier-"));
}

/// One row for each tier; a new value replaces the old.
fn hold(weekly: &mut Weekly, tier: &'static str, terms: Vec<Term>, op: Op, value: f64) {
    let room = ROOM.max(ROOM * value.abs());
    let right = if op == Op::Le { value + room } else { value - room };
    weekly.model.rows.retain(|row| row.rule != tier);
    weekly.model.row(tier, "week", terms, op, right);
}

impl Search<'_> {
    /// The relaxation's bound of changed picks, with the tiers before held.
    pub(super) fn changes_bound(&mut self) -> f64 {
        if self.weekly.changes.is_empty() {
            return 0.0;
        }
        let goal = costs(&self.weekly.changes);
        self.weekly.model.rows.retain(|row| row.rule != "tier-changes");
        let found = self.relaxed(&goal);
        found.map_or(0.0, |found| (-found.objective).max(0.0))
    }
}
