//! What is passed over for who begins at 65 or later: both feet stay on the ground, nothing goes deep, and bars wait.

use std::sync::Arc;

use super::{better, by_kit, is_ballistic, is_bent_over, is_proper};
use crate::input::catalog::Entry;
use crate::input::profile::Limit;
use crate::request::candidate::grade;
use crate::request::{Barred, Request};
use crate::words::{Goal, Kind, Kit, LoadKind, Measure, Pattern, Sides, Standing, Status, Stress};

/// From 65 on a beginner rows with a support, a band or a machine: what is bent over asks of a back what it is yet to
/// learn. Common practice.
pub(super) fn for_a_held_back(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let novice = request.is_older_beginner();
    let held = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && !is_bent_over(other)
    };
    usable.iter().find(held).filter(|_| novice && is_bent_over(entry)).map(better)
}

/// From 65 on a beginner learns to squat and hinge with weights in the hands or a machine, not with a bar. Common practice.
pub(super) fn for_older_beginners(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let novice = request.is_older_beginner();
    let legs = matches!(entry.pattern, Some(Pattern::Squat | Pattern::Hinge));
    let simpler = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.standing == Standing::Staple
            && other.is_loaded()
            && other.load != LoadKind::BarTotal
    };
    let bar = novice && legs && entry.load == LoadKind::BarTotal;
    usable.iter().find(simpler).filter(|_| bar).map(better)
}

/// From 65 on a hinge is done slowly, unless the client has swung weights for years. Common practice.
pub(super) fn for_a_slow_hinge(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let used_to_it = request.profile.training_status == Status::Advanced;
    let hinge = |one: &Entry| one.pattern == Some(Pattern::Hinge);
    let swung = hinge(entry) && is_ballistic(entry) && request.is_senior() && !used_to_it;
    let slow = |other: &&&Arc<Entry>| {
        hinge(other) && !is_ballistic(other) && other.standing <= Standing::Regular
    };
    usable.iter().find(slow).filter(|_| swung).map(better)
}

/// From 65 on, and after years of sitting, a beginner steps up or squats behind a support rather than lunges: a long step
/// wants balance that is yet to come. Common practice.
pub(super) fn for_a_steady_stance(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let careful = request.is_older_beginner() || request.starts_from_rest();
    let one_leg = entry.pattern == Some(Pattern::Hinge) && entry.sides == Sides::Each;
    let both =
        |other: &&&Arc<Entry>| is_proper(other, Pattern::Hinge) && other.sides == Sides::Both;
    if careful && one_leg {
        return usable.iter().find(both).map(better);
    }
    let lunge = entry.pattern == Some(Pattern::Lunge) && !is_steady(entry);
    let steady = |other: &&&Arc<Entry>| {
        other.pattern == Some(Pattern::Lunge)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && is_steady(other)
    };
    usable.iter().find(steady).filter(|_| careful && lunge).map(better)
}

/// One leg at a time without a weight, a hand on something or a foot on a step.
fn is_steady(entry: &Entry) -> bool {
    let bare = entry.load == LoadKind::Bodyweight;
    bare && grade(entry, Stress::Kneeling).is_none()
}

/// From 65 on a beginner without weights gets up from a chair, which says how deep and catches. Common practice.
pub(super) fn for_getting_up(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let squat = entry.pattern == Some(Pattern::Squat) && !entry.is_loaded();
    let from_a_seat = |other: &&&Arc<Entry>| other.id == "sit-to-stand";
    let novice = request.is_older_beginner();
    usable
        .iter()
        .find(from_a_seat)
        .filter(|seat| novice && squat && seat.id != entry.id)
        .map(better)
}

/// From 65 on, and after years of sitting, a beginner squats to a seat, which says how deep and catches. Common practice.
pub(super) fn for_a_seat(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let novice = request.is_older_beginner() || request.starts_from_rest();
    let squat = entry.pattern == Some(Pattern::Squat) && entry.is_loaded();
    let deep = squat && by_kit::is_in_hands(entry) && bends_deep(entry);
    let to_a_seat = |other: &&&Arc<Entry>| {
        is_proper(other, Pattern::Squat) && by_kit::is_in_hands(other) && !bends_deep(other)
    };
    usable.iter().find(to_a_seat).filter(|_| novice && deep).map(better)
}

/// A beginner holds the side plank from the knees first, after years of sitting every plank, and from 65 on all trunk work
/// has its easier form first: nothing is held over the face. Common practice.
pub(super) fn for_an_easier_hold(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let trunk = entry.pattern.is_some_and(Pattern::is_trunk);
    let hold = trunk && entry.measure == Measure::Seconds;
    let learns = request.profile.training_status == Status::Novice;
    let strong = request.profile.goal.builds() || request.profile.goal == Goal::Power;
    let sideways = entry.pattern == Some(Pattern::AntiLateralFlexion) && learns && !strong;
    let easier = |other: &&&Arc<Entry>| entry.easier.contains(&other.id);
    let rests = hold && request.starts_from_rest();
    let wanted = hold && sideways || rests || trunk && request.is_older_beginner();
    usable.iter().find(easier).filter(|_| wanted).map(better)
}

