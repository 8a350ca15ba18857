//! What limits a wish that falls short: one thing is lifted at a time, and the week planned again.

use std::collections::{BTreeMap, BTreeSet};

use crate::audit;
use crate::input::place::Stock;
use crate::input::profile::Profile;
use crate::plan::compose;
use crate::request::{Barred, Request};
use crate::rules::{Bound, Figure, Finding, Severity, told_by};
use crate::search::probe;
use crate::split::design;
use crate::week::Week;
use crate::words::Kit;

/// Changes of each game, for each day.
const CHANGES_A_DAY: u32 = 2000;
/// Minutes that the fullest day gets more.
const MORE_MINUTES: u32 = 15;
/// Longest session that a profile may ask for, and the least recovery hours.
const LONGEST_SESSION: u32 = 240;
const SHORT_RECOVERY: u32 = 24;

const NOT_ASKED: &str = "not looked for in a quick answer";
const NOTHING_TRAINS: &str = "kit, limits and level leave no exercise for it";
const OTHERS_FIRST: &str = "other wishes come first: a week that meets it gives up more elsewhere";
const AS_WRITTEN: &str = "the plan as it is written: in a week planned anew";
const NOTHING_HELPS: &str = "the wishes hold each other: neither more minutes, shorter recovery, other \
                             limits nor one more item of kit was found to help";

/// What is lifted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lift {
    /// The place has one more item.
    Kit(Kit),
    /// The fullest day is longer.
    Minutes {
        /// Its place in the profile.
        slot: usize,
        /// Minutes then.
        to: u32,
    },
    /// Hard sessions may stand a day apart.
    Recovery,
    /// No limits.
    Limits,
}

impl Lift {
    /// The profile with the lift.
    #[must_use]
    pub fn applied(&self, profile: &Profile) -> Profile {
        let mut profile = profile.clone();
        match self {
            Lift::Kit(item) => {
                let kit = profile.equipment.get_or_insert_default();
                kit.items.insert(*item, Stock::Count(1));
            }
            Lift::Minutes { slot, to } => profile.sessions[*slot].minutes = *to,
            Lift::Recovery => profile.recovery_hours = SHORT_RECOVERY,
            Lift::Limits => profile.limits.clear(),
        }
        profile
    }

    fn words(&self, request: &Request, got: &str) -> String {
        let reached = reached(got);
        match self {
            Lift::Kit(item) => format!("the kit: with a {item} {reached}"),
            Lift::Minutes { slot, to } => {
                let session = &request.profile.sessions[*slot];
                format!(
                    "the minutes of {}: with {to} instead of {} {reached}",
                    session.day, session.minutes
                )
            }
            Lift::Recovery => format!(
                "the recovery hours: with {SHORT_RECOVERY} instead of {} {reached}",
                request.profile.recovery_hours
            ),
            Lift::Limits => format!(
                "the limits: without them {reached}; they stay unless whoever set them agrees"
            ),
        }
    }
}

/// Shortfalls in a few words each; a floor is not told beside the range of its muscle.
#[must_use]
pub fn in_short<'a>(findings: impl Iterator<Item = &'a Finding> + Clone) -> Vec<String> {
    let found: BTreeSet<(&str, &str)> =
        findings.clone().map(|one| (one.rule, one.place.as_str())).collect();
    let is_told = |one: &&Finding| {
        told_by(one.rule).is_none_or(|other| !found.contains(&(other, one.place.as_str())))
    };
    findings.filter(is_told).map(Finding::in_short).collect()
}

/// What a wish comes to; nothing is told of one that is met.
fn reached(got: &str) -> String {
    if got.is_empty() { "it is met".to_owned() } else { format!("it gets {got}") }
}

/// What stands in place of the reasons where nobody looks for them, as each lift is a week planned again.
#[must_use]
pub fn not_asked(short: &[Finding]) -> Vec<(String, Option<Lift>)> {
    short.iter().map(|_| (NOT_ASKED.to_owned(), None)).collect()
}

/// Why each of some shortfalls is one, in their order, with the lift that was found to improve it.
#[must_use]
pub fn reasons(request: &Request, week: &Week, short: &[Finding]) -> Vec<(String, Option<Lift>)> {
    if short.is_empty() {
        return Vec::new();
    }
    let plain = planned(request, request.profile.clone());
    let tried = |lift: Lift| {
        let planned = planned(request, lift.applied(&request.profile));
        (lift, planned)
    };
    let lifts: Vec<_> = shared_lifts(request, week).into_iter().map(tried).collect();
    let by_hand = request.rework.as_ref().is_some_and(|rework| rework.as_written);
    let mut items = BTreeMap::new();
    let reason = |finding: &Finding| match better(finding, week, plain.as_ref()) {
        // A week that meets it was there to be had without any lift.
        Some(got) if by_hand => (format!("{AS_WRITTEN} {}", reached(&got)), None),
        Some(_) => (OTHERS_FIRST.to_owned(), None),
        None => reason(request, week, finding, (&lifts, &mut items)),
    };
    short.iter().map(reason).collect()
}

