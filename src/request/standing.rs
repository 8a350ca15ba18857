//! What a coach passes over among the exercises that a client could do: a stand-in where proper kit is at hand, a
//! special lift where a staple does the job, a variant of what the client never wants.
//!
//! These are filters and not points: a difference of a few points is less than what a search settles. Common practice.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::candidate::grade;
use super::eligibility::is_named;
use super::{Barred, Candidate, Request};
use crate::input::catalog::Entry;
use crate::words::{
    Effort, Goal, Kind, Kit, LoadKind, Muscle, Pattern, Sides, Standing, Status, Stress,
};

/// Which of the usable exercises are passed over, and why.
pub(super) fn passed_over(request: &Request, usable: &[&Arc<Entry>]) -> BTreeMap<String, Barred> {
    let reasons =
        usable.iter().filter(|entry| !is_named(&request.profile, &entry.id)).filter_map(|entry| {
            let reason = variant_of_never(request, entry)
                .or_else(|| for_proper_kit(request, usable, entry))
                .or_else(|| for_its_parents_kit(usable, entry))
                .or_else(|| for_a_load(request, usable, entry))
                .or_else(|| for_strong_legs(request, usable, entry))
                .or_else(|| for_slow_work(request, usable, entry))
                .or_else(|| for_a_loaded_first_step(request, usable, entry))
                .or_else(|| for_a_staple(request, usable, entry))
                .or_else(|| for_older_joints(request, usable, entry))
                .or_else(|| for_a_harder_form(request, usable, entry))
                .or_else(|| for_dumbbells(usable, entry))
                .or_else(|| for_the_full_form(request, usable, entry))
                .or_else(|| for_who_learns(request, usable, entry))
                .or_else(|| for_the_machine(usable, entry))
                .or_else(|| for_the_first_rung(request, usable, entry))?;
            Some((entry.id.clone(), reason))
        });
    reasons.collect()
}

/// Whether a load, or the whole body's weight on a bar, makes an exercise hard enough for sets that count.
#[must_use]
pub fn is_loaded(entry: &Entry) -> bool {
    let unloaded = matches!(
        entry.load,
        LoadKind::Bodyweight | LoadKind::None | LoadKind::Band | LoadKind::Assisted
    );
    !unloaded || entry.is_hung()
}

/// A candidate's standing where it is chosen: a staple without load, or with a kettlebell, is one more regular where a
/// staple with a bar, dumbbells or a machine does its movement, and so is a hinge with weights in strong hands beside a bar.
pub(crate) fn standing_here(request: &Request, one: &Candidate) -> Standing {
    let light = !is_loaded(&one.entry) || one.kit.contains(&Kit::Kettlebell);
    let by_hand = one.pattern == Pattern::Hinge && is_in_hands(&one.entry) && !request.is_guided();
    let lesser = light || by_hand;
    let other = |other: &Candidate| {
        is_proper(&other.entry, one.pattern)
            && !other.kit.contains(&Kit::Kettlebell)
            && (light || !is_in_hands(&other.entry))
    };
    match one.entry.standing {
        Standing::Staple if lesser && request.candidates.iter().any(other) => Standing::Regular,
        standing => standing,
    }
}

/// Whether an entry is a loaded staple of a pattern.
#[must_use]
pub fn is_proper(entry: &Entry, pattern: Pattern) -> bool {
    entry.pattern == Some(pattern) && entry.standing == Standing::Staple && is_loaded(entry)
}

/// The lift that an entry is a variant of, and the lift of that, and so on.
pub(crate) fn parents<'a>(request: &'a Request, entry: &'a Entry) -> impl Iterator<Item = &'a str> {
    let parent =
        |id: &'a str| request.entries.get(id).and_then(|entry| entry.variant_of.as_deref());
    // The catalog's lint refuses circles; a catalog that was never linted ends here.
    std::iter::successors(entry.variant_of.as_deref(), move |id| parent(id)).take(8)
}

fn variant_of_never(request: &Request, entry: &Entry) -> Option<Barred> {
    let never = &request.profile.exercises.never;
    let parent = parents(request, entry).find(|id| never.iter().any(|one| one == id))?;
    Some(Barred::VariantOfNever(parent.to_owned()))
}

fn for_proper_kit(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let pattern = entry.pattern?;
    if entry.standing != Standing::StandIn || learns_first(request, entry) {
        return None;
    }
    let staple =
        |other: &&&Arc<Entry>| other.pattern == Some(pattern) && other.standing == Standing::Staple;
    let proper = usable.iter().find(|other| is_proper(other, pattern));
    proper.or_else(|| usable.iter().find(staple)).map(better)
}

