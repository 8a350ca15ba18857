//! What is passed over because of who trains: wishes, age, experience and goal.

use std::sync::Arc;

use super::by_kit::is_in_hands;
use super::by_limit::is_usual;
use super::by_speed::is_fast_press;
use super::{
    better, does_the_job, is_ballistic, is_lift, is_next_rung, is_proper, leans_forward, parents,
};
use crate::input::catalog::Entry;
use crate::input::profile::Limit;
use crate::request::candidate::{Station, grade};
use crate::request::dose::takes_few_reps;
use crate::request::eligibility::{is_named, kit_for};
use crate::request::{Barred, Request};
use crate::words::{Goal, Kind, LoadKind, Measure, Pattern, Side, Standing, Status, Stress};

pub(super) fn variant_of_never(
    request: &Request,
    _usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let never = &request.profile.exercises.never;
    // A squat to a seat is the same squat, and a plank with a weight or a long lever the same plank.
    let of_family = |pattern: Pattern| pattern == Pattern::Squat || pattern.is_trunk();
    let same = entry.family.as_deref().filter(|_| entry.pattern.is_some_and(of_family));
    let parent = parents(request, entry).chain(same).find(|id| never.iter().any(|one| one == id));
    let parent = parent.or_else(|| {
        never.iter().map(String::as_str).find(|one| is_form_by_name(request, entry, one))
    });
    let parent = parent.or_else(|| never_overhead(request).filter(|_| goes_overhead(entry)))?;
    Some(Barred::VariantOfNever(parent.to_owned()))
}

/// Whether an exercise presses straight overhead.
fn goes_overhead(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::VerticalPush) && !leans_forward(entry)
}

/// The first of several presses overhead that the client never does: who names two means all of them.
fn never_overhead(request: &Request) -> Option<&str> {
    let never = &request.profile.exercises.never;
    let overhead =
        |id: &&String| request.entries.get(*id).is_some_and(|entry| goes_overhead(entry));
    let mut named = never.iter().filter(overhead);
    named.next().filter(|_| named.next().is_some()).map(String::as_str)
}

/// Whether an exercise has another one's name with a word before it and the same movement: who never bench presses does
/// so with dumbbells neither. A hinge is named after the deadlift, whatever it does to the back.
fn is_form_by_name(request: &Request, entry: &Entry, id: &str) -> bool {
    let named = entry.id.strip_suffix(id).is_some_and(|before| before.ends_with('-'));
    let same = request.entries.get(id).is_some_and(|other| other.pattern == entry.pattern);
    named && same && entry.pattern != Some(Pattern::Hinge)
}

/// Sitting down to a bench or chair is a squat for older or limited knees and for who has long sat; others squat without it.
pub(super) fn for_the_free_squat(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let to_a_seat = entry.standing == Standing::Staple && entry.pattern == Some(Pattern::Squat);
    let sits = request.is_senior() || request.starts_from_rest();
    let family = entry.family.as_deref().filter(|_| to_a_seat && !sits)?;
    let free = |other: &&&Arc<Entry>| other.id == family && is_proper(other, Pattern::Squat);
    usable.iter().find(free).filter(|free| free.id != entry.id).map(better)
}

/// For who has trained, a hinge with a weight that hangs is heavy, whatever else it spares: a back that minds loads or
/// bending takes one that pulls from behind or a thrust instead, and rows with the chest or a hand on something. Common practice.
pub(super) fn for_a_touchy_back(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let touchy = request.minds_its_back() && request.profile.training_status != Status::Novice;
    let hinge = |one: &Entry| one.pattern == Some(Pattern::Hinge);
    let bends = |one: &Entry| grade(one, Stress::SpinalShear).is_some();
    let hangs = |one: &Entry| hinge(one) && (is_in_hands(one) || one.load == LoadKind::BarTotal);
    let bent_over = entry.pattern == Some(Pattern::HorizontalPull) && bends(entry);
    let spares = |other: &&&Arc<Entry>| {
        let thrust =
            other.pattern == Some(Pattern::HipExtension) && other.standing <= Standing::Regular;
        let pulls_behind = hinge(other) && !hangs(other) || thrust;
        let held = other.pattern == Some(Pattern::HorizontalPull) && !bends(other);
        other.is_loaded() && (if bent_over { held } else { pulls_behind })
    };
    let minded = touchy && (hangs(entry) || bent_over);
    usable.iter().find(spares).filter(|_| minded).map(better)
}

