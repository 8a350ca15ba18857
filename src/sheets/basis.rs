//! What a plan rests on, row by row: doses, weekly sets, the sources behind every other number, and where sources
//! disagree.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::sources::{self, Part};
use super::{Lookup, Names, head};
use crate::input::profile::Profile;
use crate::plan::file::Plan;
use crate::request::conflicts::{self, About, Conflict};
use crate::request::dose::{self, Duty, citation};
use crate::request::{target, targets};
use crate::words::{Goal, GroupKind, Measure, Muscle, WeekKind};

/// What `plan --sources` prints.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Basis {
    /// The client's code.
    pub client: String,
    /// Goal, status and place.
    pub about: String,
    /// The row of the dose table behind each kind of exercise in the plan.
    pub doses: Vec<DoseRow>,
    /// The row of the target table behind each muscle, muscles with the same row together.
    pub targets: Vec<TargetRow>,
    /// Source ids of everything else, part by part.
    parts: Vec<Part>,
    /// Where sources disagree, and what the plan goes by.
    pub conflicts: Vec<Conflict>,
    /// Every id that is named, with its citation.
    pub citations: BTreeMap<String, &'static str>,
}

/// A row of the dose table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DoseRow {
    /// What the exercise is there for.
    pub duty: &'static str,
    /// Fewest and most sets in a session.
    pub sets: [u32; 2],
    /// Least and most of a set.
    pub amount: [u32; 2],
    /// What a set counts.
    pub unit: Measure,
    /// The most of a set in the first four weeks.
    pub first_weeks: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// Rest after a set, in seconds.
    pub rest_s: u32,
    /// Lowering-pause-lifting-pause in seconds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tempo: Option<String>,
    /// Source ids.
    pub sources: Vec<String>,
}

/// A row of the target table, or the client's own range.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TargetRow {
    /// The muscles it holds for.
    pub muscles: Vec<Muscle>,
    /// The least worth planning, where the table has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub floor: Option<f64>,
    /// Low end, where the muscle has a range.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// High end, or the ceiling.
    pub high: f64,
    /// Source ids; none for the client's own range.
    pub sources: Vec<String>,
}

/// What a plan of ours rests on; a plan that only names its profile's file rests on nothing we could tell.
#[must_use]
pub fn basis(plan: &Plan, names: &dyn Lookup) -> Option<Basis> {
    let names = Names::new(plan, names);
    let profile = head::profile(plan)?;
    let duties = sources::duties(plan, &names);
    let mut basis = Basis {
        client: head::client(plan),
        about: head::about(plan).unwrap_or_default(),
        doses: duties.into_iter().map(|duty| dose_row(profile, duty)).collect(),
        targets: target_rows(plan, profile),
        parts: sources::parts(plan, &names),
        conflicts: conflicts::on(&bearing(plan, profile)).into_iter().cloned().collect(),
        citations: BTreeMap::new(),
    };
    basis.citations =
        basis.ids().into_iter().filter_map(|id| Some((id.clone(), citation(&id)?))).collect();
    Some(basis)
}

impl Basis {
    /// Part by part: what the numbers are, and their source ids.
    pub fn parts(&self) -> impl Iterator<Item = (&'static str, &[&'static str])> {
        self.parts.iter().map(|part| (part.about, part.sources.as_slice()))
    }

    fn ids(&self) -> BTreeSet<String> {
        let rows = self.doses.iter().flat_map(|row| &row.sources);
        let rows = rows.chain(self.targets.iter().flat_map(|row| &row.sources));
        let rows = rows.chain(self.conflicts.iter().flat_map(|row| &row.sources)).cloned();
        let parts = self.parts.iter().flat_map(|part| &part.sources);
        rows.chain(parts.map(|id| (*id).to_owned())).collect()
    }
}

fn dose_row(profile: &Profile, duty: Duty) -> DoseRow {
    let dose = dose::dose(profile.goal, profile.training_status, duty);
    DoseRow {
        duty: duty.name(),
        sets: dose.sets,
        amount: dose.reps,
        unit: dose.unit,
        first_weeks: dose.aim,
        rir: dose.rir,
        rest_s: dose.rest_s,
        tempo: dose.tempo.clone(),
        sources: dose.sources.clone(),
    }
}

/// The client's own ranges first, then the table's rows in the order of the muscles.
fn target_rows(plan: &Plan, profile: &Profile) -> Vec<TargetRow> {
    let mut rows: Vec<TargetRow> = Vec::new();
    for volume in &plan.volume {
        let (muscle, own) = (volume.muscle, profile.targets.contains_key(&volume.muscle));
        let (goal, status) = (profile.goal, profile.training_status);
        let table = targets::target(goal, status, muscle).filter(|_| !own);
        let row = TargetRow {
            muscles: Vec::new(),
            floor: table.as_ref().map(|row| row.floor),
            low: volume.low.or(table.as_ref().map(|row| row.low)),
            high: volume.high.unwrap_or_else(|| target::ceiling(profile, muscle)),
            sources: if own { Vec::new() } else { targets::sources(goal, status, muscle).to_vec() },
        };
        let same = |other: &&mut TargetRow| {
            (other.floor, other.low, other.high, &other.sources)
                == (row.floor, row.low, row.high, &row.sources)
        };
        match rows.iter_mut().find(same) {
            Some(found) => found.muscles.push(muscle),
            None => rows.push(TargetRow { muscles: vec![muscle], ..row }),
        }
    }
    rows.sort_by_key(|row| !row.sources.is_empty());
    rows
}

/// The parts that a plan has of those that sources disagree about.
fn bearing(plan: &Plan, profile: &Profile) -> Vec<About> {
    let easier = plan.weeks.iter().any(|week| week.kind == WeekKind::Easy);
    let parts = [
        (About::Loads, !profile.known_lifts.is_empty()),
        (About::Size, profile.goal == Goal::Hypertrophy),
        (About::EasierWeeks, easier),
        (About::Conditioning, sources::has(plan, GroupKind::Conditioning)),
    ];
    parts.into_iter().filter(|(_, has)| *has).map(|(part, _)| part).collect()
}
