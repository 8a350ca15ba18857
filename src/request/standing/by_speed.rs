//! What is passed over where power is the goal: presses that the legs have no part in, and the like of a known clean.

use std::sync::Arc;

use super::{better, is_fast_bar, leans_forward};
use crate::input::catalog::Entry;
use crate::request::{Barred, Request};
use crate::words::{Goal, Kit, LoadKind, Muscle, Pattern, Side, Status};

/// Whether the legs drive a press overhead.
fn is_driven(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::VerticalPush) && entry.indirect.contains(&Muscle::Quads)
}

/// Whether a press overhead with the bar is one for speed, for who is past the first steps.
pub(crate) fn is_fast_press(request: &Request, entry: &Entry) -> bool {
    let fast = request.profile.goal == Goal::Power && !request.is_guided();
    fast && is_driven(entry) && entry.load == LoadKind::BarTotal
}

/// Who is past the first steps and trains to be fast presses the bar overhead with a push of the legs. Common practice.
pub(super) fn for_legs_that_drive(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let strict = entry.pattern == Some(Pattern::VerticalPush)
        && entry.load == LoadKind::BarTotal
        && !leans_forward(entry)
        && !is_driven(entry);
    let driven = |other: &&&Arc<Entry>| is_fast_press(request, other);
    usable.iter().find(driven).filter(|_| strict).map(better)
}

/// Who learns to be fast keeps the bar for the legs, and presses dumbbells. Common practice.
pub(super) fn for_a_bar_on_the_legs(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let profile = &request.profile;
    let learns = profile.goal == Goal::Power && profile.training_status == Status::Novice;
    let presses = entry.load == LoadKind::BarTotal
        && entry.pattern.and_then(Pattern::side) == Some(Side::Push);
    let held = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.main
            && other.is_loaded()
            && other.needs.iter().flatten().any(|kit| *kit == Kit::Dumbbells)
    };
    usable.iter().find(held).filter(|_| learns && presses).map(better)
}

/// Who knows one form of a clean comes back to it, heavier once and lighter once: its like would begin far below. Common
/// practice.
pub(super) fn for_the_known_clean(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let fast = request.profile.goal == Goal::Power && is_fast_bar(entry);
    let known = |other: &&&Arc<Entry>| {
        let done = request.profile.known_lifts.contains_key(&other.id);
        done && is_fast_bar(other) && other.family() == entry.family()
    };
    usable.iter().find(known).filter(|_| fast).map(better)
}
