//! What is wrong or missing in a catalog as a whole.

use std::collections::{BTreeMap, BTreeSet};

use super::cells::Cells;
use super::{Catalog, FILES, entry, first_choice, links, variants};
use crate::diagnostic::{self, Diagnostic, Label, Source};
use crate::input::Read;
use crate::input::catalog::Entry;
use crate::input::read;
use crate::words::Kit;

/// What was found.
#[derive(Debug, Clone)]
pub struct Report {
    /// Faults and remarks, sorted by place.
    pub diagnostics: Vec<Diagnostic>,
    /// How many exercises each pattern, kit group and level has.
    pub cells: Cells,
    /// How many entries were read.
    pub entries: usize,
    /// How many families the working exercises make.
    pub families: usize,
}

/// The built-in files as sources.
#[must_use]
pub fn built_in_sources() -> Vec<Source> {
    FILES.iter().map(|(name, text)| Source::new(name, text)).collect()
}

/// Looks through the built-in catalog; or through more files, as they stand with it.
#[must_use]
pub fn lint(more: &[Source]) -> Report {
    let mut diagnostics = Vec::new();
    let (files, mut all) = if more.is_empty() {
        let files = readable(&built_in_sources(), &mut diagnostics);
        (files, BTreeMap::new())
    } else {
        let files = readable(more, &mut diagnostics);
        (files, Catalog::built_in().entries().clone())
    };
    let entries = files.iter().flat_map(|file| &file.value);
    all.extend(entries.map(|entry| (entry.id.clone(), entry.clone())));
    diagnostics.extend(entry::faults(&files));
    diagnostics.extend(links::dangling(&files, &all));
    diagnostics.extend(links::one_sided(&files, &all));
    diagnostics.extend(links::circles(&files, &all));
    diagnostics.extend(variants::faults(&files, &all));
    let cells = Cells::count(all.values());
    diagnostics.extend(w1412_kit_is_used(&all));
    diagnostics.extend(first_choice::w1413_first_choices_are_staples(&all));
    diagnostic::sort(&mut diagnostics);
    Report { diagnostics, cells, entries: all.len(), families: families(&all) }
}

/// Reads what can be read; what cannot is a fault.
fn readable(sources: &[Source], faults: &mut Vec<Diagnostic>) -> Vec<Read<Vec<Entry>>> {
    let mut files = Vec::new();
    for source in sources {
        match read::<Vec<Entry>>(source) {
            Ok(file) => files.push(file),
            Err(found) => faults.extend(found),
        }
    }
    faults.extend(entry::duplicates(&files));
    files
}

fn families(all: &BTreeMap<String, Entry>) -> usize {
    let working = all.values().filter(|entry| entry.pattern.is_some());
    working.map(Entry::family).collect::<BTreeSet<_>>().len()
}

/// W1412: an item that no exercise needs is of no use in a place file. Safety arms are the
/// exception: a rule asks for them where someone lifts alone, not an exercise.
fn w1412_kit_is_used(all: &BTreeMap<String, Entry>) -> Vec<Diagnostic> {
    let used: BTreeSet<Kit> =
        all.values().flat_map(|entry| entry.needs.iter().flatten().copied()).collect();
    let unused = Kit::ALL.iter().filter(|kit| **kit != Kit::SafetyArms && !used.contains(kit));
    let remark = |kit: &Kit| {
        Diagnostic::warning("W1412", format!("no exercise needs `{kit}`"))
            .at(Label::whole("catalog"))
            .help("add an exercise that uses it, or take the item off the list of kit")
    };
    unused.map(remark).collect()
}