/// A variant that only saves kit, as a press from the floor saves the bench, is for who lacks that kit.
fn for_its_parents_kit(usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let parent = entry.variant_of.as_deref()?;
    let parent = usable.iter().find(|other| other.id == parent)?;
    let saves = |less: &Vec<Kit>, more: &Vec<Kit>| {
        less.len() < more.len() && less.iter().all(|kit| more.contains(kit))
    };
    let saves_kit =
        entry.needs.iter().any(|less| parent.needs.iter().any(|more| saves(less, more)));
    saves_kit.then(|| better(parent))
}

/// Legs that have trained for a while are stronger than hands: a squat or a pull from the floor with a weight in the hands
/// is behind who has a bar or a machine for it, unless other training leaves the legs only light work. Common practice.
fn for_strong_legs(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let pattern = entry.pattern?;
    let both_legs = matches!(pattern, Pattern::Squat | Pattern::Hinge | Pattern::HipExtension);
    let big = both_legs && entry.sides == Sides::Both;
    let on_the_floor = entry.direct.first() != Some(&Muscle::Hamstrings);
    let light = is_ballistic(entry) || request.is_guided() || has_hard_legs_elsewhere(request);
    if !big || !on_the_floor || !is_in_hands(entry) || light {
        return None;
    }
    let stronger = |other: &&&Arc<Entry>| is_proper(other, pattern) && !is_in_hands(other);
    usable.iter().find(stronger).map(better)
}

/// What is swung is no matter of how much the hands hold.
fn is_ballistic(entry: &Entry) -> bool {
    grade(entry, Stress::Ballistic).is_some()
}

/// Whether the client's other training is hard on the legs.
fn has_hard_legs_elsewhere(request: &Request) -> bool {
    let mut other = request.profile.other_training.iter();
    let is_leg = |muscle: &Muscle| matches!(muscle, Muscle::Quads | Muscle::Hamstrings);
    other.any(|one| one.load == Effort::Hard && one.muscles.iter().any(is_leg))
}

/// Whether the hands hold what is lifted.
const fn is_in_hands(entry: &Entry) -> bool {
    matches!(entry.load, LoadKind::PerHand | LoadKind::SingleImplement)
}

/// A squat, lunge, hinge, bridge, press or pull.
const fn is_lift(pattern: Pattern) -> bool {
    let legs =
        matches!(pattern, Pattern::Squat | Pattern::Lunge | Pattern::Hinge | Pattern::HipExtension);
    legs || pattern.press_or_row().is_some()
}

/// The body's own weight or a band is no second choice beside a load for a squat, hinge, press or pull.
fn for_a_load(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let lesser = match entry.standing {
        Standing::Regular => true,
        Standing::Staple => entry.load == LoadKind::Band || pattern.press_or_row().is_none(),
        _ => false,
    };
    let bare = lesser && !is_loaded(entry);
    let moves_joints = entry.kind == Some(Kind::Compound);
    // A weight teaches a pull as well as a band does.
    let first = learns_first(request, entry) && entry.load != LoadKind::Band;
    if !bare || !moves_joints || first || is_next_rung(request, entry) {
        return None;
    }
    // A loaded split squat does more for the legs than a squat without a load.
    let same = |other: Pattern| other == pattern || (other.is_knee() && pattern.is_knee());
    let proper = |other: &&&Arc<Entry>| {
        other.pattern.is_some_and(|other_pattern| {
            same(other_pattern) && is_lift(other_pattern) && is_proper(other, other_pattern)
        })
    };
    // A band is hardest at the end of the movement and easy at its start: any weight for the movement comes before it.
    let weight = |other: &&&Arc<Entry>| {
        let is_usual = matches!(other.standing, Standing::Staple | Standing::Regular);
        let moved = other.pattern == Some(pattern) && other.kind == Some(Kind::Compound);
        entry.load == LoadKind::Band && is_usual && moved && is_loaded(other)
    };
    usable.iter().find(proper).or_else(|| usable.iter().find(weight)).map(better)
}

/// For size and strength a swing is no hinge: it is too fast to load the muscle for long. Common practice.
fn for_slow_work(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let builds = matches!(request.profile.goal, Goal::Hypertrophy | Goal::Strength);
    let swung = entry.pattern == Some(Pattern::Hinge) && is_ballistic(entry);
    let slow = |other: &&&Arc<Entry>| is_proper(other, Pattern::Hinge);
    usable.iter().find(slow).filter(|_| builds && swung).map(better)
}

