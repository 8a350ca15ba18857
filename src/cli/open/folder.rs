//! The coach's folder on the disk. Every file is found by looking through the folder, never by what a request says, and
//! none outside it is read or written.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use jiff::civil::Date;

use super::listing::{Last, Listing, is_inside};
use crate::catalog::sha256;
use crate::cli::no_plan::{self, Origin};
use crate::cli::output::io_fault;
use crate::cli::output::{replace, set_aside};
use crate::cli::plan_file;
use crate::cli::profile_file;
use crate::cli::{Faults, ending, places};
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::marks::Marks;
use crate::input::plan::ProfileRef;
use crate::input::source::{MOST_BYTES, MOST_PLAN_BYTES, source};
use crate::load::{self, LoadedProfile};
use crate::page::cabinet::{Cabinet, Client, Kept, NotKept, PlanFile, ProfileFile};
#[cfg(feature = "book")]
use crate::page::records::Records;
use crate::planner::{NoPlan, Planner};
use crate::sheets::seal;

/// A folder that was opened.
pub struct Folder {
    /// Links followed.
    root: PathBuf,
    planner: Planner,
    /// One file is written at a time.
    writing: Mutex<()>,
    last: Last,
    /// Plans and profiles as they were read last, by their path: to check one takes longer than all else on a page.
    plans: Mutex<BTreeMap<PathBuf, PlanFile>>,
    profiles: Mutex<BTreeMap<PathBuf, (String, ProfileFile)>>,
}

impl Folder {
    /// Opens a folder.
    ///
    /// # Errors
    /// One that is not there, or is none.
    pub fn open(folder: &Path, planner: Planner) -> Result<Folder, Box<Diagnostic>> {
        let at = || Label::whole(folder.display().to_string());
        let root = fs::canonicalize(folder).map_err(|error| {
            let fault = Diagnostic::error("E1004", format!("the folder cannot be opened: {error}"));
            Box::new(fault.at(at()).help("name a folder that holds profiles"))
        })?;
        if !root.is_dir() {
            let fault = Diagnostic::error("E1004", "this is a file, not a folder").at(at());
            return Err(Box::new(fault.help("name the folder that it is in")));
        }
        Ok(Folder {
            root,
            planner,
            writing: Mutex::default(),
            last: Last::default(),
            plans: Mutex::default(),
            profiles: Mutex::default(),
        })
    }

    /// The files as they are; none where the folder is gone.
    fn listing(&self) -> Arc<Listing> {
        self.last.of(&self.root).unwrap_or_default()
    }

    /// The folder, links followed.
    #[cfg(feature = "book")]
    pub(super) fn root(&self) -> &Path {
        &self.root
    }

    /// Where the profiles are.
    #[cfg(feature = "book")]
    pub(super) fn home(&self) -> PathBuf {
        self.listing().home.clone()
    }

    /// The file of the plan that is kept under a key.
    #[cfg(feature = "book")]
    pub(super) fn plan_path(&self, key: &str) -> Option<PathBuf> {
        self.listing().plans.get(key).cloned()
    }

    /// The exercises that there are.
    #[cfg(feature = "book")]
    pub(super) fn catalog(&self) -> &crate::catalog::Catalog {
        self.planner.catalog()
    }

    /// Whether a path leads, links followed, to something in the folder.
    pub(super) fn is_inside(&self, path: &Path) -> bool {
        is_inside(&self.root, path)
    }

    /// What messages and pages call a file: its path below the folder.
    pub(super) fn name_of(&self, path: &Path) -> String {
        path.strip_prefix(&self.root).unwrap_or(path).display().to_string()
    }

    fn read(&self, path: &Path, most: usize) -> Result<(Source, String), Box<Diagnostic>> {
        let name = self.name_of(path);
        if !self.is_inside(path) {
            return Err(Box::new(outside_fault(&name)));
        }
        let length = fs::metadata(path).map(|file| file.len()).unwrap_or_default();
        if length > most as u64 {
            return Err(Box::new(crate::input::source::too_large(&name, most)));
        }
        let bytes = fs::read(path).map_err(|error| Box::new(io_fault(&name, &error)))?;
        let hash = sha256(&bytes);
        source(&name, bytes, most).map(|source| (source, hash)).map_err(Box::new)
    }

    /// Checks a profile as the command line does, and refuses what lies outside.
    pub(super) fn checked(&self, text: &Source, path: &Path) -> Result<LoadedProfile, Faults> {
        if let Some(fault) = self.outside(text, path) {
            return Err(Faults::new(vec![fault], vec![text.clone()]));
        }
        profile_file::check_profile(text, path, self.planner.known())
    }