/// Who knows a clean or snatch with the bar learns no other one with a kettlebell. Common practice.
pub(super) fn for_the_known_bar(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let fast = |one: &Entry| one.pattern == Some(Pattern::ExplosivePull);
    let known = |one: &Entry| {
        request.profile.known_lifts.contains_key(&one.id) || is_named(&request.profile, &one.id)
    };
    let bar =
        |other: &&&Arc<Entry>| fast(other) && other.load == LoadKind::BarTotal && known(other);
    let other_kit = fast(entry) && is_in_hands(entry);
    usable.iter().find(bar).filter(|_| other_kit).map(better)
}

/// Who asks for one pull off the floor, or likes one, does no other in the week: a trap bar, a wide stance and the straight
/// bar are three answers to one question. Common practice.
pub(super) fn for_the_wished_pull(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let off_the_floor = |one: &Entry| {
        one.pattern == Some(Pattern::Hinge) && one.main && !is_ballistic(one) && takes_few_reps(one)
    };
    let exercises = &request.profile.exercises;
    let wished = |id: &String| exercises.must.contains(id) || exercises.prefer.contains(id);
    let asked = |other: &&&Arc<Entry>| off_the_floor(other) && wished(&other.id);
    usable.iter().find(asked).filter(|_| off_the_floor(entry) && !wished(&entry.id)).map(better)
}

/// A leg swung back on a cable or behind the body is no thrust: where hips can be pushed up or a weight pulled, they are.
/// Common practice.
pub(super) fn for_a_thrust(
    _request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let hips = |one: &Entry| one.pattern == Some(Pattern::HipExtension);
    let swung = hips(entry) && entry.kind == Some(Kind::Isolation);
    let lift = |other: &&&Arc<Entry>| {
        other.kind == Some(Kind::Compound) && hips(other) && other.standing <= Standing::Regular
    };
    usable.iter().find(lift).filter(|_| swung).map(better)
}

/// For size and strength a swing is no hinge: it is too fast to load the muscle for long. Common practice.
pub(super) fn for_slow_work(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let builds = request.profile.goal.builds();
    // Nor is what is squatted and pressed in one a squat or a press.
    let both = entry.family.as_deref() == Some("thruster");
    let squat = |other: &&&Arc<Entry>| is_proper(other, Pattern::Squat);
    if both && (builds || request.profile.goal == Goal::Power) {
        return usable.iter().find(squat).map(better);
    }
    let swung = entry.pattern == Some(Pattern::Hinge) && is_ballistic(entry);
    let slow = |other: &&&Arc<Entry>| is_proper(other, Pattern::Hinge);
    usable.iter().find(slow).filter(|_| builds && swung).map(better)
}

/// Where neither size, strength nor power is the goal the trunk holds rather than bends on the floor, as it does in all else.
/// Common practice.
pub(super) fn for_a_trunk_that_holds(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let bends = entry.pattern == Some(Pattern::TrunkFlexion) && !entry.is_hung();
    let bare = bends && entry.load == LoadKind::Bodyweight;
    let bends_for_it = request.profile.goal.builds() || request.profile.goal == Goal::Power;
    let holds = |other: &&&Arc<Entry>| is_usual(other, Pattern::AntiExtension);
    usable.iter().find(holds).filter(|_| bare && !bends_for_it).map(better)
}

/// For young legs a first step with a load is no harder to learn than one without.
pub(super) fn for_a_loaded_first_step(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let legs = pattern.press_or_row().is_none();
    // After years of sitting one leg at a time is learned with a hand on something.
    let steady = pattern == Pattern::Lunge && request.starts_from_rest();
    let bare = legs && !entry.is_loaded() && !request.is_senior() && !steady;
    let loaded = |other: &&&Arc<Entry>| other.first_step && is_proper(other, pattern);
    usable.iter().find(loaded).filter(|_| bare).map(better)
}

