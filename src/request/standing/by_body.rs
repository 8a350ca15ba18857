//! What is passed over because the whole body hangs from the arms: whether a client lifts it is not known beforehand.

use std::sync::Arc;

use super::{better, grade};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::request::{Barred, Request, screening};
use crate::words::{Goal, Kind, Kit, LoadKind, Pattern, Sex, Standing, Status, Stress};

/// Whether nobody can say that the client pulls the whole body up often enough for a set: most women below advanced do it
/// a few times or not yet, and so do most women from 60 on, most men from 65 on and most who are heavy for their height.
/// Common practice.
fn needs_help(request: &Request) -> bool {
    const LATER: u32 = 60;
    let profile = &request.profile;
    let later = screening::age(profile).is_some_and(|age| age >= LATER);
    let trained = profile.training_status == Status::Advanced;
    match profile.sex {
        Some(Sex::Female) => !trained || later,
        _ => (request.is_senior() || is_heavy(profile)) && !trained,
    }
}

/// Whether a body is much to pull up: 28 kg and more to the square of its height in metres, or 100 kg where that is not told.
fn is_heavy(profile: &Profile) -> bool {
    const KG_PER_M2: f64 = 28.0;
    const KG: f64 = 100.0;
    let most = profile.height_cm.map_or(KG, |cm| KG_PER_M2 * (cm / 100.0).powi(2));
    profile.body_mass_kg.is_some_and(|mass| mass >= most)
}

/// Whether a known pulldown is too far under the body's own mass for sets of pull-ups. Common practice.
fn pulls_less_than_its_body(request: &Request, entry: &Entry) -> bool {
    const ENOUGH: f64 = 0.75;
    let profile = &request.profile;
    let pulldown = |id: &str| {
        request.entries.get(id).is_some_and(|one| {
            one.pattern == Some(Pattern::VerticalPull) && one.load == LoadKind::Stack
        })
    };
    let known = profile.known_lifts.iter().filter(|(id, _)| pulldown(id));
    let most = known.map(|(_, lift)| lift.load).reduce(f64::max);
    let light = most.zip(profile.body_mass_kg).is_some_and(|(load, mass)| load < ENOUGH * mass);
    entry.pattern == Some(Pattern::VerticalPull) && light
}

/// A pull-up or dip of which no number is known waits for a form that can be made easier, where there is one; for who
/// trains to last, a pulldown holds the repetitions that a pull-up does not. Common practice.
pub(super) fn for_a_form_in_steps(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let unknown = !request.profile.known_lifts.contains_key(&entry.id);
    let own = entry.is_hung() && entry.load == LoadKind::Bodyweight && unknown;
    let lasts = request.profile.goal == Goal::Endurance;
    let in_steps = |other: &&&Arc<Entry>| {
        let helped = needs_help(request) && other.load == LoadKind::Assisted;
        let stack = matches!(other.load, LoadKind::Stack | LoadKind::PlateMachine);
        other.pattern == entry.pattern
            && other.kind == Some(Kind::Compound)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && (helped || stack)
    };
    let wanted = own && (needs_help(request) || lasts || pulls_less_than_its_body(request, entry));
    // Head down, a press is as much of the body as a pull-up; who learns presses with the head up.
    let learns = request.is_guided();
    let head_down = entry.pattern == Some(Pattern::VerticalPush)
        && entry.load == LoadKind::Bodyweight
        && unknown
        && (learns || entry.level > 1 && needs_help(request));
    let pressed = |other: &&&Arc<Entry>| {
        let level = learns && other.pattern == Some(Pattern::HorizontalPush);
        (other.pattern == entry.pattern && other.load != LoadKind::Bodyweight || level)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    let found = usable.iter().find(in_steps).filter(|_| wanted);
    found.or_else(|| usable.iter().find(pressed).filter(|_| head_down)).map(better)
}

/// Help is for who cannot do the lift yet.
pub(super) fn for_the_full_form(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let full = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.load != LoadKind::Assisted
            && other.standing == Standing::Staple
            && other.is_hung()
    };
    usable
        .iter()
        .find(full)
        .filter(|_| {
            entry.load == LoadKind::Assisted && !request.is_guided() && !needs_help(request)
        })
        .map(better)
}