/// Who must not kneel, and from 65 on or without lying down either, trains the trunk and the hips standing or sitting: the way down to
/// a plank and up again goes over the knees. Common practice.
pub(super) fn for_trunk_work_off_the_floor(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let barred = |stress: Stress| request.profile.limits.contains(&Limit::Whole(stress));
    // Where the knees may touch down lightly, the easy holds from the knees are out as well.
    let kneels = request.profile.limits.iter().any(|limit| limit.stress() == Stress::Kneeling);
    let lies = barred(Stress::Prone) || barred(Stress::Supine);
    let stays_up = kneels && request.is_senior() || barred(Stress::Kneeling) && lies;
    let is_trunk = |entry: &Entry| entry.pattern.is_some_and(Pattern::is_trunk);
    let is_lying = |entry: &Entry| {
        entry.load == LoadKind::Bodyweight || grade(entry, Stress::Supine).is_some()
    };
    let on_the_floor = is_trunk(entry) && is_lying(entry);
    let up = |other: &&&Arc<Entry>| {
        is_trunk(other)
            && !is_lying(other)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    // Nor does the hip work lying on the side where a band does for the legs.
    let on_the_side = is_side_lying(entry);
    let sitting = |other: &&&Arc<Entry>| {
        matches!(other.pattern, Some(Pattern::HipAbduction | Pattern::KneeFlexion))
            && other.load != LoadKind::Bodyweight
    };
    let of_the_trunk = usable.iter().find(up).filter(|_| on_the_floor);
    let of_the_hip = usable.iter().find(sitting).filter(|_| on_the_side);
    of_the_trunk.or(of_the_hip).filter(|_| stays_up).map(better)
}

/// Whether the hip is moved to the side lying on the floor, without a load.
fn is_side_lying(entry: &Entry) -> bool {
    matches!(entry.pattern, Some(Pattern::HipAbduction | Pattern::HipAdduction))
        && entry.load == LoadKind::Bodyweight
}

/// Who begins at 65 or later does not roll a bar over the legs: a bridge, a dumbbell on the hips or a cable will do. Common
/// practice.
pub(super) fn for_a_thrust_without_the_bar(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let thrusts = |one: &Entry| {
        one.pattern == Some(Pattern::HipExtension) && one.kind == Some(Kind::Compound)
    };
    let with_the_bar = thrusts(entry) && entry.load == LoadKind::BarTotal;
    let other = |other: &&&Arc<Entry>| thrusts(other) && other.load != LoadKind::BarTotal;
    usable.iter().find(other).filter(|_| request.is_older_beginner() && with_the_bar).map(better)
}

/// From 65 on who must not kneel pushes the hips standing: the way down to a thrust or bridge goes over the knees. Common
/// practice.
pub(super) fn for_hips_pushed_standing(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let kneeling = request.profile.limits.contains(&Limit::Whole(Stress::Kneeling));
    let stays_up = kneeling && request.is_senior();
    let lies =
        entry.pattern == Some(Pattern::HipExtension) && grade(entry, Stress::Supine).is_some();
    let standing = |other: &&&Arc<Entry>| {
        matches!(other.pattern, Some(Pattern::Hinge | Pattern::HipExtension))
            && grade(other, Stress::Supine).is_none()
            && other.standing <= Standing::Regular
    };
    usable.iter().find(standing).filter(|_| stays_up && lies).map(better)
}

fn bends_deep(entry: &Entry) -> bool {
    grade(entry, Stress::DeepKneeFlexion).is_some()
}

/// From 65 on a beginner presses and rows on a machine where there is one: it holds the way, goes up in small steps and needs
/// no getting into place. Common practice.
pub(super) fn for_a_held_way(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let moves = entry.pattern.filter(|pattern| pattern.press_or_row().is_some())?;
    let by_hand = by_kit::is_in_hands(entry) && request.is_older_beginner();
    let held = |other: &&&Arc<Entry>| {
        other.pattern == Some(moves)
            && other.standing <= Standing::Regular
            && matches!(other.load, LoadKind::Stack | LoadKind::PlateMachine)
    };
    usable.iter().find(held).filter(|_| by_hand).map(better)
}

/// From 65 on the hip is pushed or pulled with the head up: a bench for back extensions is hard to get into and out of.
/// Common practice.
pub(super) fn for_the_head_up(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let bench =
        |one: &Entry| one.needs.iter().all(|needs| needs.contains(&Kit::BackExtensionBench));
    let used_to_it = request.profile.training_status == Status::Advanced;
    let hips = |one: &Entry| matches!(one.pattern, Some(Pattern::HipExtension | Pattern::Hinge));
    let upright =
        |other: &&&Arc<Entry>| hips(other) && !bench(other) && other.standing <= Standing::Regular;
    let head_down = hips(entry) && bench(entry) && request.is_senior() && !used_to_it;
    usable.iter().find(upright).filter(|_| head_down).map(better)
}

/// From 65 on nobody steps out of a stretched band under a bar, where something is pulled down instead. Common practice.
pub(super) fn for_a_simple_pull(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let banded = entry.needs.iter().flatten().any(|kit| *kit == Kit::ResistanceBand);
    let stretched = request.is_senior() && entry.load == LoadKind::Assisted && banded;
    let other = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.load != LoadKind::Assisted
            && !other.is_hung()
            && other.standing <= Standing::Regular
    };
    usable.iter().find(other).filter(|_| stretched).map(better)
}
