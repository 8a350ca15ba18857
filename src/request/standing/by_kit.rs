//! What is passed over because better kit for the same work is at hand.

use std::sync::Arc;

use super::{
    better, by_limit, does_the_job, is_ballistic, is_lift, is_next_rung, is_proper, learns_first,
};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::request::candidate::grade;
use crate::request::eligibility::has_kit;
use crate::request::{Barred, Request};
use crate::words::{
    Effort, Goal, Kind, Kit, LoadKind, Measure, Muscle, Pattern, Sex, Side, Sides, Standing,
    Status, Stress,
};

pub(super) fn for_proper_kit(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern?;
    if entry.standing != Standing::StandIn || learns_first(request, entry) {
        return None;
    }
    // Who is past the first steps takes a regular exercise before a stand-in, too.
    let least = if request.is_guided() { Standing::Staple } else { Standing::Regular };
    if is_needed_pull(request, usable, entry) {
        return None;
    }
    let staple = |other: &&&Arc<Entry>| other.pattern == Some(pattern) && other.standing <= least;
    let proper = usable.iter().find(|other| is_proper(other, pattern));
    // Work of one joint is there for its muscle, whatever moves.
    let one_joint = |entry: &Entry| entry.kind == Some(Kind::Isolation);
    let for_muscle = |other: &&&Arc<Entry>| {
        (one_joint(entry) || (!request.is_guided() && !one_joint(other)))
            && other.direct.first() == entry.direct.first()
            && (other.pattern.is_some_and(|pattern| is_proper(other, pattern))
                || (other.standing == Standing::Staple && other.load == LoadKind::Band))
    };
    // Pulling at the air is no pull beside one with a weight, in whatever plane.
    let side = pattern.press_or_row().filter(|_| !entry.is_loaded());
    let weighted = |other: &&&Arc<Entry>| {
        other.pattern.and_then(Pattern::press_or_row) == side
            && matches!(other.standing, Standing::Staple | Standing::Regular)
            && (other.is_loaded() || other.load == LoadKind::Band)
    };
    proper
        .or_else(|| usable.iter().find(staple))
        .or_else(|| usable.iter().find(for_muscle))
        .or_else(|| usable.iter().find(weighted).filter(|_| side.is_some()))
        .map(better)
}