/// A body that is heavy and new to bars hangs on no band: it is pulled to, sitting or kneeling, until the arms are stronger.
/// Common practice.
pub(super) fn for_what_no_band_carries(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    const KG: f64 = 95.0;
    let profile = &request.profile;
    let heavy = request.is_guided() && profile.body_mass_kg.is_some_and(|mass| mass >= KG);
    let banded = entry.load == LoadKind::Assisted
        && entry.needs.iter().flatten().any(|kit| *kit == Kit::ResistanceBand);
    let hangs = banded || entry.is_hung() && entry.load == LoadKind::Bodyweight;
    let unknown = !profile.known_lifts.contains_key(&entry.id);
    let vertical = entry.pattern == Some(Pattern::VerticalPull);
    let other = |other: &&&Arc<Entry>| {
        let stays = !other.is_hung() && other.load != LoadKind::Assisted;
        other.pattern == entry.pattern && other.kind == Some(Kind::Compound) && stays
    };
    let wanted = heavy && vertical && hangs && unknown;
    usable.iter().find(other).filter(|_| wanted).map(better)
}

/// Whether an exercise is done lying down or on the knees.
fn is_on_the_floor(entry: &Entry) -> bool {
    const DOWN: [Stress; 3] = [Stress::Prone, Stress::Supine, Stress::Kneeling];
    DOWN.iter().any(|stress| grade(entry, *stress).is_some())
}

/// Whether a client would rather not get down to the floor: three exercises there are disliked, and more would be like them.
pub(crate) fn keeps_off_the_floor(request: &Request) -> bool {
    const MANY: usize = 3;
    let wishes = &request.profile.exercises;
    let unwanted = wishes.avoid.iter().chain(&wishes.never);
    let entries = unwanted.filter_map(|id| request.entries.get(id));
    entries.filter(|entry| is_on_the_floor(entry)).count() >= MANY
}

/// Who dislikes the floor holds the trunk on the feet. Common practice.
pub(super) fn for_the_feet(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let trunk = |entry: &Entry| entry.pattern.is_some_and(Pattern::is_trunk);
    let down = keeps_off_the_floor(request) && trunk(entry) && is_on_the_floor(entry);
    let standing = |other: &&&Arc<Entry>| trunk(other) && !is_on_the_floor(other);
    usable.iter().find(standing).filter(|_| down).map(better)
}

/// In pregnancy the front of the trunk is neither stretched long nor bent against a load: it holds against a turn or to the side,
/// or carries. Common practice; what else is to be left out is the clinician's to say.
pub(super) fn for_a_trunk_that_makes_room(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let said = request.profile.screening.as_ref();
    let pregnant = said.is_some_and(|said| said.pregnant == Some(true));
    let rolls = entry.needs.iter().flatten().any(|kit| *kit == Kit::AbWheel);
    let stretched = entry.pattern == Some(Pattern::AntiExtension) && (rolls || entry.level > 1);
    let strains = stretched || entry.pattern == Some(Pattern::TrunkFlexion);
    let holds = |other: &&&Arc<Entry>| {
        let kind = matches!(
            other.pattern,
            Some(Pattern::AntiRotation | Pattern::AntiLateralFlexion | Pattern::Carry)
        );
        kind && other.standing <= Standing::Regular
    };
    usable.iter().find(holds).filter(|_| pregnant && strains).map(better)
}

/// Nor does the belly lie on a pad: a row with the chest on one is passed over beside another that is held up by no belly.
/// Common practice.
pub(super) fn for_a_free_belly(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let said = request.profile.screening.as_ref();
    let pregnant = said.is_some_and(|said| said.pregnant == Some(true));
    let on_a_pad = |one: &Entry| {
        let machine = one.needs.iter().flatten().any(|kit| *kit == Kit::RowMachine);
        machine || one.id.starts_with("chest-supported")
    };
    let free = |other: &&&Arc<Entry>| {
        let row = other.pattern == Some(Pattern::HorizontalPull);
        row && !on_a_pad(other) && other.standing <= Standing::Regular
    };
    usable.iter().find(free).filter(|_| pregnant && on_a_pad(entry)).map(better)
}
