//! The weekly model as a file, so that any other solver can be put beside ours.

use super::relaxation::hold;
use crate::input::plan::TierValue;
use crate::model::tier::Tier;
use crate::program::export::free_mps;
use crate::request::Request;
use crate::rules;
use crate::split::Split;

/// Values in a plan are told to three decimals; this much may be hidden.
const ROUNDED_OFF: f64 = 5e-4;

/// The model of a split with every usable (exercise, day) as a free column, tiers 1 and 2 held at the values
/// reached, and tier 3 as the goal.
#[must_use]
pub(crate) fn weekly_mps(request: &Request, split: &Split, reached: &[TierValue]) -> String {
    let all = (0..request.candidates.len()).collect();
    let mut weekly = rules::weekly_model(request, split, &all);
    for tier in [Tier::Coverage, Tier::Ranges] {
        if let Some(reached) = reached.iter().find(|one| one.name == tier.name()) {
            hold(&mut weekly, tier, reached.value + ROUNDED_OFF);
        }
    }
    free_mps(&weekly.model, &weekly.terms_of(Tier::View), &request.profile.client)
}
