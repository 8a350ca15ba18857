//! What a coach passes over among the exercises that a client could do: a stand-in where proper kit is at hand, a
//! special lift where a staple does the job, a variant of what the client never wants.
//!
//! These are filters and not points: a difference of a few points is less than what a search settles. Common practice.

mod by_body;
mod by_client;
mod by_kit;
pub(crate) mod by_limit;
mod by_load;
mod by_speed;
mod older;

pub(crate) use self::by_body::keeps_off_the_floor;
pub(crate) use self::by_kit::is_a_room;
pub(crate) use self::by_speed::is_fast_press;

use std::collections::BTreeMap;
use std::sync::Arc;

use super::candidate::grade;
use super::dose::takes_few_reps;
use super::eligibility::is_named;
use super::{Barred, Candidate, Request};
use crate::input::catalog::Entry;
use crate::words::{Grade, Kit, LoadKind, Pattern, Sides, Standing, Stress};

/// A reason to pass an exercise over, among all that are usable.
type Filter = fn(&Request, &[&Arc<Entry>], &Entry) -> Option<Barred>;

/// What the client's body had better not do, each reason among what those before it leave.
const SPARING: &[Filter] = &[
    by_client::for_staying_up,
    by_client::for_a_touchy_back,
    older::for_hips_pushed_standing,
    by_limit::for_a_light_back,
    by_limit::for_light_knees,
    by_limit::for_a_touchy_shoulder,
    by_limit::for_arms_kept_low,
    by_limit::for_a_shoulder_that_is_spared,
    by_load::for_less_load,
    by_body::for_what_no_band_carries,
    by_body::for_the_feet,
    by_body::for_a_trunk_that_makes_room,
    by_body::for_a_free_belly,
];

/// The reasons, the first that holds first. One more is a function and a line.
const FILTERS: &[Filter] = &[
    by_client::variant_of_never,
    by_kit::for_proper_kit,
    by_kit::for_its_parents_kit,
    by_client::for_the_free_squat,
    by_kit::for_a_load,
    by_kit::for_a_weight,
    by_kit::for_strong_legs,
    by_kit::for_a_bar_or_dumbbells,
    by_client::for_slow_work,
    by_client::for_a_trunk_that_holds,
    by_client::for_the_wished_pull,
    by_client::for_a_thrust,
    by_client::for_the_known_bar,
    by_client::for_a_loaded_first_step,
    by_speed::for_legs_that_drive,
    by_speed::for_a_bar_on_the_legs,
    by_speed::for_the_known_clean,
    by_speed::for_a_trunk_that_passes_on,
    by_client::for_a_staple,
    by_client::for_a_lift_that_does_more,
    by_client::for_older_joints,
    older::for_older_beginners,
    older::for_a_slow_hinge,
    older::for_a_thrust_without_the_bar,
    older::for_a_simple_pull,
    by_client::for_a_hinge_from_the_top,
    by_client::for_a_press_that_is_hard,
    by_client::for_a_press_in_steps,
    older::for_a_steady_stance,
    older::for_a_seat,
    older::for_getting_up,
    older::for_a_held_back,
    older::for_a_held_way,
    older::for_the_head_up,
    older::for_an_easier_hold,
    older::for_trunk_work_off_the_floor,
    by_client::for_a_harder_form,
    by_client::for_a_harder_hold,
    by_kit::for_small_work_with_a_load,
    by_kit::for_a_lunge,
    by_kit::for_a_small_room,
    by_kit::for_a_turn_against_something,
    by_kit::for_the_belt,
    by_kit::for_dumbbells,
    by_kit::for_light_arms,
    by_kit::for_own_weight_first,
    by_limit::for_shoulders_that_rest,
    by_body::for_a_form_in_steps,
    by_body::for_the_full_form,
    by_client::for_who_learns,
    by_kit::for_the_machine,
    by_client::for_the_first_rung,
    by_load::for_what_goes,
    by_load::for_a_row_in_steps,
    by_load::for_more_load,
    by_load::for_one_of_each,
    by_load::for_a_heavy_carry,
];

/// Which of the usable exercises are passed over, and why.
pub(super) fn passed_over(request: &Request, usable: &[&Arc<Entry>]) -> BTreeMap<String, Barred> {
    let open = |entry: &Entry| {
        !is_named(&request.profile, &entry.id)
            || by_kit::is_outgrown(request, entry)
            || by_load::is_too_few(request, entry)
    };
    // What the client's body had better not do, and what the client would rather not, is no reason to pass anything over.
    let mut spared = BTreeMap::new();
    let mut left = usable.to_vec();
    for filter in SPARING {
        let reason = |entry: &Entry| filter(request, &left, entry).filter(|_| open(entry));
        let found: BTreeMap<String, Barred> =
            left.iter().filter_map(|entry| Some((entry.id.clone(), reason(entry)?))).collect();
        left.retain(|entry| !found.contains_key(&entry.id));
        spared.extend(found);
    }
    let avoided = &request.profile.exercises.avoid;
    let others: Vec<_> =
        left.iter().copied().filter(|entry| !avoided.contains(&entry.id)).collect();
    let reasons = left.iter().filter(|entry| open(entry)).filter_map(|entry| {
        let reason = FILTERS.iter().find_map(|filter| filter(request, &others, entry))?;
        Some((entry.id.clone(), reason))
    });
    spared.extend(reasons.collect::<Vec<_>>());
    spared
}

