//! What files a folder has: profiles and plans by key. Looked through again when a name or a length differs.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use crate::cli::{ending, files};

/// Where plans may stand beside the profiles, and profiles below the folder.
const PLANS: &str = "plans";
const PROFILES: &str = "profiles";

/// Files with their lengths, in the order of their names.
type Seen = Vec<(PathBuf, u64)>;

/// The files of a folder.
#[derive(Debug, Default)]
pub(super) struct Listing {
    /// Where the profiles are: in the folder itself, or else in its `profiles/`.
    pub(super) home: PathBuf,
    /// Where a new plan goes.
    pub(super) plan_home: PathBuf,
    pub(super) profiles: BTreeMap<String, PathBuf>,
    /// Those named `NAME.plan.yaml`.
    pub(super) plans: BTreeMap<String, PathBuf>,
    /// What was seen when it was made.
    seen: Seen,
}

/// The listing that was made last.
#[derive(Debug, Default)]
pub(super) struct Last(Mutex<Arc<Listing>>);

impl Last {
    /// The files as they are.
    ///
    /// # Errors
    /// A folder that cannot be read.
    pub(super) fn of(&self, root: &Path) -> io::Result<Arc<Listing>> {
        let seen = seen(root)?;
        let mut last = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if last.seen != seen || last.home.as_os_str().is_empty() {
            *last = Arc::new(Listing::new(root, seen));
        }
        Ok(Arc::clone(&last))
    }
}

fn folders(root: &Path) -> [PathBuf; 4] {
    let below = root.join(PROFILES);
    [root.to_owned(), root.join(PLANS), below.clone(), below.join(PLANS)]
}

fn seen(root: &Path) -> io::Result<Seen> {
    let mut seen = Vec::new();
    for folder in folders(root) {
        let entries = match fs::read_dir(&folder) {
            Ok(entries) => entries,
            Err(error) if folder == root => return Err(error),
            Err(_) => continue,
        };
        for entry in entries.flatten() {
            let length = entry.metadata().map(|file| file.len()).unwrap_or_default();
            seen.push((entry.path(), length));
        }
    }
    seen.sort();
    Ok(seen)
}

impl Listing {
    fn new(root: &Path, seen: Seen) -> Listing {
        let [_, _, below, _] = folders(root);
        let here = profiles(root, root, &seen);
        let inner = if here.is_empty() { profiles(root, &below, &seen) } else { BTreeMap::new() };
        let (home, profiles) =
            if inner.is_empty() { (root.to_owned(), here) } else { (below, inner) };
        let plan_folders = [home.clone(), home.join(PLANS), root.join(PLANS)];
        let mut plans = BTreeMap::new();
        for folder in &plan_folders {
            for (key, path) in named(root, folder, &seen, |name| name.strip_suffix(ending::PLAN)) {
                plans.entry(key).or_insert(path);
            }
        }
        let own =
            plan_folders[1..].iter().find(|folder| folder.is_dir() && is_inside(root, folder));
        let plan_home = own.unwrap_or(&home).clone();
        Listing { home, plan_home, profiles, plans, seen }
    }

    /// Plans whose profile is gone; those that were set aside when others took their place are not meant.
    pub(super) fn orphans(&self) -> impl Iterator<Item = &PathBuf> {
        let is_old = |key: &str| {
            key.rsplit_once('.').is_some_and(|(_, number)| number.parse::<u32>().is_ok())
        };
        let gone = self.plans.iter();
        gone.filter(move |(key, _)| !self.profiles.contains_key(*key) && !is_old(key))
            .map(|(_, path)| path)
    }
}

/// Whether a path leads, links followed, to something in a folder.
pub(super) fn is_inside(root: &Path, path: &Path) -> bool {
    fs::canonicalize(path).is_ok_and(|path| path.starts_with(root))
}

fn profiles(root: &Path, folder: &Path, seen: &Seen) -> BTreeMap<String, PathBuf> {
    let key = |name: &'_ str| {
        let key = name.strip_suffix(".yaml").or_else(|| name.strip_suffix(".yml"));
        key.filter(|key| !key.is_empty() && files::may_be_profile(name)).map(str::len)
    };
    let found = named(root, folder, seen, |name| key(name).map(|length| &name[..length]));
    found.into_iter().filter(|(_, path)| !files::holds_plan(path)).collect()
}

/// The files of a folder by what a name says.
fn named(
    root: &Path,
    folder: &Path,
    seen: &Seen,
    key: impl Fn(&str) -> Option<&str>,
) -> Vec<(String, PathBuf)> {
    let own = seen.iter().filter(|(path, _)| path.parent() == Some(folder));
    let keyed = own.filter_map(|(path, _)| {
        let key = key(path.file_name()?.to_str()?)?.to_owned();
        (path.is_file() && is_inside(root, path)).then(|| (key, path.clone()))
    });
    keyed.collect()
}