/// For young legs a first step with a load is no harder to learn than one without.
fn for_a_loaded_first_step(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let legs = pattern.press_or_row().is_none();
    let bare = legs && !is_loaded(entry) && !request.is_senior();
    let loaded = |other: &&&Arc<Entry>| other.first_step && is_proper(other, pattern);
    usable.iter().find(loaded).filter(|_| bare).map(better)
}

/// From 65 on what is fast is thrown and not jumped or caught, unless the client has done it for years: landing and
/// catching ask for joints that are used to it. Common practice.
fn for_older_joints(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
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
fn for_a_harder_form(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
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

/// What is right for those who learn the movement, and again from 65 on.
fn learns_first(request: &Request, entry: &Entry) -> bool {
    entry.first_step && request.is_guided()
}

/// Whether two exercises are of one movement; all that holds or bends the trunk is one, and so is all that is fast.
fn is_same_work(one: Option<Pattern>, other: Option<Pattern>) -> bool {
    one.map(Pattern::work) == other.map(Pattern::work)
}

/// Whether an entry is a staple for another's movement and prime mover.
fn does_the_job(other: &Entry, entry: &Entry) -> bool {
    other.standing == Standing::Staple
        && is_same_work(other.pattern, entry.pattern)
        && other.direct.first() == entry.direct.first()
}

fn for_a_staple(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let advanced = request.profile.training_status == Status::Advanced;
    if entry.standing != Standing::Special || advanced || is_next_rung(request, entry) {
        return None;
    }
    let staple = |other: &&&Arc<Entry>| does_the_job(other, entry);
    usable.iter().find(staple).map(better)
}

/// The harder form of a lift that the client already knows is a reason for it.
fn is_next_rung(request: &Request, entry: &Entry) -> bool {
    let known = request.profile.known_lifts.keys().chain(&request.previous_mains);
    known.filter_map(|id| request.entries.get(id)).any(|known| known.harder.contains(&entry.id))
}

/// A bar on one leg takes balance and a ramp for what two dumbbells do as well.
fn for_dumbbells(usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let is_bar = entry.pattern == Some(Pattern::Lunge) && entry.load == LoadKind::BarTotal;
    let in_hands = |other: &&&Arc<Entry>| {
        other.pattern == Some(Pattern::Lunge)
            && other.standing == Standing::Staple
            && other.needs.iter().flatten().any(|kit| *kit == Kit::Dumbbells)
    };
    usable.iter().find(in_hands).filter(|_| is_bar).map(better)
}

/// Help is for who cannot do the lift yet.
fn for_the_full_form(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let full = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && other.load != LoadKind::Assisted
            && other.standing == Standing::Staple
            && other.is_hung()
    };
    usable
        .iter()
        .find(full)
        .filter(|_| entry.load == LoadKind::Assisted && !request.is_guided())
        .map(better)
}

/// First steps are for who learns; who is past them takes the staple of the movement.
fn for_who_learns(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let staple = |other: &&&Arc<Entry>| does_the_job(other, entry);
    let bare = matches!(entry.load, LoadKind::Bodyweight | LoadKind::Assisted);
    let leads_to = |other: &&&Arc<Entry>| staple(other) && bare && entry.harder.contains(&other.id);
    let is_step = entry.first_step || usable.iter().any(|other| leads_to(&other));
    let passed = is_step && entry.standing != Standing::Staple && !request.is_guided();
    usable.iter().find(staple).filter(|_| passed).map(better)
}

/// A machine for one joint is not passed by for its imitation; one leg on a step is no imitation.
fn for_the_machine(usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let pattern = entry.pattern?;
    let one_joint =
        matches!(pattern, Pattern::KneeFlexion | Pattern::KneeExtension | Pattern::PlantarFlexion);
    let on_one_leg = pattern == Pattern::PlantarFlexion && entry.sides == Sides::Each;
    let guided = |entry: &Entry| matches!(entry.load, LoadKind::Stack | LoadKind::PlateMachine);
    let machine = |other: &&&Arc<Entry>| is_proper(other, pattern) && guided(other);
    usable.iter().find(machine).filter(|_| one_joint && !on_one_leg && !guided(entry)).map(better)
}

/// Who learns starts a press or a pull with the body's own weight from its first rung, until a number is known.
fn for_the_first_rung(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> Option<Barred> {
    let presses_or_pulls = entry.pattern.is_some_and(|pattern| pattern.press_or_row().is_some());
    let rung = |other: &&&Arc<Entry>| other.first_step && entry.easier.contains(&other.id);
    let bare = entry.load == LoadKind::Bodyweight && !entry.first_step;
    usable.iter().find(rung).filter(|_| request.is_guided() && presses_or_pulls && bare).map(better)
}

fn better(other: &&Arc<Entry>) -> Barred {
    Barred::PassedOver(other.id.clone())
}
