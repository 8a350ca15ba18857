//! The weekly model as a file, so that any other solver can be put beside ours.

use super::problem::{hold_coverage, hold_ranges};
use crate::input::plan::Tier;
use crate::program::export::free_mps;
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Values in a plan are told to three decimals; this much may be hidden.
const ROUNDED_OFF: f64 = 5e-4;

/// The model of a split with every usable (exercise, day) as a free column, tiers 1 and 2 held at the values
/// reached, and tier 3 as the goal.
#[must_use]
pub fn weekly_mps(request: &Request, split: &Split, reached: &[Tier]) -> String {
    let all = (0..request.candidates.len()).collect();
    let mut weekly = rules::weekly_model(request, split, &all);
    if let [coverage, ranges, ..] = reached {
        hold_coverage(&mut weekly, coverage.value + ROUNDED_OFF);
        hold_ranges(&mut weekly, ranges.value + ROUNDED_OFF);
    }
    free_mps(&weekly.model, &weekly.view, &request.profile.client)
}