/// A fly, pullover or straight-arm pulldown is for size past the first steps: else a press or a pull does more for the muscle
/// in the same minutes, and teaches more. Common practice.
pub(super) fn for_a_lift_that_does_more(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let side = match entry.pattern? {
        Pattern::ShoulderHorizontalAdduction => Side::Push,
        Pattern::ShoulderExtension => Side::Pull,
        _ => return None,
    };
    let learns = request.profile.training_status == Status::Novice;
    let for_size = request.profile.goal == Goal::Hypertrophy && !learns;
    let pulls_down = |other: &&Arc<Entry>| other.pattern == Some(Pattern::VerticalPull);
    // Where nothing pulls down, the straight arms do.
    if side == Side::Pull && !usable.iter().any(pulls_down) {
        return None;
    }
    let lift = |other: &&&Arc<Entry>| {
        other.pattern.and_then(Pattern::press_or_row) == Some(side)
            && other.pattern != Some(Pattern::VerticalPush)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    usable.iter().find(lift).filter(|_| !for_size).map(better)
}

/// From 65 on what is fast is thrown and not jumped or caught, unless the client has done it for years: landing and
/// catching ask for joints that are used to it. Common practice.
pub(super) fn for_older_joints(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let lands = matches!(entry.pattern, Some(Pattern::Jump | Pattern::ExplosivePull));
    let used_to_it = request.profile.training_status == Status::Advanced;
    if !lands || used_to_it || !request.is_senior() {
        return None;
    }
    let thrown = |other: &&&Arc<Entry>| other.pattern == Some(Pattern::Throw);
    let slow = |other: &&&Arc<Entry>| other.pattern == Some(Pattern::Squat);
    usable.iter().find(thrown).or_else(|| usable.iter().find(slow)).map(better)
}

/// First steps with the body's own weight are behind who has trained for a while, where the movement has a harder form.
pub(super) fn for_a_harder_form(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let bare = entry.load == LoadKind::Bodyweight && entry.level == 1;
    let is_first = entry.standing != Standing::Staple || entry.first_step;
    let passed = bare && is_first && !request.is_guided();
    let harder = |other: &&&Arc<Entry>| {
        other.pattern == Some(pattern)
            && other.level >= 2
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && other.kind == Some(Kind::Compound)
    };
    usable.iter().find(harder).filter(|_| passed).map(better)
}

/// Who has trained for a while holds no plank from the knees where one from the feet is usual. Common practice.
pub(super) fn for_a_harder_hold(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let learns = request.is_guided() || request.is_senior();
    let plain = entry.pattern == Some(Pattern::AntiExtension)
        && entry.measure == Measure::Seconds
        && entry.first_step;
    let harder = |other: &&&Arc<Entry>| {
        entry.harder.contains(&other.id) && other.standing == Standing::Staple
    };
    usable.iter().find(harder).filter(|_| plain && !learns).map(better)
}

/// Who has trained for years does no plain push-ups beside a dip, rings or a weight on the back. Common practice.
pub(super) fn for_a_press_that_is_hard(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let strong = request.profile.training_status == Status::Advanced && !request.is_senior();
    let press = entry.pattern == Some(Pattern::HorizontalPush);
    let plain = press && entry.load == LoadKind::Bodyweight && !entry.is_hung() && entry.level == 1;
    let harder = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && (other.is_loaded() || other.level >= 2)
            && other.kind == Some(Kind::Compound)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    usable.iter().find(harder).filter(|_| strong && plain).map(better)
}

/// Who learns and lifts little starts the pull from the floor with small plates, far too low: the hinge is learned from the
/// top, with the arms hanging, but where strength is the goal and the pull is what is learnt; and so it is trained for size.
/// Common practice.
pub(super) fn for_a_hinge_from_the_top(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let light = request.is_a_woman_who_begins() && request.profile.goal != Goal::Strength;
    // For size a hinge from the top does more with less to recover from.
    let for_size = request.profile.goal == Goal::Hypertrophy;
    let bar = |entry: &Entry| {
        entry.pattern == Some(Pattern::Hinge) && entry.load == LoadKind::BarTotal && entry.main
    };
    let from_the_floor = bar(entry) && takes_few_reps(entry);
    let from_the_top = |other: &&&Arc<Entry>| {
        is_proper(other, Pattern::Hinge) && bar(other) && !takes_few_reps(other)
    };
    let hangs = |other: &&&Arc<Entry>| {
        other.pattern == Some(Pattern::Hinge)
            && other.is_loaded()
            && other.standing <= Standing::Regular
            && other.family() != "deadlift"
    };
    let top = usable.iter().find(from_the_top).filter(|_| light || for_size);
    let top = top.or_else(|| usable.iter().find(hangs).filter(|_| for_size));
    top.filter(|_| from_the_floor).map(better)
}

/// The empty bar overhead is too much for most women who begin: two dumbbells start where they can. Common practice.
pub(super) fn for_a_press_in_steps(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let light = request.is_a_woman_who_begins();
    let bar = entry.pattern == Some(Pattern::VerticalPush) && entry.load == LoadKind::BarTotal;
    let in_steps = |other: &&&Arc<Entry>| {
        is_proper(other, Pattern::VerticalPush) && other.load != LoadKind::BarTotal
    };
    usable.iter().find(in_steps).filter(|_| light && bar).map(better)
}

/// From 65 on and for who must not kneel, what presses or pulls on the floor, face down or on the back, be it a pullover or
/// a fly, is behind what is done standing or sitting: getting down and up again costs more than it gives. Common practice.
pub(super) fn for_staying_up(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let kneeling = request.profile.limits.contains(&Limit::Whole(Stress::Kneeling));
    let side = match entry.pattern? {
        Pattern::ShoulderHorizontalAdduction => Some(Side::Push),
        Pattern::ShoulderExtension => Some(Side::Pull),
        pattern => pattern.press_or_row(),
    };
    let up = |other: &&&Arc<Entry>| {
        !is_on_the_floor(request, other)
            && other.pattern.and_then(Pattern::press_or_row) == side
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    let wanted =
        side.is_some() && (kneeling || request.is_senior()) && is_on_the_floor(request, entry);
    usable.iter().find(up).filter(|_| wanted).map(better)
}

/// Whether an exercise is done lying on the floor: face down with the body alone, or on the back without a bench.
fn is_on_the_floor(request: &Request, entry: &Entry) -> bool {
    let floor =
        kit_for(&request.profile, entry).is_ok_and(|kit| Station::of(&kit) == Station::Floor);
    let own = matches!(entry.load, LoadKind::Bodyweight | LoadKind::BodyweightPlus);
    let prone = grade(entry, Stress::Prone).is_some() && own;
    floor && (prone || grade(entry, Stress::Supine).is_some())
}

pub(super) fn for_a_staple(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let advanced = request.profile.training_status == Status::Advanced;
    // A press that the legs drive is what a press is for power.
    let fast = is_fast_press(request, entry);
    if entry.standing != Standing::Special || advanced || fast || is_next_rung(request, entry) {
        return None;
    }
    let staple = |other: &&&Arc<Entry>| does_the_job(other, entry);
    usable.iter().find(staple).map(better)
}

/// First steps are for who learns; who is past them takes the staple of the movement.
pub(super) fn for_who_learns(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let staple = |other: &&&Arc<Entry>| does_the_job(other, entry);
    let bare = matches!(entry.load, LoadKind::Bodyweight | LoadKind::Assisted);
    let leads_to = |other: &&&Arc<Entry>| staple(other) && bare && entry.harder.contains(&other.id);
    let is_step = entry.first_step || usable.iter().any(|other| leads_to(&other));
    let passed = is_step && entry.standing != Standing::Staple && !request.is_guided();
    usable.iter().find(staple).filter(|_| passed).map(better)
}

/// Who learns starts a press or a pull with the body's own weight from its first rung, until a number is known.
pub(super) fn for_the_first_rung(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let presses_or_pulls = entry.pattern.is_some_and(|pattern| pattern.press_or_row().is_some());
    let rung = |other: &&&Arc<Entry>| other.first_step && entry.easier.contains(&other.id);
    let bare = entry.load == LoadKind::Bodyweight && !entry.first_step;
    usable.iter().find(rung).filter(|_| request.is_guided() && presses_or_pulls && bare).map(better)
}
