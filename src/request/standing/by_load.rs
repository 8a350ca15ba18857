//! What is passed over because the place's heaviest load for it is light for the client.

use std::sync::Arc;

use super::{better, is_loaded, learns_first};
use crate::input::catalog::Entry;
use crate::request::dose::{Duty, as_done};
use crate::request::{Barred, Request};
use crate::strength::estimate::Ask;
use crate::strength::racks;
use crate::words::{LoadKind, Measure, Sides, Standing};

/// Dumbbells up to ten kilograms are no hinge for legs that press ninety: a set that is to leave two in reserve wants kit
/// that goes so far, where there is some for the same movement.
pub(super) fn for_more_load(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    if learns_first(request, entry) || !ends_early(request, entry) {
        return None;
    }
    let goes_on = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.kind == entry.kind
            && (other.sides == entry.sides || other.sides == Sides::Both)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && is_loaded(other)
            && !ends_early(request, other)
    };
    usable.iter().find(goes_on).map(better)
}

/// Two hands want two alike: where the place has one of each size, one hand carries. Common practice.
pub(super) fn for_one_of_each(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let place = request.profile.equipment.as_ref()?;
    let has_load = |other: &Entry| {
        let ladder = racks::ladder(other, place, request.profile.units);
        ladder.is_some_and(|ladder| ladder.at_most(f64::INFINITY).is_some())
    };
    if entry.load != LoadKind::PerHand || has_load(entry) {
        return None;
    }
    let by_one = |other: &&&Arc<Entry>| other.pattern == entry.pattern && has_load(other);
    usable.iter().find(by_one).map(better)
}

/// Whether the place's heaviest load for an exercise is light for the client.
fn ends_early(request: &Request, entry: &Entry) -> bool {
    let profile = &request.profile;
    let counts = entry.measure == Measure::Reps && Duty::of(entry) != Duty::Explosive;
    let Some(place) = profile.equipment.as_ref().filter(|_| counts) else { return false };
    let Some(ladder) = racks::ladder(entry, place, profile.units) else { return false };
    let dose = as_done(profile, entry, None);
    let ask = Ask { reps: dose.span(entry).aim, rir: dose.rir, most_percent: None };
    let expected = request.known.expected(entry, ask);
    expected.is_some_and(|expected| ladder.ends_early(expected))
}
