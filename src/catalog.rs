//! The exercises there are: the built-in ones, and those a coach adds or replaces.

pub mod cells;
mod entry;
pub mod first_choice;
mod links;
pub mod lint;
pub mod prime_movers;
mod variants;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::sync::{Arc, LazyLock};

use sha2::{Digest as _, Sha256};

use crate::diagnostic::{self, Diagnostic, Source};
use crate::input::catalog::Entry;
use crate::input::{Read, read};

/// The built-in files as they are written: one file per group of patterns, one line per file.
pub const FILES: &[(&str, &str)] = &[
    ("catalog/squat-lunge.yaml", include_str!("../catalog/squat-lunge.yaml")),
    ("catalog/hinge-hip.yaml", include_str!("../catalog/hinge-hip.yaml")),
    ("catalog/lower-leg.yaml", include_str!("../catalog/lower-leg.yaml")),
    ("catalog/push.yaml", include_str!("../catalog/push.yaml")),
    ("catalog/push-isolation.yaml", include_str!("../catalog/push-isolation.yaml")),
    ("catalog/pull.yaml", include_str!("../catalog/pull.yaml")),
    ("catalog/pull-isolation.yaml", include_str!("../catalog/pull-isolation.yaml")),
    ("catalog/trunk.yaml", include_str!("../catalog/trunk.yaml")),
    ("catalog/carry-power.yaml", include_str!("../catalog/carry-power.yaml")),
    ("catalog/prep.yaml", include_str!("../catalog/prep.yaml")),
    ("catalog/conditioning.yaml", include_str!("../catalog/conditioning.yaml")),
    ("catalog/finishers.yaml", include_str!("../catalog/finishers.yaml")),
];

/// The exercises that plans are made from, by id.
///
/// ```
/// use weekwright::catalog::Catalog;
///
/// let catalog = Catalog::built_in();
/// let squat = catalog.get("goblet-squat").expect("a built-in exercise");
/// assert_eq!(squat.name, "Goblet squat");
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Catalog {
    entries: Arc<BTreeMap<String, Entry>>,
    added: BTreeSet<String>,
}

static BUILT_IN: LazyLock<Catalog> = LazyLock::new(|| {
    let json = include_str!(concat!(env!("OUT_DIR"), "/catalog.json"));
    let list: Vec<Entry> = serde_json::from_str(json).expect("a test compares it with the files");
    let entries = list.into_iter().map(|entry| (entry.id.clone(), entry)).collect();
    Catalog { entries: Arc::new(entries), added: BTreeSet::new() }
});

impl Catalog {
    /// The exercises that come with the program. Read once, then shared.
    #[must_use]
    pub fn built_in() -> Catalog {
        BUILT_IN.clone()
    }

    /// Adds the exercises of more files; an entry with a known id replaces the known one.
    ///
    /// # Errors
    /// Every fault in the files, sorted by place: of shape, ids that stand twice, entries that
    /// contradict themselves, links to exercises that are not there.
    pub fn with(mut self, sources: &[Source]) -> Result<Catalog, Vec<Diagnostic>> {
        let files = read_all(sources)?;
        let entries = Arc::make_mut(&mut self.entries);
        for entry in files.iter().flat_map(|file| &file.value) {
            entries.insert(entry.id.clone(), entry.clone());
            self.added.insert(entry.id.clone());
        }
        let mut faults = entry::faults(&files);
        faults.retain(Diagnostic::is_error);
        faults.extend(links::dangling(&files, &self.entries));
        faults.extend(variants::faults(&files, &self.entries));
        if faults.is_empty() {
            return Ok(self);
        }
        diagnostic::sort(&mut faults);
        Err(faults)
    }

    /// Adds entries that were checked before, such as those a plan carries.
    #[must_use]
    pub fn with_entries(mut self, added: impl IntoIterator<Item = Entry>) -> Catalog {
        let entries = Arc::make_mut(&mut self.entries);
        for entry in added {
            self.added.insert(entry.id.clone());
            entries.insert(entry.id.clone(), entry);
        }
        self
    }

    /// The entry of an id.
    #[must_use]
    pub fn get(&self, id: &str) -> Option<&Entry> {
        self.entries.get(id)
    }

    /// Whether there is an entry of this id.
    #[must_use]
    pub fn contains(&self, id: &str) -> bool {
        self.entries.contains_key(id)
    }

    /// All entries in the order of their ids.
    pub fn iter(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    /// All entries by id.
    #[must_use]
    pub fn entries(&self) -> &BTreeMap<String, Entry> {
        &self.entries
    }

    /// All ids in order.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.entries.keys().map(String::as_str)
    }

    /// The ids that did not come with the program, or were replaced.
    pub fn added(&self) -> impl Iterator<Item = &str> {
        self.added.iter().map(String::as_str)
    }

    /// How many entries there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// SHA-256 of all entries in lower-case hex: the same for the same entries, whatever files
    /// they came from.
    #[must_use]
    pub fn sha256(&self) -> String {
        static BUILT_IN_DIGEST: LazyLock<String> = LazyLock::new(|| digest(&BUILT_IN.entries));
        if Arc::ptr_eq(&self.entries, &BUILT_IN.entries) {
            return BUILT_IN_DIGEST.clone();
        }
        digest(&self.entries)
    }
}

fn digest(entries: &BTreeMap<String, Entry>) -> String {
    sha256(&serde_json::to_vec(entries).expect("entries have text keys only"))
}

/// SHA-256 in lower-case hex.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    let mut hex = String::new();
    for byte in Sha256::digest(bytes) {
        write!(hex, "{byte:02x}").expect("a string takes every write");
    }
    hex
}

/// Reads catalog files and refuses ids that stand twice among them.
fn read_all(sources: &[Source]) -> Result<Vec<Read<Vec<Entry>>>, Vec<Diagnostic>> {
    let mut files = Vec::new();
    let mut faults = Vec::new();
    for source in sources {
        match read::<Vec<Entry>>(source) {
            Ok(file) => files.push(file),
            Err(found) => faults.extend(found),
        }
    }
    faults.extend(entry::duplicates(&files));
    if faults.is_empty() {
        return Ok(files);
    }
    diagnostic::sort(&mut faults);
    Err(faults)
}
