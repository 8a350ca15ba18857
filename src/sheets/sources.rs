//! What the numbers of a plan rest on: the sources of the rows that its targets and doses come from.

use std::collections::BTreeSet;

use serde::Serialize;

use super::{Names, head};
use crate::plan::file::Plan;
use crate::request::dose::{self, Duty, citation};
use crate::request::targets;
use crate::words::{GroupKind, WeekKind};

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
/// Loads rise once more is done than was asked.
const NEXT: &[&str] = &["RX-04", "RX-12"];
/// Easier weeks and what they cut.
const EASIER: &[&str] = &["VO-13", "VO-14"];
/// The general part of a preparation.
const PREPARATION: &[&str] = &["WU-05"];

/// What no study settles, in words that a coach can pass on.
const PRACTICE: &[&str] = &[
    "two days between hard sessions for a muscle are a convention, and trials with consecutive days show like results",
    "order, pull to push, knee to hip, number of exercises and minutes kept are yours to change",
];

/// The sources that a plan's numbers come from, part by part.
pub(crate) fn of(plan: &Plan, names: &Names<'_>) -> Vec<Source> {
    let has = |kind| plan.sessions.iter().flat_map(|s| &s.groups).any(|group| group.kind == kind);
    let fixed = |about, ids: &[&'static str], is_used: bool| {
        let says = ids.iter().filter_map(|id| citation(id)).filter(|_| is_used).collect();
        Source { about, says }
    };
    let easier = plan.weeks.iter().any(|week| week.kind == WeekKind::Easy);
    let parts = [
        fixed("Counting sets", COUNTING, true),
        Source { about: "Sets a week", says: targets(plan) },
        Source { about: "Sets, repetitions and rests", says: doses(plan, names) },
        fixed("The next load", NEXT, true),
        fixed("Easier weeks", EASIER, easier),
        fixed("Preparation", PREPARATION, has(GroupKind::Prep)),
        Source { about: "Common practice", says: PRACTICE.to_vec() },
    ];
    parts.into_iter().filter(|part| !part.says.is_empty()).collect()
}

/// Behind the ranges of the muscles, for a plan that holds its profile.
fn targets(plan: &Plan) -> Vec<&'static str> {
    let Some(profile) = head::profile(plan) else { return Vec::new() };
    let own = &profile.targets;
    let ranged =
        plan.volume.iter().filter(|row| row.low.is_some() && !own.contains_key(&row.muscle));
    cited(
        ranged.flat_map(|row| {
            targets::sources(profile.goal, profile.training_status, row.muscle).iter()
        }),
    )
}

/// Behind the doses of the work and of what goes on around it.
fn doses(plan: &Plan, names: &Names<'_>) -> Vec<&'static str> {
    let Some(profile) = head::profile(plan) else { return Vec::new() };
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let items = groups.filter(|group| group.kind != GroupKind::Prep).flat_map(|group| &group.items);
    let duties: BTreeSet<Duty> =
        items.filter_map(|item| names.entry(&item.exercise)).map(Duty::of).collect();
    cited(
        duties.into_iter().flat_map(|duty| {
            dose::dose(profile.goal, profile.training_status, duty).sources.iter()
        }),
    )
}

/// Each citation once, in the order of its id; common practice has a line of its own.
fn cited<'a>(ids: impl Iterator<Item = &'a String>) -> Vec<&'static str> {
    let ids: BTreeSet<&String> = ids.filter(|id| *id != "common").collect();
    ids.into_iter().filter_map(|id| citation(id)).collect()
}
