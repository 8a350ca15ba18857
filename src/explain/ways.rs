//! The cheapest ways out of a conflict, each planned before it is told.

use std::collections::BTreeSet;
use std::fmt;

use super::QUICK;
use super::conflict::{self, Collision, Conflict, HardRules, PathStep};
use super::filter::{Group, Verdict};
use crate::input::place::Stock;
use crate::input::profile::{GradedLimit, Limit, Profile, TargetWish};
use crate::request::candidate::grade;
use crate::request::{Barred, Request, resolve};
use crate::rules::to_halves;
use crate::solution::search;
use crate::split::design;
use crate::words::{Grade, Kit, Muscle, Stress};

/// Most ways that are told.
const MOST_WAYS: usize = 3;
/// Most changes that one way may need, and the most minutes that a day may grow by.
const MOST_CHANGES: usize = 4;
const MOST_MINUTES: u32 = 60;
/// Longest session that a profile may ask for.
const LONGEST_SESSION: u32 = 240;

/// One change to a profile.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// A session gets longer.
    Minutes {
        /// Its place in the profile.
        slot: usize,
        /// The day as messages call it.
        day: String,
        /// Minutes now.
        from: u32,
        /// Minutes then.
        to: u32,
    },
    /// A strict target starts lower.
    StrictLow {
        /// The muscle.
        muscle: Muscle,
        /// Sets now.
        from: f64,
        /// Sets then.
        to: f64,
    },
    /// An exercise need not be in the week.
    DropMust(String),
    /// A limit lets the light form through.
    Lighter(Stress),
    /// The place gets an item.
    Kit(Kit),
}

/// A way out: what to change, and what that costs in minutes or the like.
#[derive(Debug, Clone, PartialEq)]
pub struct WayOut {
    /// The changes, all of them needed.
    pub changes: Vec<Change>,
    /// What it weighs: a minute counts 1, a set under a strict target 4, a dropped exercise 20, a lighter limit 25, a
    /// new item of kit 40. A convention of ours.
    pub cost: f64,
    /// The profile with the changes made.
    pub profile: Profile,
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Change::Minutes { day, from, to, .. } => {
                write!(f, "give {day} {} more minutes ({to})", to - from)
            }
            Change::StrictLow { muscle, from, to } => {
                write!(f, "let the strict {muscle} target start at {to} sets instead of {from}")
            }
            Change::DropMust(id) => write!(f, "drop `must: {id}`"),
            Change::Lighter(stress) => write!(
                f,
                "if whoever set the limit agrees, allow light work: `{{tag: {stress}, allow: light}}`"
            ),
            Change::Kit(item) => write!(f, "bring a {item}, and add it to the kit"),
        }
    }
}

impl fmt::Display for WayOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts: Vec<String> = self.changes.iter().map(ToString::to_string).collect();
        f.write_str(&parts.join(", and "))
    }
}

impl Change {
    fn cost(&self) -> f64 {
        match self {
            Change::Minutes { from, to, .. } => f64::from(to - from),
            Change::StrictLow { from, to, .. } => 4.0 * (from - to),
            Change::DropMust(_) => 20.0,
            Change::Lighter(_) => 25.0,
            Change::Kit(_) => 40.0,
        }
    }

    fn apply(&self, profile: &mut Profile) {
        match self {
            Change::Minutes { slot, to, .. } => profile.sessions[*slot].minutes = *to,
            Change::StrictLow { muscle, to, .. } => {
                if let Some(TargetWish::Strict(wish)) = profile.targets.get_mut(muscle) {
                    wish.range[0] = *to;
                }
            }
            Change::DropMust(id) => profile.exercises.must.retain(|other| other != id),
            Change::Lighter(stress) => {
                for limit in &mut profile.limits {
                    if *limit == Limit::Whole(*stress) {
                        *limit = Limit::Graded(GradedLimit { tag: *stress, allow: Grade::Light });
                    }
                }
            }
            Change::Kit(item) => {
                let equipment = profile.equipment.get_or_insert_default();
                equipment.items.insert(*item, Stock::Count(1));
            }
        }
    }

