//! Preparation: a general part, then rolling, mobility and activation for the muscles of the day, inside the
//! seconds kept for it.

use std::collections::BTreeSet;

use crate::input::catalog::Entry;
use crate::input::plan::{Group, Item};
use crate::input::profile::Limit;
use crate::request::candidate::grade;
use crate::request::standing::keeps_off_the_floor;
use crate::request::{Day, Request};
use crate::timing;
use crate::words::{Grade, GroupKind, Measure, Muscle, Part, Pattern, Role, Sides, Stress};

/// Most items of a preparation.
const MOST_ITEMS: usize = 4;
/// What the movements of the day's first lifts count beside muscles: the first more than its prime mover and the next.
const REHEARSAL: [usize; 3] = [200, 110, 60];
/// Repetitions of an item are even and end here: what readies does not tire.
const MOST_REPS: u32 = 10;
/// Sessions up to so many minutes get warm and ready for the first lift, and no more. Common practice.
const SHORT_MINUTES: u32 = 20;

/// The preparation of a day for its direct muscles, the most trained first, and for the movements of its lifts in their
/// order; `None` where the session is too short.
#[must_use]
pub fn preparation(
    request: &Request,
    day: &Day,
    muscles: &[Muscle],
    lifts: &[Pattern],
) -> Option<Group> {
    let mut left = day.prep_s.checked_sub(timing::WAY_IN_S)?;
    let mut chosen: Vec<&Entry> = Vec::new();
    let mut open: BTreeSet<Muscle> = muscles.iter().copied().collect();
    let mut waiting: Vec<(Pattern, usize)> = lifts.iter().copied().zip(REHEARSAL).collect();
    let parts: &[&[Part]] = if day.minutes <= SHORT_MINUTES {
        &[&[Part::General], &[Part::Activation]]
    } else {
        &[
            &[Part::General],
            &[Part::Activation],
            &[Part::Mobility, Part::Rolling],
            &[Part::Activation],
        ]
    };
    for part in parts {
        let best = usable(request, part)
            .into_iter()
            .filter(|entry| !chosen.contains(entry) && shortest_s(entry) <= left)
            .filter(|entry| {
                entry.part == Some(Part::General)
                    || entry.muscles.iter().any(|muscle| muscles.contains(muscle))
            })
            .max_by_key(|entry| {
                let rehearsed = waiting.iter().find(|(lift, _)| entry.pattern == Some(*lift));
                let rehearsal = rehearsed.map_or(0, |(_, points)| *points);
                let worth = worth(entry, &open, muscles) + rehearsal;
                (worth, std::cmp::Reverse(entry.id.clone()))
            });
        if let Some(entry) = best.filter(|_| chosen.len() < MOST_ITEMS) {
            left -= shortest_s(entry);
            // A general start warms all of them and readies none for the lift.
            waiting.retain(|(lift, _)| entry.pattern != Some(*lift));
            if entry.part != Some(Part::General) {
                open.retain(|muscle| !entry.muscles.contains(muscle));
            }
            chosen.push(entry);
        }
    }
    if chosen.is_empty() {
        return None;
    }
    let items = chosen.iter().map(|entry| item(entry, &mut left)).collect();
    Some(Group { kind: GroupKind::Prep, seconds: None, items })
}