    /// E1008: a place or a last block that is not in the folder.
    fn outside(&self, text: &Source, path: &Path) -> Option<Diagnostic> {
        let value: serde_yaml::Value = serde_yaml::from_str(&text.text).ok()?;
        let named = |key: &str| value.get(key).and_then(|value| value.as_str()).map(str::to_owned);
        let folder = path.parent()?;
        let place = named("place").map(|name| places::place_files(path, &name));
        let previous = named("previous").map(|name| vec![folder.join(name)]);
        for (key, files) in [("place", place), ("previous", previous)] {
            let found = files.into_iter().flatten().find(|file| file.exists());
            if found.is_some_and(|file| !self.is_inside(&file)) {
                let marks = Marks::parse(text).ok()?;
                let label = marks.at(&[crate::input::marks::Step::Key(key)], "outside the folder");
                let fault = Diagnostic::error(
                    "E1008",
                    format!("this `{key}` lies outside the folder that was opened"),
                );
                return Some(
                    fault.at(label).help("open the folder above, or copy the file into this one"),
                );
            }
        }
        None
    }
}

impl Cabinet for Folder {
    fn name(&self) -> String {
        self.root.display().to_string()
    }

    fn keys(&self) -> Result<Vec<String>, Box<Diagnostic>> {
        let found = self.last.of(&self.root);
        let found = found.map_err(|error| Box::new(io_fault(&self.name(), &error)))?;
        Ok(found.profiles.keys().cloned().collect())
    }

    fn clients(&self) -> Result<Vec<Client>, Box<Diagnostic>> {
        let found = self.last.of(&self.root);
        let found = found.map_err(|error| Box::new(io_fault(&self.name(), &error)))?;
        let client = |(key, path): (&String, &PathBuf)| Client {
            key: key.clone(),
            profile: self.profile_at(path),
            plan: found.plans.get(key).map(|path| self.plan_at(path)),
        };
        Ok(found.profiles.iter().map(client).collect())
    }

    fn orphans(&self) -> Vec<String> {
        self.listing().orphans().map(|path| self.name_of(path)).collect()
    }

    fn profile(&self, key: &str) -> Option<ProfileFile> {
        self.listing().profiles.get(key).map(|path| self.profile_at(path))
    }

    fn plan(&self, key: &str) -> Option<PlanFile> {
        self.listing().plans.get(key).map(|path| self.plan_at(path))
    }

    fn keep_plan(
        &self,
        key: &str,
        text: &str,
        read: Option<&str>,
        is_next: bool,
    ) -> Result<Kept, NotKept> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        let listing = self.listing();
        if !listing.profiles.contains_key(key) {
            return Err(NotKept::Changed { name: key.to_owned() });
        }
        let new = || listing.plan_home.join(format!("{key}{}", ending::PLAN));
        let path = listing.plans.get(key).cloned().unwrap_or_else(new);
        let sealed = |old: &[u8]| seal::is_whole(&String::from_utf8_lossy(old));
        self.put(&path, text, read, |old| is_next || !sealed(old))
    }

    fn check(&self, key: &str, text: &str) -> Vec<Diagnostic> {
        let listing = self.listing();
        let new = || listing.home.join(format!("{key}.yaml"));
        let path = listing.profiles.get(key).cloned().unwrap_or_else(new);
        let text = match source(&self.name_of(&path), text.as_bytes().to_vec(), MOST_BYTES) {
            Ok(text) => text,
            Err(fault) => return vec![fault],
        };
        match self.checked(&text, &path) {
            Ok(loaded) => loaded.warnings.diagnostics,
            Err(faults) => faults.diagnostics,
        }
    }

    fn keep_profile(&self, key: &str, text: &str, read: Option<&str>) -> Result<Kept, NotKept> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        let listing = self.listing();
        let path = match (listing.profiles.get(key), read) {
            (Some(path), Some(_)) => path.clone(),
            (None, None) if is_plain(key) => listing.home.join(format!("{key}.yaml")),
            _ => return Err(NotKept::Changed { name: key.to_owned() }),
        };
        self.put(&path, text, read, |_| false)
    }

    fn places(&self) -> Vec<String> {
        let home = self.listing().home.join("profile.yaml");
        let inside = |name: &String| {
            let mut files =
                places::place_files(&home, name).into_iter().filter(|file| file.exists());
            files.next().is_some_and(|file| self.is_inside(&file))
        };
        places::places(&home).into_iter().filter(inside).collect()
    }

    fn told(&self, key: &str, reason: &NoPlan) -> Vec<Diagnostic> {
        let origin = Origin { name: key.to_owned(), marks: None };
        no_plan::tell(reason, &origin).0.diagnostics
    }

    #[cfg(feature = "book")]
    fn records(&self) -> Option<&dyn Records> {
        Some(self)
    }

    fn today(&self) -> Date {
        jiff::ZonedDateTime::now().date()
    }
}