/// A candidate's standing where it is chosen: a staple without load, or with a kettlebell, is one more regular where a
/// staple with a bar, dumbbells or a machine does its movement, and so is a hinge with weights in strong hands beside a bar.
pub(crate) fn standing_here(request: &Request, one: &Candidate) -> Standing {
    let light = !one.entry.is_loaded() || one.kit.contains(&Kit::Kettlebell);
    let by_hand =
        one.pattern == Pattern::Hinge && by_kit::is_in_hands(&one.entry) && !request.is_guided();
    let lesser = light || by_hand;
    let other = |other: &Candidate| {
        is_proper(&other.entry, one.pattern)
            && !other.kit.contains(&Kit::Kettlebell)
            && (light || !by_kit::is_in_hands(&other.entry))
    };
    match one.entry.standing {
        // For older beginners the easy form is where a coach begins, and for many where they stay.
        Standing::StandIn if one.entry.first_step && request.is_older_beginner() => {
            Standing::Staple
        }
        // A press that the legs drive is what a press is for power, for who is past the first steps.
        Standing::Regular | Standing::Special
            if by_speed::is_fast_press(request, &one.entry)
                && one.entry.load == LoadKind::BarTotal =>
        {
            Standing::Staple
        }
        Standing::Special if by_speed::is_fast_press(request, &one.entry) => Standing::Regular,
        Standing::Staple if lesser && request.candidates.iter().any(other) => Standing::Regular,
        standing => standing,
    }
}

/// Whether an entry is a loaded staple of a pattern.
#[must_use]
pub fn is_proper(entry: &Entry, pattern: Pattern) -> bool {
    entry.pattern == Some(pattern) && entry.standing == Standing::Staple && entry.is_loaded()
}

/// Whether an entry loads both legs at once in a pattern.
#[must_use]
pub fn loads_both_legs(entry: &Entry, pattern: Pattern) -> bool {
    entry.pattern == Some(pattern) && entry.sides == Sides::Both && entry.is_loaded()
}

/// Whether an entry is a main squat or hinge with the bar on both legs.
#[must_use]
pub fn is_bar_on_legs(entry: &Entry) -> bool {
    let legs = |pattern| loads_both_legs(entry, pattern);
    entry.main && entry.load == LoadKind::BarTotal && (legs(Pattern::Squat) || legs(Pattern::Hinge))
}

/// Whether an entry is a pull off the floor with a heavy bar: its hinges from the top have more repetitions.
#[must_use]
pub fn is_pull_off_the_floor(entry: &Entry) -> bool {
    is_bar_on_legs(entry) && entry.pattern == Some(Pattern::Hinge) && takes_few_reps(entry)
}

/// Whether an entry is a lift with the bar that is there for speed.
#[must_use]
pub fn is_fast_bar(entry: &Entry) -> bool {
    entry.pattern.is_some_and(Pattern::is_explosive) && entry.load == LoadKind::BarTotal
}

/// Whether an entry is pressed with a bar in its corner, which goes up and forward.
fn leans_forward(entry: &Entry) -> bool {
    entry.needs.iter().flatten().any(|kit| *kit == Kit::Landmine)
}

/// Whether an entry is a row that the lower back holds.
#[must_use]
pub fn is_bent_over(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::HorizontalPull)
        && grade(entry, Stress::SpinalShear) > Some(Grade::Light)
}

/// The lift that an entry is a variant of, and the lift of that, and so on.
pub(crate) fn parents<'a>(request: &'a Request, entry: &'a Entry) -> impl Iterator<Item = &'a str> {
    let parent =
        |id: &'a str| request.entries.get(id).and_then(|entry| entry.variant_of.as_deref());
    // The catalog's lint refuses circles; a catalog that was never linted ends here.
    std::iter::successors(entry.variant_of.as_deref(), move |id| parent(id)).take(8)
}

/// What is swung is no matter of how much the hands hold.
fn is_ballistic(entry: &Entry) -> bool {
    grade(entry, Stress::Ballistic).is_some()
}

/// A squat, lunge, hinge, bridge, press or pull.
const fn is_lift(pattern: Pattern) -> bool {
    let legs =
        matches!(pattern, Pattern::Squat | Pattern::Lunge | Pattern::Hinge | Pattern::HipExtension);
    legs || pattern.press_or_row().is_some()
}

/// What is right for those who learn the movement, and again from 65 on; against a wall and on the flat floor begins who is
/// both.
fn learns_first(request: &Request, entry: &Entry) -> bool {
    let mildest = entry.standing == Standing::StandIn && entry.pattern != Some(Pattern::Squat);
    let learns = if mildest { request.is_older_beginner() } else { request.is_guided() };
    entry.first_step && learns
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

/// The harder form of a lift that the client already knows is a reason for it.
fn is_next_rung(request: &Request, entry: &Entry) -> bool {
    let known = request.profile.known_lifts.keys().chain(&request.previous_mains);
    known.filter_map(|id| request.entries.get(id)).any(|known| known.harder.contains(&entry.id))
}

fn better(other: &&Arc<Entry>) -> Barred {
    Barred::PassedOver(other.id.clone())
}
