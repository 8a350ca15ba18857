//! What the numbers of a plan rest on: the sources of the rows that its targets and doses come from.

use std::collections::BTreeSet;

use serde::Serialize;

use super::wording::say;
use super::{Names, head};
use crate::input::profile::Profile;
use crate::plan::file::{Item, Plan};
use crate::request::dose::{self, Duty, citation};
use crate::request::targets;
use crate::words::{Goal, GroupKind, Part as PrepPart, Role, Status, WeekKind};

/// A part of the plan and who says so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct Source {
    /// What the numbers are.
    pub about: &'static str,
    /// Citations, or a sentence of common practice.
    pub says: Vec<&'static str>,
}

/// Half a set for an indirect muscle.
const COUNTING: &[&str] = &["VO-03"];
/// Loads from what was lifted: the repetition table at a reserve, the named estimator and the others.
const LOADS: &[&str] =
    &["RM-14", "RM-22", "RM-02", "RM-01", "RM-03", "RM-04", "RM-05", "RM-06", "RM-07", "RM-10"];
/// How effort is told.
const EFFORT: &[&str] = &["RM-18", "RM-21"];
/// Why a beginner reads words and steers nothing by them at first.
const EFFORT_OF_NOVICES: &[&str] = &["RM-18", "RM-19", "RM-21"];
/// Lighter sets on the way.
const RAMP: &[&str] = &["WU-07"];
/// Loads rise once more is done than was asked, by steps of the kit.
const NEXT: &[&str] = &["RX-04", "RX-12", "RX-13"];
/// Heavy lifts follow a load of the week; a missed reserve takes some off.
const HEAVY: &[&str] = &["RX-09", "RM-23"];
/// Easier weeks and what they cut.
const EASIER: &[&str] = &["VO-13", "VO-14"];
/// The general part of a preparation.
const PREPARATION: &[&str] = &["WU-05"];
/// How long a muscle is rolled.
const ROLLING: &[&str] = &["WU-03"];
/// Why a short session has no general part.
const SHORT: &[&str] = &["WU-06"];
/// Bands of effort, work to rest, and the weekly minutes.
const CONDITIONING: &[&str] = &["CO-06", "CO-08", "CO-09", "CO-17"];
/// Heart rates from age.
const HEART_RATE: &[&str] = &["CO-01", "CO-04", "CO-05"];

/// A part of the plan and the ids of what its numbers come from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct Part {
    /// What the numbers are.
    pub about: &'static str,
    /// Source ids.
    pub sources: Vec<&'static str>,
}

/// The sources that a plan's numbers come from, part by part.
pub(crate) fn of(plan: &Plan, names: &Names<'_>) -> Vec<Source> {
    let mut parts: Vec<Source> = parts(plan, names)
        .into_iter()
        .map(|part| Source { about: part.about, says: cited(&part.sources) })
        .filter(|source| !source.says.is_empty())
        .collect();
    // What no study settles, in words that a coach can pass on.
    let says = vec![say!(practice_days), say!(practice_rest)];
    parts.push(Source { about: say!(practice), says });
    parts
}

