//! The linear relaxation: what it proves of a week's program, for those who ask.

use crate::input::plan::TierValue;
use crate::model::Weekly;
use crate::model::tier::Tier;
use crate::program::backend::{self, Backend, Found, Problem};
use crate::program::{Op, Term};
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Room for rounding when a tier is held: a millionth, absolute or relative.
const ROOM: f64 = 1e-6;

/// What the rows that hold tiers are called.
const HELD: &str = "held";

/// Holds a tier at a value. One row for each tier; a new value replaces the old.
pub(super) fn hold(weekly: &mut Weekly, tier: Tier, value: f64) {
    let terms = weekly.terms_of(tier);
    if terms.is_empty() {
        return;
    }
    let room = ROOM.max(ROOM * value.abs());
    let (op, right) = if tier.is_cost() { (Op::Le, value + room) } else { (Op::Ge, value - room) };
    weekly.model.rows.retain(|row| row.rule != HELD || row.subject != tier.name());
    weekly.model.demand(HELD, tier.name(), terms, op, right);
}

/// Drops the rows that hold tiers.
pub(super) fn release(weekly: &mut Weekly) {
    weekly.model.rows.retain(|row| row.rule != HELD);
}

/// The relaxation of a week's program.
pub(super) fn relaxed(weekly: &Weekly, goal: &[Term]) -> Result<Found, backend::Nothing> {
    let (backend, model) = (Backend::default(), &weekly.model);
    backend::solve(&Problem { backend, model, goal, relaxed: true, start: None, work: None })
}

/// The tiers of a plan with the bounds that the relaxation proves under its split, each with those before it held.
#[must_use]
pub(crate) fn bounds(request: &Request, split: &Split, reached: &[TierValue]) -> Vec<TierValue> {
    let all = (0..request.candidates.len()).collect();
    let mut weekly = rules::weekly_model(request, split, &all);
    let tiers = Tier::ALL.into_iter().filter_map(|tier| {
        let told = reached.iter().find(|told| told.name == tier.name())?;
        // Values are told to three decimals.
        let value = if tier.is_cost() { told.value + 5e-4 } else { told.value };
        let bound = bound(&weekly, tier, told.value);
        hold(&mut weekly, tier, value);
        let proven = (bound - told.value).abs() < 1e-3;
        Some(TierValue { bound: (bound * 1e3).round() / 1e3, proven, ..told.clone() })
    });
    tiers.collect()
}

/// The relaxation's bound of a tier; nought costs need none.
fn bound(weekly: &Weekly, tier: Tier, reached: f64) -> f64 {
    if tier.is_cost() && reached < 1e-6 {
        return 0.0;
    }
    let found = relaxed(weekly, &weekly.objective_of(tier));
    match tier.is_cost() {
        true => found.map_or(0.0, |found| (-found.objective).max(0.0)),
        false => found.map_or(f64::INFINITY, |found| found.objective.max(reached)),
    }
}
