//! What is passed over because the place's heaviest load for it is light for the client, or its lightest heavy.

use std::sync::Arc;

use super::{better, is_ballistic, learns_first};
use crate::input::catalog::Entry;
use crate::request::dose::{Duty, as_done};
use crate::request::{Barred, Request};
use crate::strength::estimate::Ask;
use crate::strength::ladder::Ladder;
use crate::strength::racks;
use crate::words::{Goal, Kind, LoadKind, Measure, Pattern, Sex, Sides, Standing, Status};

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
    // A weight that is light for two hips is not for one, for who stands firmly on one leg.
    let hips = matches!(entry.pattern, Some(Pattern::Hinge | Pattern::HipExtension));
    let on_one_leg = hips && !is_ballistic(entry) && !request.is_guided() && !request.is_senior();
    let goes_on = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.kind == entry.kind
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && other.is_loaded()
            && if other.sides == entry.sides || other.sides == Sides::Both {
                !ends_early(request, other)
            } else {
                on_one_leg
            }
    };
    usable.iter().find(goes_on).map(better)
}

/// The other end: where the lightest of a place is far more than the client lifts for a short set, a band, the body's own
/// weight or a finer kit does the movement, and presses do the work of arms. Common practice.
pub(super) fn for_less_load(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    if !begins_heavy(request, entry) {
        return None;
    }
    let compound = |one: &Entry| one.kind == Some(Kind::Compound);
    let prime = entry.direct.first();
    let works_on_the_way =
        |other: &Entry| compound(other) && prime.is_some_and(|one| other.indirect.contains(one));
    // Head down, a press is heavier than with any bell.
    let head_down = |other: &Entry| {
        other.pattern == Some(Pattern::VerticalPush) && other.load == LoadKind::Bodyweight
    };
    let lighter = |other: &&&Arc<Entry>| {
        let same = other.pattern == entry.pattern && other.kind == entry.kind;
        (same || !compound(entry) && works_on_the_way(other))
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && !head_down(other)
            && !begins_heavy(request, other)
    };
    usable.iter().find(lighter).map(better)
}

/// Fewer pull-ups or dips than so many in all are too few to leave any.
const FEW: u32 = 6;

/// Whether a pull-up or dip is known for so few that half of them a set train little, and it is neither asked for nor is
/// strength the goal: what helps goes up in steps.
pub(super) fn is_too_few(request: &Request, entry: &Entry) -> bool {
    let profile = &request.profile;
    let known = profile.known_lifts.get(&entry.id).map(|known| known.reps + known.rir);
    let mut wished = profile.exercises.must.iter().chain(&profile.exercises.prefer);
    let heavy = matches!(profile.goal, Goal::Strength | Goal::Power);
    let hung = entry.is_hung() && entry.load == LoadKind::Bodyweight;
    hung && !heavy && known.is_some_and(|known| known < FEW) && !wished.any(|id| *id == entry.id)
}

/// A pull-up or dip of which the client's other lifts say that few go, or many, and of a woman who said nothing, is a test or
/// a warm-up and no set: what goes up in steps does the movement. Common practice.
pub(super) fn for_what_goes(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    /// So many are too easy where sets are shorter.
    const MANY: u32 = 18;
    let profile = &request.profile;
    let own = entry.is_hung() && entry.load == LoadKind::Bodyweight;
    let known = profile.known_lifts.get(&entry.id).map(|known| known.reps + known.rir);
    // Many women do few even after years; where strength or power is the goal, few are what is asked for.
    let heavy = matches!(profile.goal, Goal::Strength | Goal::Power);
    if !own || known.is_some() && !is_too_few(request, entry) {
        return None;
    }
    let unknown = if profile.sex == Some(Sex::Female) && !heavy { FEW - 1 } else { FEW };
    let goes = known.or_else(|| request.known.with_the_body_alone(&entry.id)).unwrap_or(unknown);
    let short = profile.goal != Goal::Endurance;
    let in_steps = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.kind == entry.kind
            && !(other.is_hung() && other.load == LoadKind::Bodyweight)
            && (other.is_loaded() || other.load == LoadKind::Assisted && goes < FEW)
            && other.standing <= Standing::Regular
    };
    usable.iter().find(in_steps).filter(|_| goes < FEW || short && goes >= MANY).map(better)
}

/// Who has trained for years rows a load that goes up in steps where a cable or machine has one, and not the body under a bar.
/// Common practice.
pub(super) fn for_a_row_in_steps(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let strong = request.profile.training_status == Status::Advanced;
    let body = entry.pattern == Some(Pattern::HorizontalPull) && entry.load == LoadKind::Bodyweight;
    let in_steps = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && matches!(other.load, LoadKind::Stack | LoadKind::PlateMachine)
            && other.standing <= Standing::Regular
    };
    usable.iter().find(in_steps).filter(|_| strong && body).map(better)
}

/// What is carried is heavy: where something else of the place weighs twice as much, a ball in the arms is no carry. Common
/// practice.
pub(super) fn for_a_heavy_carry(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    const MUCH_HEAVIER: f64 = 2.0;
    let place = request.profile.equipment.as_ref()?;
    let heaviest = |one: &Entry| {
        racks::ladder(one, place, request.profile.units).map(|ladder| ladder.heaviest())
    };
    // What hangs at one side trains the trunk against it, however much two hands could carry.
    let carried = entry.pattern == Some(Pattern::Carry) && entry.sides != Sides::Each;
    let own = heaviest(entry).filter(|_| carried)?;
    let heavier = |other: &&&Arc<Entry>| {
        let usual = other.pattern == entry.pattern && other.standing <= Standing::Regular;
        usual && heaviest(other).is_some_and(|other| other >= MUCH_HEAVIER * own)
    };
    usable.iter().find(heavier).filter(|_| !request.is_guided()).map(better)
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
    let found = measured(request, entry, u32::MAX);
    found.is_some_and(|(ladder, expected)| ladder.ends_early(expected))
}

/// Whether the place's lightest load for an exercise is far over what the client lifts for a short set.
fn begins_heavy(request: &Request, entry: &Entry) -> bool {
    const SHORT_SET: u32 = 6;
    const FAR_OVER: f64 = 1.6;
    let known = request.profile.known_lifts.contains_key(&entry.id);
    // Small work has no short sets.
    let most = if entry.kind == Some(Kind::Compound) { SHORT_SET } else { u32::MAX };
    let found = measured(request, entry, most).filter(|_| !known && entry.is_loaded());
    found.is_some_and(|(ladder, expected)| ladder.lightest() > FAR_OVER * expected)
}

/// The loads of a place for an exercise that is done slowly, and what the client is expected to lift for a set as it is
/// asked for, of so many repetitions at most.
fn measured(request: &Request, entry: &Entry, most: u32) -> Option<(Ladder, f64)> {
    let profile = &request.profile;
    let counts = entry.measure == Measure::Reps && Duty::of(entry) != Duty::Explosive;
    let place = profile.equipment.as_ref().filter(|_| counts)?;
    let ladder = racks::ladder(entry, place, profile.units)?;
    let dose = as_done(profile, entry, None);
    let reps = dose.span(entry).aim.min(most);
    let ask = Ask { reps, rir: dose.rir, most_percent: None };
    Some((ladder, request.known.expected(entry, ask)?))
}