    /// Whether it changes the same thing, so that the later one replaces the earlier.
    fn replaces(&self, other: &Change) -> bool {
        match (self, other) {
            (Change::Minutes { slot, .. }, Change::Minutes { slot: before, .. }) => slot == before,
            (Change::StrictLow { muscle, .. }, Change::StrictLow { muscle: before, .. }) => {
                muscle == before
            }
            _ => self == other,
        }
    }
}

/// Up to three cheapest ways out of a conflict, smallest first. Each was planned.
#[must_use]
pub fn ways_out(request: &Request, conflict: &Conflict) -> Vec<WayOut> {
    let mut first: Vec<Vec<Change>> =
        single_changes(request, conflict).into_iter().map(|change| vec![change]).collect();
    first.extend(for_all_minutes(request, conflict));
    let mut ways: Vec<WayOut> =
        first.into_iter().filter_map(|changes| completed(request, changes)).collect();
    ways.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    ways.dedup_by(|next, first| next.changes == first.changes);
    ways.truncate(MOST_WAYS);
    ways
}

/// The request of another profile with the same catalog, seed and start.
#[must_use]
pub fn with_profile(request: &Request, profile: Profile) -> Request {
    let mains = request.previous_mains.clone();
    let resolved = resolve::resolve(profile, request.entries.clone(), mains, request.seed);
    Request { rework: request.rework.clone(), ..resolved }
}

/// Adds the cheapest change for each further conflict, until a week is found.
fn completed(request: &Request, mut changes: Vec<Change>) -> Option<WayOut> {
    for _ in 0..MOST_CHANGES {
        let mut profile = request.profile.clone();
        for change in &changes {
            change.apply(&mut profile);
        }
        let changed = with_profile(request, profile);
        if plans(&changed) {
            let cost = changes.iter().map(Change::cost).sum();
            return Some(WayOut { changes, cost, profile: changed.profile });
        }
        let next = conflict::explain(&changed)?;
        let mut more: Vec<Vec<Change>> =
            single_changes(&changed, &next).into_iter().map(|change| vec![change]).collect();
        more.extend(for_all_minutes(&changed, &next));
        let cost = |changes: &Vec<Change>| changes.iter().map(Change::cost).sum::<f64>();
        let cheapest = more.into_iter().min_by(|one, other| cost(one).total_cmp(&cost(other)))?;
        for change in cheapest {
            add(&mut changes, change);
        }
    }
    None
}

fn add(changes: &mut Vec<Change>, change: Change) {
    let Some(before) = changes.iter_mut().find(|before| change.replaces(before)) else {
        changes.push(change);
        return;
    };
    match (before, change) {
        (Change::Minutes { to, .. }, Change::Minutes { to: next, .. }) => *to = next,
        (Change::StrictLow { to, .. }, Change::StrictLow { to: next, .. }) => *to = next,
        _ => {}
    }
}

/// Whether a week is found and no `must` is out.
#[must_use]
pub fn plans(request: &Request) -> bool {
    search::best(request, &design::candidates(request), QUICK).is_ok()
}

/// Every single change that undoes a conflict by itself.
fn single_changes(request: &Request, conflict: &Conflict) -> Vec<Change> {
    let mut changes = Vec::new();
    let mut slots: BTreeSet<usize> = BTreeSet::new();
    for collision in &conflict.collisions {
        let slot = slot_of(collision);
        match (collision.rule.as_str(), slot) {
            ("wish-lists", _) => changes.extend(for_must(request, &collision.subject)),
            ("weekly-volume", _) => {
                changes.extend(for_strict(request, conflict.groups(), &collision.subject));
            }
            (_, Some(slot)) if slots.insert(slot) => {
                changes.extend(for_minutes(request, conflict.groups(), slot));
            }
            _ => {}
        }
    }
    changes.dedup();
    changes
}