/// Whether a stand-in pulls the body up to something where the place has one pull for a week of many days: a second form
/// is better than the same three times.
fn is_needed_pull(request: &Request, usable: &[&Arc<Entry>], entry: &Entry) -> bool {
    const MANY_DAYS: usize = 3;
    let is_pull = |entry: &Entry| {
        entry.kind == Some(Kind::Compound)
            && entry.pattern.and_then(Pattern::side) == Some(Side::Pull)
            && grade(entry, Stress::Prone).is_none()
    };
    let proper = |other: &&&Arc<Entry>| {
        is_pull(other) && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    let row = entry.pattern == Some(Pattern::HorizontalPull) && is_pull(entry);
    row && request.days.len() >= MANY_DAYS && usable.iter().filter(proper).count() < 2
}

/// A variant that only saves kit, as a press from the floor saves the bench, is for who lacks that kit.
pub(super) fn for_its_parents_kit(
    _request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
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
pub(super) fn for_strong_legs(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
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

/// A single kettlebell is a light hinge for legs that have trained, wherever a bar, dumbbells or a machine is at hand.
pub(super) fn for_a_bar_or_dumbbells(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let by_kettlebell =
        |entry: &Entry| entry.needs.iter().all(|kit| kit.contains(&Kit::Kettlebell));
    let hinge = entry.pattern == Some(Pattern::Hinge) && !is_ballistic(entry);
    let heavier = |other: &&&Arc<Entry>| is_proper(other, Pattern::Hinge) && !by_kettlebell(other);
    let light = hinge && by_kettlebell(entry) && !request.is_guided();
    usable.iter().find(heavier).filter(|_| light).map(better)
}

/// Whether the client's other training is hard on the legs twice a week or more: once leaves days for heavy legs.
fn has_hard_legs_elsewhere(request: &Request) -> bool {
    let other = request.profile.other_training.iter();
    let is_leg = |muscle: &Muscle| matches!(muscle, Muscle::Quads | Muscle::Hamstrings);
    other.filter(|one| one.load == Effort::Hard && one.muscles.iter().any(is_leg)).count() > 1
}

/// Whether the hands hold what is lifted.
pub(super) const fn is_in_hands(entry: &Entry) -> bool {
    matches!(entry.load, LoadKind::PerHand | LoadKind::SingleImplement)
}

/// The body's own weight or a band is no second choice beside a load for a squat, hinge, press or pull.
pub(super) fn for_a_load(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| is_lift(*pattern))?;
    let lesser = match entry.standing {
        Standing::Regular => true,
        Standing::Staple => entry.load == LoadKind::Band || pattern.press_or_row().is_none(),
        _ => false,
    };
    let bare = lesser && !entry.is_loaded();
    let moves_joints = entry.kind == Some(Kind::Compound);
    // A weight teaches a pull as well as a band does.
    let first = learns_first(request, entry) && entry.load != LoadKind::Band;
    // The lighter of an older beginner's two hinges is one against a band.
    let gentle = entry.load == LoadKind::Band && pattern == Pattern::Hinge;
    // Nor is the step or the split squat that is all a careful beginner has on one leg.
    let careful = request.is_older_beginner() || request.starts_from_rest();
    let steady = pattern == Pattern::Lunge && careful;
    // Beside a row with a weight in the hand the other day's is one against a band.
    let row = |other: &Entry| other.pattern == Some(Pattern::HorizontalPull) && other.is_loaded();
    let second = entry.load == LoadKind::Band
        && pattern == Pattern::HorizontalPull
        && usable.iter().filter(|other| row(other)).all(|other| is_in_hands(other));
    let light = steady
        || second
        || by_limit::is_light_lunge(request, entry)
        || (gentle && request.is_older_beginner());
    if !bare || !moves_joints || first || light || is_next_rung(request, entry) {
        return None;
    }
    // A loaded split squat does more for the legs than a squat without a load.
    // Nor does a hinge without one do what a thrust does for the hip.
    let thrust = |other: Pattern| pattern == Pattern::Hinge && other == Pattern::HipExtension;
    let same = |other: Pattern| {
        other == pattern || (other.is_knee() && pattern.is_knee()) || thrust(other)
    };
    let proper = |other: &&&Arc<Entry>| {
        other.pattern.is_some_and(|other_pattern| {
            same(other_pattern) && is_lift(other_pattern) && is_proper(other, other_pattern)
        })
    };
    // A band is hardest at the end of the movement and easy at its start: any weight for the movement comes before it,
    // and, past the first steps, before the body alone.
    let light = entry.load == LoadKind::Band || !request.is_guided();
    let weight = |other: &&&Arc<Entry>| {
        let is_usual = matches!(other.standing, Standing::Staple | Standing::Regular);
        let moved = other.pattern == Some(pattern) && other.kind == Some(Kind::Compound);
        light && is_usual && moved && other.is_loaded()
    };
    usable.iter().find(proper).or_else(|| usable.iter().find(weight)).map(better)
}

/// Arms, side delts and knees are worked by a weight or a cable where there is one: a band is hardest at the end of the
/// movement and easy at its start. Common practice.
pub(super) fn for_a_weight(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern.filter(|pattern| {
        matches!(
            pattern,
            Pattern::ElbowFlexion
                | Pattern::ElbowExtension
                | Pattern::ShoulderAbduction
                | Pattern::KneeFlexion
                | Pattern::KneeExtension
                | Pattern::ShoulderExtension
                | Pattern::PlantarFlexion
        )
    })?;
    // Calves that have carried the body for years ask for more than the body.
    let strong = request.profile.training_status == Status::Advanced;
    let bare = pattern == Pattern::PlantarFlexion && entry.load == LoadKind::Bodyweight && strong;
    let weight = |other: &&&Arc<Entry>| is_proper(other, pattern);
    let lesser = bare || entry.load == LoadKind::Band;
    usable.iter().find(weight).filter(|_| lesser).map(better)
}

/// A bar on one leg takes balance and a ramp for what two dumbbells do as well.
pub(super) fn for_dumbbells(
    _request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let is_bar = entry.pattern == Some(Pattern::Lunge) && entry.load == LoadKind::BarTotal;
    let in_hands = |other: &&&Arc<Entry>| {
        other.pattern == Some(Pattern::Lunge)
            && other.standing == Standing::Staple
            && other.needs.iter().flatten().any(|kit| *kit == Kit::Dumbbells)
    };
    usable.iter().find(in_hands).filter(|_| is_bar).map(better)
}

/// An empty bar is much for arms that are new to it, and for most women's below advanced. Common practice.
pub(super) fn for_light_arms(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let profile = &request.profile;
    let arms = matches!(entry.pattern, Some(Pattern::ElbowFlexion | Pattern::ElbowExtension));
    let whole_bar = entry.load == LoadKind::BarTotal;
    let light = match profile.training_status {
        Status::Novice => true,
        Status::Intermediate => profile.sex == Some(Sex::Female),
        Status::Advanced => false,
    };
    let in_steps = |other: &&&Arc<Entry>| {
        does_the_job(other, entry) && other.is_loaded() && other.load != LoadKind::BarTotal
    };
    usable.iter().find(in_steps).filter(|_| arms && whole_bar && light).map(better)
}

/// Past the first steps the leg that moves out or in, and the calf, are trained on a machine or cable where there is one:
/// with the body's own weight or a band a set ends long after it did its work. Common practice.
pub(super) fn for_small_work_with_a_load(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let small = matches!(
        entry.pattern,
        Some(Pattern::HipAbduction | Pattern::HipAdduction | Pattern::PlantarFlexion)
    );
    let bare = small && matches!(entry.load, LoadKind::Bodyweight | LoadKind::Band);
    let on_a_stack = |other: &&&Arc<Entry>| {
        other.pattern == entry.pattern
            && matches!(other.load, LoadKind::Stack | LoadKind::PlateMachine)
            && matches!(other.standing, Standing::Staple | Standing::Regular)
    };
    usable.iter().find(on_a_stack).filter(|_| bare && !request.is_guided()).map(better)
}

/// Where size, strength or speed is built a leg that is raised to the side without a weight does less than a lunge, which
/// works the same muscles under a load, unless they should get more. Common practice.
pub(super) fn for_a_lunge(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let goal = request.profile.goal;
    let builds = goal.builds() || goal == Goal::Power;
    let small = matches!(entry.pattern, Some(Pattern::HipAbduction | Pattern::HipAdduction));
    let bare =
        small && matches!(entry.load, LoadKind::Bodyweight | LoadKind::Band) && entry.level == 1;
    let wished = [Muscle::Glutes, Muscle::Abductors, Muscle::Adductors];
    let wished = wished.into_iter().any(|muscle| request.wants_more(muscle));
    let lunge = |other: &&&Arc<Entry>| {
        other.pattern == Some(Pattern::Lunge)
            && other.is_loaded()
            && other.standing <= Standing::Regular
    };
    usable.iter().find(lunge).filter(|_| builds && bare && !wished).map(better)
}

/// Whether the place has no rack, no bar to hang from and no machine, as a room at home. Common practice.
pub(crate) fn is_a_room(profile: &Profile) -> bool {
    const OF_A_GYM: [Kit; 5] =
        [Kit::Barbell, Kit::SquatRack, Kit::PullUpBar, Kit::CableStation, Kit::LegPress];
    !OF_A_GYM.iter().any(|item| has_kit(profile, *item))
}

/// In a room without a rack, a bar to hang from or a machine nobody walks twenty meters with a load: the trunk is trained
/// standing still. Common practice.
pub(super) fn for_a_small_room(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let walks = entry.pattern == Some(Pattern::Carry)
        && entry.measure == Measure::Meters
        && !request.trains_heavy();
    let stands = |other: &&&Arc<Entry>| by_limit::is_usual(other, Pattern::AntiLateralFlexion);
    usable.iter().find(stands).filter(|_| walks && is_a_room(&request.profile)).map(better)
}

/// An arm that turns out against nothing does no more than wake up, where a band or a weight is at hand. Common practice.
pub(super) fn for_a_turn_against_something(
    _request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let turns = |entry: &Entry| entry.pattern == Some(Pattern::ShoulderExternalRotation);
    let bare = turns(entry) && entry.load == LoadKind::Bodyweight;
    let resisted = |other: &&&Arc<Entry>| {
        turns(other) && other.load != LoadKind::Bodyweight && other.standing <= Standing::Regular
    };
    usable.iter().find(resisted).filter(|_| bare).map(better)
}

/// Sets of few repetitions need a weight on the belt, for who has been strong for years and has one; and so do sets that
/// would end long before the body's own weight is hard. Common practice.
pub(super) fn for_the_belt(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let profile = &request.profile;
    let unknown = !profile.known_lifts.contains_key(&entry.id);
    let few = matches!(profile.goal, Goal::Strength | Goal::Power);
    let own = entry.is_hung() && entry.load == LoadKind::Bodyweight;
    let wanted = own && unknown && request.is_strong() && few || is_outgrown(request, entry);
    let added = |other: &&&Arc<Entry>| {
        other.load == LoadKind::BodyweightPlus && entry.harder.contains(&other.id)
    };
    usable.iter().find(added).filter(|_| wanted).map(better)
}

/// So many repetitions at most with the body's own weight leave sets for strength and size too easy. Common practice.
const MANY_REPS: u32 = 14;

/// Whether the client is known to do many repetitions of a pull-up or dip where sets are shorter, and did not wish for it.
pub(super) fn is_outgrown(request: &Request, entry: &Entry) -> bool {
    let profile = &request.profile;
    let lists = [&profile.exercises.must, &profile.exercises.prefer];
    let wished = lists.iter().any(|list| list.contains(&entry.id));
    // Who does many pull-ups does many with the hands turned as well.
    let alike = |id: &String| {
        let known = request.entries.get(id);
        known.is_some_and(|known| known.pattern == entry.pattern && known.is_hung())
    };
    let known = profile.known_lifts.iter().filter(|(id, _)| alike(id)).map(|(_, known)| known);
    let mut known = known.filter(|known| known.load == 0.0);
    let many = known.any(|known| known.reps + known.rir >= MANY_REPS);
    let own = entry.is_hung() && entry.load == LoadKind::Bodyweight;
    own && many && !wished && profile.goal != Goal::Endurance
}

/// A weight on the belt is for who is known to do the lift without, or strong enough to have done so for years. Common
/// practice.
pub(super) fn for_own_weight_first(
    request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let profile = &request.profile;
    let added = entry.load == LoadKind::BodyweightPlus && entry.pattern?.press_or_row().is_some();
    let without = |other: &&&Arc<Entry>| other.harder.contains(&entry.id) && other.is_hung();
    let known = |other: &&Arc<Entry>| profile.known_lifts.contains_key(&other.id);
    let without = usable.iter().find(without)?;
    (added && !request.is_strong() && !known(without) && !is_next_rung(request, entry))
        .then(|| better(without))
}

/// A machine for one joint is not passed by for its imitation; one leg on a step is no imitation.
pub(super) fn for_the_machine(
    _request: &Request,
    usable: &[&Arc<Entry>],
    entry: &Entry,
) -> Option<Barred> {
    let pattern = entry.pattern?;
    let one_joint =
        matches!(pattern, Pattern::KneeFlexion | Pattern::KneeExtension | Pattern::PlantarFlexion);
    let on_one_leg = pattern == Pattern::PlantarFlexion && entry.sides == Sides::Each;
    let guided = |entry: &Entry| matches!(entry.load, LoadKind::Stack | LoadKind::PlateMachine);
    let machine = |other: &&&Arc<Entry>| is_proper(other, pattern) && guided(other);
    usable.iter().find(machine).filter(|_| one_joint && !on_one_leg && !guided(entry)).map(better)
}
