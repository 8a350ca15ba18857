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

/// Whether a press overhead with the bar or two dumbbells is one for speed, for who is past the first steps.
pub(crate) fn is_fast_press(request: &Request, entry: &Entry) -> bool {
    let fast = request.profile.goal == Goal::Power && !request.is_guided();
    fast && is_driven(entry) && matches!(entry.load, LoadKind::BarTotal | LoadKind::PerHand)
}

/// Who is past the first steps and trains to be fast presses overhead with a push of the legs, or along a bar with one end on
/// the floor. Common practice.
pub(super) fn for_legs_that_drive(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let fast = request.profile.goal == Goal::Power && !request.is_guided();
    let presses = |entry: &Entry| entry.pattern == Some(Pattern::VerticalPush);
    let strict =
        fast && presses(entry) && entry.is_loaded() && !leans_forward(entry) && !is_driven(entry);
    let quick = |other: &&&Arc<Entry>| {
        is_fast_press(request, other)
            || presses(other) && leans_forward(other) && other.load == LoadKind::BarTotal
    };
    usable.iter().find(quick).filter(|_| strict).map(better)
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

/// Who is fast holds the trunk against the turn and the arch, and bends it against no load. Common practice.
pub(super) fn for_a_trunk_that_passes_on(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let bends = request.profile.goal == Goal::Power
        && entry.pattern == Some(Pattern::TrunkFlexion)
        && entry.load != LoadKind::Bodyweight;
    let holds = |other: &&&Arc<Entry>| {
        matches!(other.pattern, Some(Pattern::AntiRotation | Pattern::AntiExtension))
    };
    usable.iter().find(holds).filter(|_| bends).map(better)
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
