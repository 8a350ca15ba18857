//! What is passed over because of what the client's body had better not do: what a limit allows in its light form only is
//! done in forms that are light by nature, whatever a place has.

use std::sync::Arc;

use super::{better, is_lift};
use crate::input::catalog::Entry;
use crate::input::profile::{Limit, Profile};
use crate::request::candidate::grade;
use crate::request::completing::has_a_touchy_shoulder;
use crate::request::{Barred, Request};
use crate::words::{Goal, Grade, LoadKind, Muscle, Pattern, Standing, Stress};

/// Whether a limit leaves a stress its light form only.
fn is_light_only(request: &Request, stress: Stress) -> bool {
    let light = |limit: &Limit| matches!(limit, Limit::Graded(one) if one.tag == stress && one.allow == Grade::Light);
    request.profile.limits.iter().any(light)
}

/// Whether an exercise may stand in for another of a movement.
pub(super) fn is_usual(other: &Entry, pattern: Pattern) -> bool {
    other.pattern == Some(pattern) && matches!(other.standing, Standing::Staple | Standing::Regular)
}

/// A bar is loaded as far as the client is strong, so that little of a stress becomes much: a back that is to carry or
/// hold little squats, hinges and presses with a machine, a cable or weights in the hands. Common practice.
pub(super) fn for_a_light_back(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let spared = [Stress::SpinalCompression, Stress::SpinalShear];
    let minds =
        |stress: &Stress| is_light_only(request, *stress) && grade(entry, *stress).is_some();
    let bar = |one: &Entry| one.load == LoadKind::BarTotal;
    let by_nature =
        |other: &&&Arc<Entry>| is_usual(other, pattern) && other.is_loaded() && !bar(other);
    let found = usable.iter().find(by_nature);
    found.filter(|_| bar(entry) && spared.iter().any(minds)).map(better)
}

/// Knees that are to bend little step up, or lunge with the body's own weight: with weights in the hands a lunge that
/// comes near the floor is deep by the last repetition. Common practice.
pub(super) fn for_light_knees(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let minds = is_light_only(request, Stress::DeepKneeFlexion);
    let deep = |one: &Entry| one.is_loaded() && grade(one, Stress::Kneeling).is_some();
    let lunge = entry.pattern == Some(Pattern::Lunge) && deep(entry);
    let by_nature = |other: &&&Arc<Entry>| is_usual(other, Pattern::Lunge) && !deep(other);
    usable.iter().find(by_nature).filter(|_| minds && lunge).map(better)
}

/// Whether an exercise is a lunge with the body's own weight for knees that are to bend little: no load does its work.
pub(super) fn is_light_lunge(request: &Request, entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::Lunge) && is_light_only(request, Stress::DeepKneeFlexion)
}

fn limits(profile: &Profile, stress: Stress) -> bool {
    profile.limits.iter().any(|one| one.stress() == stress)
}

/// Whether a client's shoulder has limits.
fn has_a_limited_shoulder(profile: &Profile) -> bool {
    limits(profile, Stress::Overhead) || limits(profile, Stress::ShoulderExtensionEndRange)
}

/// Whether no sets for the side delts are asked for, as the arm is not to go up, or far back where size is not the goal.
pub(crate) fn spares_raises(profile: &Profile) -> bool {
    let builds = profile.goal == Goal::Hypertrophy;
    limits(profile, Stress::Overhead) || has_a_limited_shoulder(profile) && !builds
}

/// A shoulder that minds its limits neither holds a bar in front of the neck nor is led by one over the chest: two hands
/// that turn as they like, a machine or the body's own weight let it choose its way. Common practice.
pub(super) fn for_a_touchy_shoulder(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    if !has_a_limited_shoulder(&request.profile) {
        return None;
    }
    let end_range = limits(&request.profile, Stress::ShoulderExtensionEndRange);
    let bar = entry.load == LoadKind::BarTotal;
    let rack = |one: &Entry| {
        one.load == LoadKind::BarTotal && grade(one, Stress::WristExtension).is_some()
    };
    let squat = entry.pattern == Some(Pattern::Squat) && rack(entry);
    // Who begins learns no press with a bar on a shoulder that hurts.
    let sore = request.is_guided() && has_a_touchy_shoulder(request);
    let press = entry.pattern == Some(Pattern::HorizontalPush) && bar && (end_range || sore);
    let free_squat =
        |other: &&&Arc<Entry>| is_usual(other, Pattern::Squat) && other.is_loaded() && !rack(other);
    let free_press = |other: &&&Arc<Entry>| {
        let own =
            matches!(other.load, LoadKind::Stack | LoadKind::PerHand | LoadKind::SingleImplement);
        is_usual(other, Pattern::HorizontalPush) && own
    };
    let squats = usable.iter().find(free_squat).filter(|_| squat);
    squats.or_else(|| usable.iter().find(free_press).filter(|_| press)).map(better)
}

/// Arms that are lifted to the side under a load are what a shoulder with limits complains of: unless more is wished for the
/// side delts, it is worked to the back. Common practice.
pub(super) fn for_arms_kept_low(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let raised = entry.pattern == Some(Pattern::ShoulderAbduction);
    let spared = spares_raises(&request.profile) && !request.wants_more(Muscle::SideDelts);
    let behind = |other: &&&Arc<Entry>| is_usual(other, Pattern::ShoulderHorizontalAbduction);
    usable.iter().find(behind).filter(|_| raised && spared).map(better)
}

/// Nor does a shoulder with limits hold the body on its side: the trunk has other ways. Common practice.
pub(super) fn for_a_shoulder_that_is_spared(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let on_the_arm =
        entry.pattern == Some(Pattern::AntiLateralFlexion) && entry.load == LoadKind::Bodyweight;
    let spared = has_a_limited_shoulder(&request.profile);
    let stands = |other: &&&Arc<Entry>| {
        is_usual(other, Pattern::AntiRotation) || is_usual(other, Pattern::Carry)
    };
    usable.iter().find(stands).filter(|_| on_the_arm && spared).map(better)
}

/// Shoulders that should get less in front and at the sides are pressed over no head for size: the chest's presses have
/// their share of them. Common practice.
pub(super) fn for_shoulders_that_rest(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let overhead = entry.pattern == Some(Pattern::VerticalPush);
    let less = [Muscle::FrontDelts, Muscle::SideDelts].iter().all(|one| request.wants_less(*one));
    let sized = request.profile.goal == Goal::Hypertrophy;
    let lying = |other: &&&Arc<Entry>| is_usual(other, Pattern::HorizontalPush);
    usable.iter().find(lying).filter(|_| overhead && less && sized).map(better)
}
