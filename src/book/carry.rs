//! From one block to the next: what the record gives to the profile that is planned.

use std::collections::BTreeMap;

use jiff::ToSpan;

use super::done::{DoneSession, kilograms};
use super::history::{self, Performance};
use super::review::Review;
use super::slot;
use crate::catalog::sha256;
use crate::input::catalog::Entry;
use crate::input::clock;
use crate::input::plan::{FromBook, Plan};
use crate::input::profile::{KnownLift, Profile, SplitChoice};
use crate::plan::seal;
use crate::strength::estimate::MOST_REPS;
use crate::strength::ladder::{KG_PER_LB, mass_text};
use crate::words::Units;

/// What is known of the client.
pub struct Known<'a> {
    /// All sessions, oldest first.
    pub sessions: &'a [DoneSession],
    /// The look back at the last block.
    pub review: &'a Review,
    /// The last plan.
    pub plan: Option<&'a Plan>,
    /// Every exercise that there is.
    pub entries: &'a BTreeMap<String, Entry>,
}

/// Gives a profile what the record knows, and says what; the last plan too, where it is taken as the last block.
#[must_use]
pub fn carry(profile: &mut Profile, known: &Known<'_>, takes_block: bool) -> FromBook {
    let of_profile = Some(seal::of_profile(profile));
    let mut took = Vec::new();
    let block = known.plan.filter(|_| takes_block).and_then(slot::span);
    took.extend(block.map(|(first, last)| format!("last block: the plan of {first} to {last}")));
    took.extend(start(profile, known));
    took.extend(lifts(profile, known));
    took.extend(shunned(profile, known));
    took.extend(days(profile, known));
    FromBook { sha256: sha256(took.join("\n").as_bytes()), took, profile_sha256: of_profile }
}

/// The same for a planner: the last plan is the last block where no other one is named.
#[must_use]
pub fn give(profile: &mut Profile, previous: &mut Option<Plan>, known: &Known<'_>) -> FromBook {
    let takes_block = previous.is_none();
    if takes_block {
        *previous = known.plan.cloned();
    }
    carry(profile, known, takes_block)
}

/// The first day, where the profile still has that of a plan that is over.
fn start(profile: &mut Profile, known: &Known<'_>) -> Option<String> {
    let (_, last) = known.plan.and_then(slot::span)?;
    let start = profile.start.as_deref().and_then(clock::date)?;
    let next = last.checked_add(1.day()).ok().filter(|next| start < *next)?;
    profile.start = Some(next.to_string());
    Some(format!("start: {next}, the day after the last plan"))
}

/// The last load of every exercise, as a known lift.
fn lifts(profile: &mut Profile, known: &Known<'_>) -> Vec<String> {
    let items = known.sessions.iter().flat_map(|session| &session.items);
    let mut ids: Vec<&str> = items.map(|item| item.exercise.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    ids.retain(|id| known.entries.contains_key(*id));
    let mut took = Vec::new();
    for id in ids {
        let done = history::of(id, known.sessions);
        let Some((last, lift)) =
            done.iter().rev().find_map(|one| Some((one, lift(one, profile.units)?)))
        else {
            continue;
        };
        let cap = profile.known_lifts.get(id).and_then(|lift| lift.cap);
        took.push(format!(
            "known lift: {id} {} × {} with {} left on {}",
            mass_text(last.load.grams().map_or(0.0, kilograms), profile.units),
            lift.reps,
            lift.rir,
            last.date
        ));
        profile.known_lifts.insert(id.to_owned(), KnownLift { cap, ..lift });
    }
    took
}

/// A performance as a known lift; none where it says nothing about strength.
fn lift(done: &Performance, units: Units) -> Option<KnownLift> {
    let load_kg = kilograms(done.load.grams().filter(|grams| *grams > 0)?);
    let load = match units {
        Units::Kg => load_kg,
        Units::Lb => (load_kg / KG_PER_LB * 10.0).round() / 10.0,
    };
    let reps = done.last();
    let asked = done.asked.filter(|asked| reps >= asked.amount).and_then(|asked| asked.rir);
    let rir = done.reserve.or(asked).unwrap_or(0);
    let counts = done.measure == crate::words::Measure::Reps && (1..=MOST_REPS).contains(&reps);
    let rir = rir.min(MOST_REPS.saturating_sub(reps));
    counts.then_some(KnownLift { load, reps, rir, cap: None })
}

/// What was left out more often than not comes in only if nothing else does.
fn shunned(profile: &mut Profile, known: &Known<'_>) -> Vec<String> {
    let mut took = Vec::new();
    for one in known.review.skipped.iter().filter(|one| one.is_shunned()) {
        let wishes = &mut profile.exercises;
        let lists = [&wishes.must, &wishes.prefer, &wishes.avoid, &wishes.never];
        let is_named = lists.iter().any(|list| list.contains(&one.exercise));
        if !is_named {
            wishes.avoid.push(one.exercise.clone());
            took.push(format!(
                "avoid: {}, left out {} of {} times",
                one.exercise, one.times, one.of
            ));
        }
    }
    took
}

/// What the client's weeks really hold: a day that was missed more often than not goes, while another stays.
fn days(profile: &mut Profile, known: &Known<'_>) -> Vec<String> {
    let by_session = matches!(profile.split, SplitChoice::Own(_));
    let mut took = Vec::new();
    for one in known.review.days.iter().filter(|one| one.is_missed() && !by_session) {
        let stays = profile.sessions.iter().filter(|slot| slot.day != one.day).count();
        if stays > 0 && stays < profile.sessions.len() {
            profile.sessions.retain(|slot| slot.day != one.day);
            took.push(format!(
                "no session on {}: {} of {} were missed",
                one.day.name(),
                one.planned - one.done,
                one.planned
            ));
        }
    }
    took
}
