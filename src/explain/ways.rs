//! The cheapest ways out of a conflict, each planned before it is told.

use std::collections::BTreeSet;
use std::fmt;

use itertools::Itertools as _;
use rayon::prelude::*;

use super::collision::listed;
use super::conflict::{self, Conflict};
use super::hard::HardRules;
use super::shortfall;
use crate::audit;
use crate::diagnostic::counted;
use crate::input::plan::Session;
use crate::input::profile::Profile;
use crate::plan::compose;
use crate::request::Request;
use crate::rules::reason::relaxations;
use crate::rules::relaxation::{Change, Relaxation};
use crate::rules::{Severity, to_halves};
use crate::search::feasibility::{FINDING, QUICK, Stage};
use crate::search::probe;
use crate::split::{Split, design};
use crate::words::Muscle;

/// Most ways that are told.
const MOST_WAYS: usize = 3;
/// Conflicts behind one another that are looked at for steps.
const MOST_CONFLICTS: usize = 4;
/// The most minutes that a day may grow by.
const MOST_MINUTES: u32 = 60;
/// Longest session that a profile may ask for.
const LONGEST_SESSION: u32 = 240;

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
    /// Wishes that a quickly planned week with the changes falls short of, in a few words each.
    pub lacks: Vec<String>,
}

/// Shortfalls of a way out that are told by name.
const MOST_LACKS: usize = 3;

impl WayOut {
    /// What is changed, and what the plan then lacks.
    #[must_use]
    pub fn effect(&self) -> String {
        let told = self.lacks.iter().take(MOST_LACKS).cloned().collect::<Vec<_>>().join(", ");
        let more = if self.lacks.len() > MOST_LACKS { ", ..." } else { "" };
        let then = match self.lacks.len() {
            0 => "the plan then meets every wish".to_owned(),
            count => {
                format!("the plan then misses {} ({told}{more})", counted(count, "wish", "wishes"))
            }
        };
        format!("{self}: {then}")
    }
}

impl fmt::Display for WayOut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let longer: Vec<(&str, u32, u32)> = self.changes.iter().filter_map(longer_day).collect();
        let (mut parts, mut others) = (Vec::new(), self.changes.iter().collect::<Vec<_>>());
        if let [(_, from, to), rest @ ..] = longer.as_slice()
            && !rest.is_empty()
            && rest.iter().all(|(_, one, other)| (one, other) == (from, to))
        {
            let days: Vec<&str> = longer.iter().map(|(day, ..)| *day).collect();
            let days = listed(&days);
            let more = counted((to - from) as usize, "more minute", "more minutes");
            parts.push(format!("give {days} {more} each ({to})"));
            others.retain(|change| longer_day(change).is_none());
        }
        parts.extend(others.iter().map(ToString::to_string));
        f.write_str(&parts.join(", and "))
    }
}

/// The day of a session that gets longer, and its minutes before and then.
fn longer_day(change: &Change) -> Option<(&str, u32, u32)> {
    match change {
        Change::Minutes { day, from, to, .. } => Some((day, *from, *to)),
        _ => None,
    }
}

/// Up to three cheapest ways out of a conflict, smallest first. Each was planned.
#[must_use]
pub fn ways_out(request: &Request, conflict: &Conflict) -> Vec<WayOut> {
    let steps = steps(request, conflict);
    let single = steps.par_iter().filter_map(|one| measured(request, &[one]));
    let ways = cheapest(request, single.collect());
    if !ways.is_empty() {
        return ways;
    }
    // Where no single step helps, two together may, and then all of them.
    let pairs: Vec<[&Step; 2]> = steps.iter().array_combinations().collect();
    let ways = pairs.par_iter().filter_map(|pair| measured(request, pair));
    let ways = cheapest(request, ways.collect());
    if ways.is_empty() { cheapest(request, of_all(request, steps)) } else { ways }
}