/// Items of some parts that the client may do.
fn usable<'a>(request: &'a Request, parts: &[Part]) -> Vec<&'a Entry> {
    let of_parts = |entry: &&Entry| entry.part.is_some_and(|part| parts.contains(&part));
    // From 65 on nothing is readied at the end of its range or head down.
    let deep = |entry: &&Entry| {
        let hard = grade(entry, Stress::DeepKneeFlexion) > Some(Grade::Light)
            || grade(entry, Stress::Inverted).is_some();
        hard && request.is_senior()
    };
    // Who must not kneel, dislikes the floor or is 65 gets ready on the feet: down and up again is work of its own.
    let stays_up = request.is_senior()
        || keeps_off_the_floor(request)
        || request.profile.limits.contains(&Limit::Whole(Stress::Kneeling));
    // A back that is spared is not folded to get warm either.
    let folds =
        |entry: &&Entry| request.minds_its_back() && grade(entry, Stress::Inverted).is_some();
    // Nor is done what the client would rather not do later.
    let wishes = &request.profile.exercises;
    let unwanted = |entry: &&Entry| {
        let work = entry.id.strip_suffix("-prep").unwrap_or(&entry.id);
        wishes.avoid.iter().chain(&wishes.never).any(|id| id == work)
    };
    // With a child on the way nobody hangs or sinks to the floor of a squat to get ready. Common practice.
    let said = request.profile.screening.as_ref();
    let pregnant = said.is_some_and(|said| said.pregnant == Some(true));
    let strains = |entry: &&Entry| {
        let deep = grade(entry, Stress::DeepKneeFlexion) > Some(Grade::Light);
        pregnant && (deep || grade(entry, Stress::Grip).is_some())
    };
    let lies = |entry: &&Entry| {
        const LYING: [Stress; 3] = [Stress::Prone, Stress::Supine, Stress::Kneeling];
        let down = LYING.iter().any(|stress| grade(entry, *stress).is_some());
        stays_up
            && (down || entry.part == Some(Part::Rolling) || entry.id.starts_with("side-lying"))
    };
    let usable = request.eligible_for(Role::Prep).filter(of_parts);
    let out = |entry: &&Entry| {
        deep(entry) || lies(entry) || folds(entry) || unwanted(entry) || strains(entry)
    };
    usable.filter(|entry| !out(entry)).collect()
}

/// Muscles that still wait for an item count most, and the day's first muscles before others.
fn worth(entry: &Entry, open: &BTreeSet<Muscle>, muscles: &[Muscle]) -> usize {
    let ahead = |muscle: &Muscle| muscles.iter().position(|other| other == muscle);
    let points = |muscle: &Muscle| match ahead(muscle) {
        Some(0) if open.contains(muscle) => 100,
        Some(1) if open.contains(muscle) => 60,
        Some(place) if open.contains(muscle) => 10 + 3 * muscles.len().saturating_sub(place),
        Some(_) => 1,
        None => 0,
    };
    entry.muscles.iter().map(points).sum()
}

/// Seconds of an item at the short end of its range.
fn shortest_s(entry: &Entry) -> u32 {
    entry.setup_s + timing::set_s(entry, entry.reps[0], entry.tempo.as_deref())
}

/// The item at the short end of its range, longer where seconds are left.
fn item(entry: &Entry, left: &mut u32) -> Item {
    let amount = longest_within(entry, shortest_s(entry) + *left);
    let seconds = entry.setup_s + timing::set_s(entry, amount, entry.tempo.as_deref());
    *left -= seconds - shortest_s(entry);
    let (reps, held) = match entry.measure {
        Measure::Reps => (Some(vec![amount]), None),
        _ => (None, Some(vec![amount])),
    };
    Item {
        exercise: entry.id.clone(),
        sets: 1,
        reps,
        seconds: held,
        each_side: entry.sides == Sides::Each,
        tempo: entry.tempo.clone().filter(|_| entry.measure == Measure::Reps),
        ..Item::default()
    }
}

/// The most of an item within some seconds, in fives of seconds or even repetitions.
fn longest_within(entry: &Entry, seconds: u32) -> u32 {
    let (low, high) = (entry.reps[0], entry.reps[1]);
    let (step, high) = match entry.measure {
        // Minutes are told in halves.
        Measure::Seconds if entry.part == Some(Part::General) => (30, high),
        Measure::Seconds => (5, high),
        _ => (2, high.min(MOST_REPS.max(low)) / 2 * 2),
    };
    let fits = |amount: &u32| {
        entry.setup_s + timing::set_s(entry, *amount, entry.tempo.as_deref()) <= seconds
    };
    (low..=high).rev().step_by(step).find(fits).unwrap_or(low)
}