fn for_must(request: &Request, id: &str) -> Vec<Change> {
    if !request.profile.exercises.must.iter().any(|must| must == id) {
        return Vec::new();
    }
    let mut changes = vec![Change::DropMust(id.to_owned())];
    let entry = request.entries.get(id);
    match (request.barred.get(id), entry) {
        (Some(Barred::Kit(missing)), _) if missing.len() == 1 => {
            changes.push(Change::Kit(missing[0]))
        }
        (Some(Barred::Limit(stress)), Some(entry))
            if grade(entry, *stress) == Some(Grade::Light)
                && request.profile.limits.contains(&Limit::Whole(*stress)) =>
        {
            changes.push(Change::Lighter(*stress));
        }
        _ => {}
    }
    changes
}

/// The least minutes that undo the conflict, by halving.
fn for_minutes(request: &Request, groups: &BTreeSet<Group>, slot: usize) -> Option<Change> {
    let from = request.profile.sessions[slot].minutes;
    let undone = |more: u32| {
        let mut profile = request.profile.clone();
        profile.sessions[slot].minutes = from + more;
        undoes(request, profile, groups)
    };
    let most = MOST_MINUTES.min(LONGEST_SESSION.saturating_sub(from));
    let more = least(most, undone)?;
    Some(longer(request, slot, more))
}

/// The same number of minutes more for every session of the conflict, where it names several.
fn for_all_minutes(request: &Request, conflict: &Conflict) -> Option<Vec<Change>> {
    let slots: BTreeSet<usize> = conflict.collisions.iter().filter_map(slot_of).collect();
    let longest = slots.iter().map(|slot| request.profile.sessions[*slot].minutes).max()?;
    let changes = |more: u32| -> Vec<Change> {
        slots.iter().map(|slot| longer(request, *slot, more)).collect()
    };
    let undone = |more: u32| {
        let mut profile = request.profile.clone();
        for change in changes(more) {
            change.apply(&mut profile);
        }
        undoes(request, profile, conflict.groups())
    };
    let most = MOST_MINUTES.min(LONGEST_SESSION.saturating_sub(longest));
    let more = if slots.len() > 1 { least(most, undone)? } else { return None };
    Some(changes(more))
}

fn longer(request: &Request, slot: usize, more: u32) -> Change {
    let session = &request.profile.sessions[slot];
    let day = match &session.at {
        Some(at) => format!("{}@{at}", session.day),
        None => session.day.to_string(),
    };
    Change::Minutes { slot, day, from: session.minutes, to: session.minutes + more }
}

/// The session that a collision is about.
fn slot_of(collision: &Collision) -> Option<usize> {
    match collision.path.as_slice() {
        [PathStep::Key(key), PathStep::Index(slot), ..] if key == "sessions" => Some(*slot),
        _ => None,
    }
}

/// The highest start of a strict target that undoes the conflict, by halving over half-sets.
fn for_strict(request: &Request, groups: &BTreeSet<Group>, muscle: &str) -> Option<Change> {
    let muscle: Muscle = muscle.parse().ok()?;
    let Some(TargetWish::Strict(wish)) = request.profile.targets.get(&muscle) else { return None };
    let from = wish.range[0];
    let lowered = |halves: u32| (from - f64::from(halves) / 2.0).max(0.0);
    let undone = |halves: u32| {
        let mut profile = request.profile.clone();
        Change::StrictLow { muscle, from, to: lowered(halves) }.apply(&mut profile);
        undoes(request, profile, groups)
    };
    let halves = least(to_halves(from), undone)?;
    Some(Change::StrictLow { muscle, from, to: lowered(halves) })
}

/// Whether the groups of a conflict can hold together under another profile.
fn undoes(request: &Request, profile: Profile, groups: &BTreeSet<Group>) -> bool {
    let changed = with_profile(request, profile);
    let musts = changed.profile.exercises.must.iter();
    let out = musts.filter(|id| changed.candidate(id).is_none()).count();
    out == 0 && HardRules::of(&changed).verdict(Some(groups)) == Verdict::Feasible
}

/// The least number from 1 to the most at which a test holds, if it holds at the most.
fn least(most: u32, test: impl Fn(u32) -> bool) -> Option<u32> {
    if most == 0 || !test(most) {
        return None;
    }
    let (mut fails, mut holds) = (0, most);
    while holds - fails > 1 {
        let middle = u32::midpoint(fails, holds);
        if test(middle) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    Some(holds)
}