/// All steps together, with those of the conflicts that stand behind the first: the wishes kept before the minutes,
/// and the minutes before the wishes.
fn of_all(request: &Request, mut steps: Vec<Step>) -> Vec<Measured> {
    for _ in 0..MOST_CONFLICTS {
        let most = steps.iter().flat_map(|step| step.changes(request, step.most(request)));
        let changed = changed(request, &most.collect::<Vec<_>>());
        if plans(&changed) {
            let in_turn: Vec<&Step> = steps.iter().collect();
            let back: Vec<&Step> = steps.iter().rev().collect();
            return [in_turn, back]
                .par_iter()
                .filter_map(|steps| measured(request, steps))
                .collect();
        }
        let Some(next) = conflict::explain(&changed) else { break };
        let more: Vec<Step> =
            self::steps(request, &next).into_iter().filter(|step| !steps.contains(step)).collect();
        if more.is_empty() {
            break;
        }
        steps.extend(more);
    }
    Vec::new()
}

/// What may be loosened, and how far.
#[derive(Debug, Clone, PartialEq)]
enum Step {
    /// Once and for all.
    Whole(Change),
    /// Sessions get longer, all by the same minutes.
    Longer(Vec<usize>),
    /// A strict target starts lower.
    Lower(Muscle, f64),
}

impl Step {
    /// The most that the step can give.
    fn most(&self, request: &Request) -> u32 {
        match self {
            Step::Whole(_) => 1,
            Step::Longer(slots) => {
                let minutes = slots.iter().map(|slot| request.profile.sessions[*slot].minutes);
                MOST_MINUTES.min(LONGEST_SESSION.saturating_sub(minutes.max().unwrap_or(0)))
            }
            Step::Lower(_, from) => to_halves(*from),
        }
    }

    /// The changes of the step, given so far.
    fn changes(&self, request: &Request, by: u32) -> Vec<Change> {
        match self {
            _ if by == 0 => Vec::new(),
            Step::Whole(change) => vec![change.clone()],
            Step::Longer(slots) => slots.iter().map(|slot| longer(request, *slot, by)).collect(),
            Step::Lower(muscle, from) => {
                let to = (from - f64::from(by) / 2.0).max(0.0);
                vec![Change::StrictLow { muscle: *muscle, from: *from, to }]
            }
        }
    }
}

/// Every step that a conflict suggests.
fn steps(request: &Request, conflict: &Conflict) -> Vec<Step> {
    let (mut slots, mut others) = (BTreeSet::new(), Vec::new());
    for collision in &conflict.collisions {
        for relaxation in relaxations(request, &collision.rule, &collision.subject) {
            match relaxation {
                Relaxation::Longer(slot) => {
                    slots.insert(slot);
                }
                Relaxation::Whole(change) => others.push(Step::Whole(change)),
                Relaxation::Lower(muscle, from) => others.push(Step::Lower(muscle, from)),
            }
        }
    }
    let mut steps: Vec<Step> = slots.iter().map(|slot| Step::Longer(vec![*slot])).collect();
    if slots.len() > 1 {
        steps.push(Step::Longer(slots.into_iter().collect()));
    }
    steps.extend(others);
    steps
}

/// A way out that was found to leave weeks, not yet planned.
struct Measured {
    changes: Vec<Change>,
    cost: f64,
    /// The splits that are not proven to have none.
    possible: BTreeSet<String>,
}

/// The changes that some steps give together, each only as far as it is needed; the last is measured first.
fn measured(request: &Request, steps: &[&Step]) -> Option<Measured> {
    let mut given: Vec<u32> = steps.iter().map(|step| step.most(request)).collect();
    let with = |given: &[u32]| -> Vec<Change> {
        steps.iter().zip(given).flat_map(|(step, by)| step.changes(request, *by)).collect()
    };
    // What is proven impossible stays so where less is given, and runs find nearly all that is left.
    let possible = possible_splits(&changed(request, &with(&given)), &QUICK, |_| true)?;
    let plans = |request: &Request| {
        possible_splits(request, &FINDING, |split| possible.contains(&split.name)).is_some()
    };
    for place in (0..steps.len()).rev() {
        let enough = |by: u32| {
            let mut given = given.clone();
            given[place] = by;
            plans(&changed(request, &with(&given)))
        };
        // Nothing given at all is the conflict itself.
        let fewest = u32::from(steps.len() == 1);
        given[place] = least(fewest, given[place], enough);
    }
    let changes = with(&given);
    let cost = changes.iter().map(Change::cost).sum();
    Some(Measured { changes, cost, possible })
}