/// The parts that a plan has, each with its source ids.
pub(crate) fn parts(plan: &Plan, names: &Names<'_>) -> Vec<Part> {
    let profile = head::profile(plan);
    let is = |test: fn(&Profile) -> bool| profile.is_some_and(test);
    let effort = if is(|profile| profile.training_status == Status::Novice) {
        EFFORT_OF_NOVICES
    } else {
        EFFORT
    };
    let fixed = |about, ids: &[&'static str], is_used: bool| {
        (about, ids.iter().copied().filter(|_| is_used).collect::<Vec<_>>())
    };
    let easier = plan.weeks.iter().any(|week| week.kind == WeekKind::Easy);
    let has_conditioning = has(plan, GroupKind::Conditioning);
    let parts = [
        fixed(say!(source_counting), COUNTING, true),
        (say!(source_sets), targets(plan)),
        (say!(source_doses), doses(plan, names)),
        fixed(say!(loads), LOADS, is(|profile| !profile.known_lifts.is_empty())),
        fixed(say!(source_reserve), effort, profile.is_some()),
        fixed(say!(source_ramp), RAMP, items(plan).any(|item| !item.ramp.is_empty())),
        fixed(say!(source_next), NEXT, true),
        fixed(say!(source_heavy), HEAVY, is(is_heavy)),
        fixed(say!(source_easier), EASIER, easier),
        (say!(group_prep), preparation(plan, names)),
        fixed(say!(group_conditioning), CONDITIONING, has_conditioning),
        fixed(
            say!(source_heart_rate),
            HEART_RATE,
            has_conditioning && is(|profile| profile.birth_year.is_some()),
        ),
    ];
    let parts = parts.into_iter().map(|(about, sources)| Part { about, sources });
    parts.filter(|part| !part.sources.is_empty()).collect()
}

fn is_heavy(profile: &Profile) -> bool {
    profile.training_status != Status::Novice
        && matches!(profile.goal, Goal::Strength | Goal::Power)
}

/// Whether the week at its fullest, or any other, has such a group.
pub(crate) fn has(plan: &Plan, kind: GroupKind) -> bool {
    let weeks = plan.weeks.iter().flat_map(|week| &week.sessions);
    let mut groups = plan.sessions.iter().chain(weeks).flat_map(|session| &session.groups);
    groups.any(|group| group.kind == kind)
}

fn items(plan: &Plan) -> impl Iterator<Item = &Item> {
    plan.sessions.iter().flat_map(|session| &session.groups).flat_map(|group| &group.items)
}

/// Behind what readies the muscles of the day.
fn preparation(plan: &Plan, names: &Names<'_>) -> Vec<&'static str> {
    let part = |wanted: PrepPart| {
        let mut entries = items(plan).filter_map(|item| names.entry(&item.exercise));
        entries.any(|entry| entry.role == Role::Prep && entry.part == Some(wanted))
    };
    let mut ids = Vec::new();
    for (used, of) in [
        (part(PrepPart::General), PREPARATION),
        (part(PrepPart::Rolling), ROLLING),
        (has(plan, GroupKind::Prep) && !part(PrepPart::General), SHORT),
    ] {
        ids.extend(of.iter().copied().filter(|_| used));
    }
    ids
}

/// Behind the ranges of the muscles, for a plan that holds its profile.
fn targets(plan: &Plan) -> Vec<&'static str> {
    let Some(profile) = head::profile(plan) else { return Vec::new() };
    let own = &profile.targets;
    let ranged =
        plan.volume.iter().filter(|row| row.low.is_some() && !own.contains_key(&row.muscle));
    published(
        ranged.flat_map(|row| {
            targets::sources(profile.goal, profile.training_status, row.muscle).iter()
        }),
    )
}

/// Behind the doses of the work and of what goes on around it.
fn doses(plan: &Plan, names: &Names<'_>) -> Vec<&'static str> {
    let Some(profile) = head::profile(plan) else { return Vec::new() };
    published(
        duties(plan, names).into_iter().flat_map(|duty| {
            dose::dose(profile.goal, profile.training_status, duty).sources.iter()
        }),
    )
}

/// What the plan's exercises are there for, but for preparation.
pub(crate) fn duties(plan: &Plan, names: &Names<'_>) -> BTreeSet<Duty> {
    let entries = items(plan).filter_map(|item| names.entry(&item.exercise));
    entries.map(Duty::of).filter(|duty| *duty != Duty::Prep).collect()
}

/// Each id once, in order; common practice has a line of its own.
fn published(ids: impl Iterator<Item = &'static String>) -> Vec<&'static str> {
    let ids: BTreeSet<&str> = ids.map(String::as_str).filter(|id| *id != "common").collect();
    ids.into_iter().collect()
}

fn cited(ids: &[&'static str]) -> Vec<&'static str> {
    ids.iter().filter_map(|id| citation(id)).collect()
}
