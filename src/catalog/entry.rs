//! Faults within one entry, one function per code.

use std::collections::BTreeMap;

use super::prime_movers::prime_movers;
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::Read;
use crate::input::catalog::Entry;
use crate::path;
use crate::words::{Kit, Measure, Role};

/// An entry and where it stands.
pub(super) struct Placed<'a> {
    pub(super) file: &'a Read<Vec<Entry>>,
    pub(super) index: usize,
    pub(super) entry: &'a Entry,
}

impl Placed<'_> {
    /// A label at a key of the entry, or at its id where the key is not written.
    pub(super) fn at(&self, key: &str, text: impl Into<String>) -> Label {
        let marks = &self.file.marks;
        let key = if marks.has(path![self.index, key]) { key } else { "id" };
        marks.at(path![self.index, key], text)
    }
}

/// All entries of some files with their places.
pub(super) fn placed(files: &[Read<Vec<Entry>>]) -> impl Iterator<Item = Placed<'_>> {
    files.iter().flat_map(|file| {
        let entries = file.value.iter().enumerate();
        entries.map(move |(index, entry)| Placed { file, index, entry })
    })
}

/// Every fault and remark of single entries.
pub(super) fn faults(files: &[Read<Vec<Entry>>]) -> Vec<Diagnostic> {
    let checks: [fn(&Placed<'_>) -> Vec<Diagnostic>; 8] = [
        e1405_work_is_whole,
        e1406_other_roles_name_muscles,
        e1407_range_rises,
        e1408_tempo_goes_with_reps,
        w1409_hold_is_short,
        e1410_muscle_is_told_once,
        e1411_kit_stands_on_its_own,
        w1415_prime_mover_fits,
    ];
    placed(files)
        .flat_map(|entry| checks.iter().flat_map(move |check| check(&entry)).collect::<Vec<_>>())
        .collect()
}

/// E1401: an id stands for one exercise.
pub(super) fn duplicates(files: &[Read<Vec<Entry>>]) -> Vec<Diagnostic> {
    let mut first: BTreeMap<&str, Placed<'_>> = BTreeMap::new();
    let mut faults = Vec::new();
    for placed in placed(files) {
        let id = placed.entry.id.as_str();
        match first.get(id) {
            Some(earlier) => faults.push(
                Diagnostic::error("E1401", format!("the id {} stands twice", quoted(id)))
                    .at(placed.at("id", "the second"))
                    .at(earlier.at("id", "the first"))
                    .help("give one of the two another id, or delete it"),
            ),
            None => {
                first.insert(id, placed);
            }
        }
    }
    faults
}

/// E1405: an exercise that counts needs what is counted.
fn e1405_work_is_whole(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    if !matches!(entry.role, Role::Work | Role::Finisher) {
        return Vec::new();
    }
    let missing = [
        ("pattern", entry.pattern.is_none(), "pattern: squat"),
        ("kind", entry.kind.is_none(), "kind: compound"),
        ("direct", entry.direct.is_empty(), "direct: [quads, glutes]"),
    ];
    let missing = missing.into_iter().filter(|(_, is_missing, _)| *is_missing);
    let fault = |(key, _, example): (&str, bool, &str)| {
        Diagnostic::error("E1405", format!("{} has no `{key}`", quoted(&entry.id)))
            .at(placed.at(key, "nothing to count by"))
            .help(format!("add a line such as `{example}`"))
    };
    missing.map(fault).collect()
}

/// E1406: a preparation or conditioning item names its muscles and its part, and has no `kind`.
fn e1406_other_roles_name_muscles(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    if !matches!(entry.role, Role::Prep | Role::Conditioning) {
        return Vec::new();
    }
    let mut faults = Vec::new();
    let mut fault = |key: &str, what: &str, help: &str| {
        let message = format!("{} {what}", quoted(&entry.id));
        let label = placed.at(key, "");
        faults.push(Diagnostic::error("E1406", message).at(label).help(help));
    };
    if entry.muscles.is_empty() {
        fault("muscles", "has no `muscles`", "add a line such as `muscles: [quads, glutes]`");
    }
    if entry.part.is_none() {
        fault("part", "has no `part`", "add a line such as `part: mobility` or `part: steady`");
    }
    if entry.kind.is_some() {
        fault("kind", "counts no sets, so it has no `kind`", "delete the line");
    }
    faults
}

/// E1407: `reps: [min, max]`.
fn e1407_range_rises(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let [low, high] = placed.entry.reps[..] else {
        return Vec::new();
    };
    if low <= high {
        return Vec::new();
    }
    let message = format!("the range of {} falls from {low} to {high}", quoted(&placed.entry.id));
    let fault = Diagnostic::error("E1407", message)
        .at(placed.at("reps", "low end first"))
        .help(format!("write it like `reps: [{high}, {low}]`"));
    vec![fault]
}

/// E1408: a tempo is seconds of a repetition.
fn e1408_tempo_goes_with_reps(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    if entry.tempo.is_none() || entry.measure == Measure::Reps {
        return Vec::new();
    }
    let message = format!("{} has a tempo but counts {}", quoted(&entry.id), entry.measure);
    let fault = Diagnostic::error("E1408", message)
        .at(placed.at("tempo", "seconds of one repetition"))
        .help("delete the line, or write `measure: reps`");
    vec![fault]
}

/// W1409: holds of 15 to 60 s are common practice; longer ones call for a harder form.
fn w1409_hold_is_short(placed: &Placed<'_>) -> Vec<Diagnostic> {
    /// Seconds; common practice.
    const LONGEST: u32 = 60;
    let entry = placed.entry;
    let longest = entry.reps.last().copied().unwrap_or_default();
    if entry.role != Role::Work || entry.measure != Measure::Seconds || longest <= LONGEST {
        return Vec::new();
    }
    let message = format!("{} is held for up to {longest} s", quoted(&entry.id));
    let fault = Diagnostic::warning("W1409", message)
        .at(placed.at("reps", "over a minute"))
        .help("end the range at 60 and link a harder form");
    vec![fault]
}

/// E1410: a muscle that stands twice would be counted twice.
fn e1410_muscle_is_told_once(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    let told: Vec<_> = entry.direct.iter().chain(&entry.indirect).collect();
    let twice = told.iter().enumerate().filter(|(index, muscle)| told[..*index].contains(muscle));
    let fault = |(index, muscle): (usize, &&crate::words::Muscle)| {
        let key = if index < entry.direct.len() { "direct" } else { "indirect" };
        let message = format!("`{muscle}` stands twice in {}", quoted(&entry.id));
        Diagnostic::error("E1410", message)
            .at(placed.at(key, "it would be counted twice"))
            .help("name a muscle once: under `direct` for a whole set, `indirect` for half of one")
    };
    twice.map(fault).collect()
}

/// E1411: a set of needs that no room could serve as it stands.
fn e1411_kit_stands_on_its_own(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    let lacking = entry.needs.iter().enumerate().filter_map(|(index, set)| {
        let (item, other) = lacks(set)?;
        Some((index, item, other))
    });
    let fault = |(index, item, other): (usize, Kit, Kit)| {
        let message = format!("{} needs `{item}` without `{other}`", quoted(&entry.id));
        let label = placed.file.marks.at(path![placed.index, "needs", index], "");
        Diagnostic::error("E1411", message)
            .at(label)
            .help(format!("add `{other}` to this set: `{item}` is of no use alone"))
    };
    lacking.map(fault).collect()
}

/// An item of a set that is of no use without another one that the set does not name.
fn lacks(set: &[Kit]) -> Option<(Kit, Kit)> {
    const TOGETHER: [(Kit, Kit); 2] =
        [(Kit::Landmine, Kit::Barbell), (Kit::SafetyArms, Kit::SquatRack)];
    TOGETHER.into_iter().find(|(item, other)| set.contains(item) && !set.contains(other))
}

/// W1415: the first direct muscle of a working exercise does its movement.
fn w1415_prime_mover_fits(placed: &Placed<'_>) -> Vec<Diagnostic> {
    let entry = placed.entry;
    let (Role::Work, Some(pattern), Some(first)) =
        (entry.role, entry.pattern, entry.direct.first())
    else {
        return Vec::new();
    };
    let movers = prime_movers(pattern);
    if movers.contains(first) {
        return Vec::new();
    }
    let names: Vec<&str> = movers.iter().map(|muscle| muscle.id()).collect();
    let message = format!("{} has `{first}` as the prime mover of `{pattern}`", quoted(&entry.id));
    let remark = Diagnostic::warning("W1415", message)
        .at(placed.at("direct", "the first one is the prime mover"))
        .help(format!("a prime mover of `{pattern}` is {}", names.join(" or ")));
    vec![remark]
}