/// A way out with a week that was quickly planned.
fn planned(request: &Request, way: Measured) -> Option<WayOut> {
    let Measured { changes, cost, possible } = way;
    let changed = changed(request, &changes);
    let splits = design::candidates(&changed).into_iter();
    let splits: Vec<Split> = splits.filter(|split| possible.contains(&split.name)).collect();
    let solution = probe::sketch_of_any(&changed, &splits)?;
    let lacks = lacks(&changed, &compose::sessions(&changed, &solution, 0));
    Some(WayOut { changes, cost, profile: changed.profile, lacks })
}

/// The cheapest of some ways, as many as are told; the others are not planned.
fn cheapest(request: &Request, mut ways: Vec<Measured>) -> Vec<WayOut> {
    ways.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    ways.dedup_by(|next, first| next.changes == first.changes);
    let (mut told, mut left) = (Vec::new(), ways.into_iter());
    while told.len() < MOST_WAYS {
        let next: Vec<Measured> = left.by_ref().take(MOST_WAYS - told.len()).collect();
        if next.is_empty() {
            break;
        }
        let planned: Vec<Option<WayOut>> =
            next.into_par_iter().map(|way| planned(request, way)).collect();
        told.extend(planned.into_iter().flatten());
    }
    told
}

/// What sessions fall short of.
fn lacks(request: &Request, sessions: &[Session]) -> Vec<String> {
    let Ok(week) = audit::week_of(sessions, request) else { return Vec::new() };
    let found = audit::recount(request, &week);
    shortfall::in_short(found.iter().filter(|one| one.severity == Severity::Shortfall))
}

fn changed(request: &Request, changes: &[Change]) -> Request {
    let mut profile = request.profile.clone();
    for change in changes {
        change.apply(&mut profile);
    }
    request.with_profile(profile)
}

/// Whether a week meets the hard rules; one that was not found counts as none.
#[must_use]
pub fn plans(request: &Request) -> bool {
    possible_splits(request, &QUICK, |_| true).is_some()
}

/// Where a week is found under one of some splits, those that are not proven to have none.
fn possible_splits(
    request: &Request,
    stages: &[Stage],
    ask: impl Fn(&Split) -> bool,
) -> Option<BTreeSet<String>> {
    if request.turn.is_over() {
        return None;
    }
    let splits: Vec<Split> = design::candidates(request).into_iter().filter(ask).collect();
    let open = HardRules::of(request, &splits).open_splits(stages)?;
    Some(open.into_iter().map(|place| splits[place].name.clone()).collect())
}

fn longer(request: &Request, slot: usize, more: u32) -> Change {
    let session = &request.profile.sessions[slot];
    let day = match &session.at {
        Some(at) => format!("{}@{at}", session.day),
        None => session.day.to_string(),
    };
    Change::Minutes { slot, day, from: session.minutes, to: session.minutes + more }
}

/// The least number at which a test holds that is known to hold at the most, and to fail under the fewest. A test may
/// fail at one number and hold at the one below, as games miss weeks and a longer day has a longer warm-up: two fails in
/// a row end it.
fn least(fewest: u32, most: u32, test: impl Fn(u32) -> bool) -> u32 {
    let (mut from, mut holds) = (fewest, most);
    while from < holds {
        let middle = u32::midpoint(from, holds);
        if test(middle) {
            holds = middle;
        } else {
            from = middle + 1;
        }
    }
    while holds >= fewest + 2 && test(holds - 2) {
        holds -= 2;
        if holds > fewest && test(holds - 1) {
            holds -= 1;
        }
    }
    holds
}
