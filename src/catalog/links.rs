//! Links between easier and harder forms.

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{Placed, placed};
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::Read;
use crate::input::catalog::Entry;
use crate::input::naming;
use crate::path;

/// The two kinds of link that are answered, each with its mirror.
const ANSWERED: [(&str, &str); 2] = [("easier", "harder"), ("harder", "easier")];
/// Every list of ids that an entry has, with its mirror where it is answered.
const ALL: [(&str, &str); 3] = [ANSWERED[0], ANSWERED[1], ("second_to", "")];

fn links<'a>(entry: &'a Entry, key: &str) -> &'a [String] {
    match key {
        "easier" => &entry.easier,
        "harder" => &entry.harder,
        _ => &entry.second_to,
    }
}

/// E1402: a link leads to an exercise.
pub(super) fn dangling(
    files: &[Read<Vec<Entry>>],
    known: &BTreeMap<String, Entry>,
) -> Vec<Diagnostic> {
    let names = naming::Index::new(known);
    let unknown = |_: &Placed<'_>, _: &str, target: &str| !known.contains_key(target);
    each_link(files, &ALL, unknown, |target, _| {
        let near = names.near(target);
        let help = near.first().map_or_else(
            || "delete it, or add an exercise of this id".to_owned(),
            |near| format!("did you mean `{near}`?"),
        );
        Diagnostic::error("E1402", format!("there is no exercise {}", quoted(target))).help(help)
    })
}

/// E1403: what is easier than this one has this one as harder.
pub(super) fn one_sided(
    files: &[Read<Vec<Entry>>],
    known: &BTreeMap<String, Entry>,
) -> Vec<Diagnostic> {
    let lacks_mirror = |placed: &Placed<'_>, mirror: &str, target: &str| {
        let target = known.get(target);
        target.is_some_and(|target| !links(target, mirror).contains(&placed.entry.id))
    };
    each_link(files, &ANSWERED, lacks_mirror, |target, (id, mirror)| {
        let message = format!("{} does not name {} back", quoted(target), quoted(id));
        let help = format!("add `{id}` to the `{mirror}` list of `{target}`");
        Diagnostic::error("E1403", message).help(help)
    })
}

/// Collects a fault for each link that is not as it should be.
fn each_link(
    files: &[Read<Vec<Entry>>],
    kinds: &[(&'static str, &'static str)],
    is_wrong: impl Fn(&Placed<'_>, &str, &str) -> bool,
    fault: impl Fn(&str, (&str, &str)) -> Diagnostic,
) -> Vec<Diagnostic> {
    let mut faults = Vec::new();
    for placed in placed(files) {
        for &(key, mirror) in kinds {
            for (index, target) in links(placed.entry, key).iter().enumerate() {
                if is_wrong(&placed, mirror, target) {
                    let label = placed
                        .file
                        .marks
                        .at(path![placed.index, key, index], format!("listed as {key}"));
                    faults.push(fault(target, (&placed.entry.id, mirror)).at(label));
                }
            }
        }
    }
    faults
}

/// E1404: nothing is harder than itself, not even by way of others.
pub(super) fn circles(
    files: &[Read<Vec<Entry>>],
    known: &BTreeMap<String, Entry>,
) -> Vec<Diagnostic> {
    let mut harder: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for entry in known.values() {
        for target in &entry.harder {
            harder.entry(&entry.id).or_default().insert(target);
        }
        for target in &entry.easier {
            harder.entry(target).or_default().insert(&entry.id);
        }
    }
    let mut faults = Vec::new();
    while let Some(circle) = next_circle(&mut harder) {
        let start = placed(files).find(|placed| circle.contains(&placed.entry.id.as_str()));
        let steps: Vec<String> = circle.iter().map(|id| format!("`{id}`")).collect();
        let message = format!("{} leads back to itself by `harder`", steps.join(" -> "));
        let mut fault = Diagnostic::error("E1404", message)
            .help("turn one of these links around, or delete it on both sides");
        if let Some(placed) = start {
            fault = fault.at(placed.at("harder", "part of a circle"));
        }
        faults.push(fault);
        for id in circle {
            harder.remove(id);
        }
    }
    faults
}

/// Strips what cannot be on a circle, then walks on until a step repeats.
fn next_circle<'a>(harder: &mut BTreeMap<&'a str, BTreeSet<&'a str>>) -> Option<Vec<&'a str>> {
    loop {
        let before: usize = harder.values().map(BTreeSet::len).sum();
        let starts: BTreeSet<&str> = harder.keys().copied().collect();
        for targets in harder.values_mut() {
            targets.retain(|target| starts.contains(target));
        }
        harder.retain(|_, targets| !targets.is_empty());
        let after: usize = harder.values().map(BTreeSet::len).sum();
        if before == after {
            break;
        }
    }
    let mut walk = vec![*harder.keys().next()?];
    loop {
        let last = walk.last().expect("a walk has a start");
        let next = *harder.get(last)?.first()?;
        if let Some(start) = walk.iter().position(|id| *id == next) {
            return Some(walk.split_off(start));
        }
        walk.push(next);
    }
}