/// A week that was planned to see whether something helps, and what it misses.
type Tried = (Vec<Finding>, Week);

fn better(finding: &Finding, week: &Week, tried: Option<&Tried>) -> Option<String> {
    let (findings, lifted) = tried?;
    improves(finding, week, findings, lifted)
}

fn reason(
    request: &Request,
    week: &Week,
    finding: &Finding,
    (shared, items): (&[(Lift, Option<Tried>)], &mut BTreeMap<Kit, Option<Tried>>),
) -> (String, Option<Lift>) {
    for (lift, tried) in shared {
        if let Some(got) = better(finding, week, tried.as_ref()) {
            return (lift.words(request, &got), Some(lift.clone()));
        }
    }
    if let Some(item) = nearest_item(request, finding) {
        let lift = Lift::Kit(item);
        // Several wishes may lack one item.
        let tried =
            items.entry(item).or_insert_with(|| planned(request, lift.applied(&request.profile)));
        if let Some(got) = better(finding, week, tried.as_ref()) {
            return (lift.words(request, &got), Some(lift));
        }
    }
    let told = if trains(request, finding) { NOTHING_HELPS } else { NOTHING_TRAINS };
    (told.to_owned(), None)
}

fn shared_lifts(request: &Request, week: &Week) -> Vec<Lift> {
    let left = |session: &crate::week::Session| {
        i64::from(request.days[session.day].minutes) * 60 - i64::from(session.seconds())
    };
    let fullest = week.sessions.iter().min_by_key(|session| left(session));
    let slot = fullest.and_then(|session| {
        let day = &request.days[session.day];
        let slots = &request.profile.sessions;
        slots.iter().position(|slot| slot.day == day.weekday && slot.at == day.at)
    });
    let mut lifts = Vec::new();
    lifts.extend(slot.map(|slot| {
        let now = request.profile.sessions[slot].minutes;
        Lift::Minutes { slot, to: (now + MORE_MINUTES).min(LONGEST_SESSION) }
    }));
    let days = 0..request.days.len();
    let some_are_close =
        days.clone().any(|one| (one + 1..days.end).any(|other| request.too_close(one, other)));
    if request.profile.recovery_hours > SHORT_RECOVERY && some_are_close {
        lifts.push(Lift::Recovery);
    }
    if !request.profile.limits.is_empty() {
        lifts.push(Lift::Limits);
    }
    lifts
}

/// A quick week of a profile as it would be planned, and what it misses of the targets of the week as it is.
fn planned(request: &Request, profile: Profile) -> Option<Tried> {
    let lifted = Request { rework: None, ..request.with_profile(profile) };
    let solution = probe::sketch(&lifted, &design::candidates(&lifted), CHANGES_A_DAY)?;
    let sessions = compose::sessions(&lifted, &solution, 0);
    let week = audit::week_of(&sessions, &lifted).ok()?;
    let held = Request { targets: request.targets.clone(), ..lifted };
    Some((audit::recount(&held, &week), week))
}

/// What a wish gets in a lifted week if that is better; empty where it is met.
fn improves(finding: &Finding, week: &Week, findings: &[Finding], lifted: &Week) -> Option<String> {
    let still = findings.iter().find(|other| {
        other.severity == Severity::Shortfall
            && other.rule == finding.rule
            && other.place == finding.place
            && other.wanted == finding.wanted
    });
    let Some(still) = still else { return Some(String::new()) };
    let muscle = finding.muscle?;
    let over = finding.wanted.bound() == Some(Bound::AtMost);
    let (before, after) = (week.halves(muscle), lifted.halves(muscle));
    let better = if over { after < before } else { after > before };
    better.then(|| still.got.to_string())
}

/// Whether any exercise left trains the muscle that a wish is about.
fn trains(request: &Request, finding: &Finding) -> bool {
    if finding.got == Figure::NoneLeft {
        return false;
    }
    finding.muscle.is_none_or(|muscle| request.candidates.iter().any(|one| one.halves(muscle) == 2))
}

/// The single missing item that would bring in most exercises for the muscle or pattern of a wish.
fn nearest_item(request: &Request, finding: &Finding) -> Option<Kit> {
    let muscle = finding.muscle;
    let serves = |id: &str| {
        request.entries.get(id).is_some_and(|entry| match muscle {
            Some(muscle) => entry.direct.contains(&muscle),
            None => entry.pattern.is_some_and(|pattern| pattern.id().contains(&finding.place)),
        })
    };
    let mut counts = BTreeMap::new();
    for (id, reason) in &request.barred {
        if let Barred::Kit(missing) = reason
            && missing.len() == 1
            && serves(id)
        {
            *counts.entry(missing[0]).or_insert(0) += 1;
        }
    }
    counts
        .into_iter()
        .max_by_key(|(item, count)| (*count, std::cmp::Reverse(*item)))
        .map(|(item, _)| item)
}