impl Folder {
    /// A profile, checked anew where it or a place differs from the last time.
    fn profile_at(&self, path: &Path) -> ProfileFile {
        let (text, sha256) = match self.read(path, MOST_BYTES) {
            Ok(read) => read,
            Err(fault) => return ProfileFile { name: self.name_of(path), ..unread(vec![*fault]) },
        };
        let stamp = format!("{sha256} {:?}", places_seen(path));
        let mut known = self.profiles.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, known)) = known.get(path).filter(|(of, _)| *of == stamp) {
            return known.clone();
        }
        let (name, whole) = (self.name_of(path), text.text.to_string());
        let file = ProfileFile { name, text: whole, sha256, ..unread(Vec::new()) };
        let file = match self.checked(&text, path) {
            Ok(loaded) => ProfileFile {
                profile: Ok(Box::new(loaded.profile)),
                previous: loaded.previous.map(Box::new),
                remarks: loaded.warnings.diagnostics,
                ..file
            },
            Err(faults) => ProfileFile { profile: Err(faults.diagnostics), ..file },
        };
        // A last block is a file of its own, which may change too.
        if !file.text.contains("previous") {
            known.insert(path.to_owned(), (stamp, file.clone()));
        }
        file
    }

    /// A plan, read anew where it differs from the last time.
    fn plan_at(&self, path: &Path) -> PlanFile {
        let name = self.name_of(path);
        let (text, sha256) = match self.read(path, MOST_PLAN_BYTES) {
            Ok(read) => read,
            Err(fault) => return PlanFile { name, sha256: String::new(), plan: Err(vec![*fault]) },
        };
        let mut known = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known.get(path).filter(|known| known.sha256 == sha256) {
            return known.clone();
        }
        let mut is_whole = false;
        let plan = load::plan(text).and_then(|loaded| match &loaded.plan.profile {
            ProfileRef::File(file) if !self.is_inside(&path.with_file_name(file)) => {
                Err(outside_fault(file).into())
            }
            profile => {
                is_whole = matches!(profile, ProfileRef::Whole(_));
                plan_file::with_profile(path, loaded, &self.planner)
            }
        });
        let plan = plan.map(Arc::new).map_err(|faults: Faults| faults.diagnostics);
        let file = PlanFile { name, sha256, plan };
        if is_whole {
            known.insert(path.to_owned(), file.clone());
        }
        file
    }

    /// Puts a text in the place of what was read, which may stay under another name, or as a new file.
    fn put(
        &self,
        path: &Path,
        text: &str,
        read: Option<&str>,
        stays: impl FnOnce(&[u8]) -> bool,
    ) -> Result<Kept, NotKept> {
        let now = fs::read(path).ok();
        let name = self.name_of(path);
        if now.as_deref().map(sha256).as_deref() != read {
            return Err(NotKept::Changed { name });
        }
        let old = now.filter(|old| stays(old));
        let aside = old.map(|_| set_aside(path).map(|path| self.name_of(&path))).transpose();
        let written = aside.and_then(|aside| replace(path, text).map(|()| aside));
        written.map(|aside| Kept { name: name.clone(), aside }).map_err(|error| {
            let fault = Diagnostic::error("E1006", format!("the file cannot be written: {error}"))
                .at(Label::whole(name))
                .help("see that you may write into the folder and that there is room; nothing was changed");
            NotKept::Refused(Box::new(fault))
        })
    }
}

/// Whether a key can be the name of a new file and nothing else.
fn is_plain(key: &str) -> bool {
    let plain =
        |letter: u8| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == b'-';
    !key.is_empty() && key.bytes().all(plain)
}

/// A profile of which only faults are known.
fn unread(faults: Vec<Diagnostic>) -> ProfileFile {
    ProfileFile {
        name: String::new(),
        text: String::new(),
        sha256: String::new(),
        profile: Err(faults),
        previous: None,
        remarks: Vec::new(),
    }
}

/// Lengths and times of the files that the places of a profile may come from.
fn places_seen(profile: &Path) -> Vec<(PathBuf, u64, Option<std::time::SystemTime>)> {
    let names = places::places(profile).into_iter();
    let files = names.flat_map(|name| places::place_files(profile, &name));
    let seen = files.filter_map(|path| {
        let file = fs::metadata(&path).ok()?;
        Some((path, file.len(), file.modified().ok()))
    });
    seen.collect()
}

/// E1008: something outside the folder that was opened.
pub(super) fn outside_fault(name: &str) -> Diagnostic {
    Diagnostic::error("E1008", format!("{} lies outside the folder that was opened", quoted(name)))
        .at(Label::whole(name))
        .help("open the folder above, or copy the file into this one")
}
