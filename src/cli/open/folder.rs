//! The coach's folder on the disk. Every file is found by looking through the folder, never by what a request says, and
//! none outside it is read or written.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use jiff::civil::Date;

use crate::catalog::sha256;
use crate::cli::files::{self, LoadedProfile};
use crate::cli::no_plan::{self, Origin};
use crate::cli::output::{replace, set_aside};
use crate::cli::{Faults, ending, places, plan_file};
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::check::Known;
use crate::input::marks::Marks;
use crate::input::plan::ProfileRef;
use crate::input::source::{MOST_BYTES, MOST_PLAN_BYTES, source};
use crate::page::cabinet::{Cabinet, Kept, NotKept, PlanFile, ProfileFile};
use crate::planner::{NoPlan, Planner};
use crate::rules::RULES;
use crate::sheets::seal;

/// Where plans may stand beside the profiles.
const PLANS: &str = "plans";

/// A folder that was opened.
pub struct Folder {
    /// Links followed.
    root: PathBuf,
    planner: Planner,
    /// One file is written at a time.
    writing: Mutex<()>,
    /// Plans as they were read last, by their path: reading one takes longer than all else on a page.
    plans: Mutex<BTreeMap<PathBuf, PlanFile>>,
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
        Ok(Folder { root, planner, writing: Mutex::default(), plans: Mutex::default() })
    }

    /// Where the profiles are: in the folder itself, or else in its `profiles/`.
    fn home(&self) -> PathBuf {
        let below = self.root.join("profiles");
        let has = |folder: &Path| self.profiles_in(folder).is_ok_and(|found| !found.is_empty());
        if !has(&self.root) && below.is_dir() && self.is_inside(&below) {
            below
        } else {
            self.root.clone()
        }
    }

    /// Profiles by key.
    fn profiles_in(&self, folder: &Path) -> std::io::Result<BTreeMap<String, PathBuf>> {
        let mut found = BTreeMap::new();
        for entry in fs::read_dir(folder)? {
            let path = entry?.path();
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
            let key = name.strip_suffix(".yaml").or_else(|| name.strip_suffix(".yml"));
            let Some(key) = key.filter(|key| !key.is_empty() && files::may_be_profile(name)) else {
                continue;
            };
            if path.is_file() && self.is_inside(&path) && !files::holds_plan(&path) {
                found.insert(key.to_owned(), path.clone());
            }
        }
        Ok(found)
    }

    /// Whether a path leads, links followed, to something in the folder.
    fn is_inside(&self, path: &Path) -> bool {
        fs::canonicalize(path).is_ok_and(|path| path.starts_with(&self.root))
    }

    fn path_of(&self, key: &str) -> Option<PathBuf> {
        self.profiles_in(&self.home()).ok()?.remove(key)
    }

    /// Folders that a plan may be in: beside its profile, or in `plans/`.
    fn plan_folders(&self) -> Vec<PathBuf> {
        let home = self.home();
        let mut folders = vec![home.clone(), home.join(PLANS), self.root.join(PLANS)];
        folders.dedup();
        folders.retain(|folder| folder.is_dir() && self.is_inside(folder));
        folders
    }

    /// Plans by their path, as `NAME.plan.yaml`.
    fn plans(&self) -> Vec<(String, PathBuf)> {
        let entries = self.plan_folders().into_iter().flat_map(|folder| {
            fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path())
        });
        let named = entries.filter_map(|path| {
            let key = path.file_name()?.to_str()?.strip_suffix(ending::PLAN)?.to_owned();
            (path.is_file() && self.is_inside(&path)).then_some((key, path))
        });
        named.collect()
    }

    fn plan_path(&self, key: &str) -> Option<PathBuf> {
        self.plans().into_iter().find(|(name, _)| name == key).map(|(_, path)| path)
    }

    /// What messages and pages call a file: its path below the folder.
    fn name_of(&self, path: &Path) -> String {
        path.strip_prefix(&self.root).unwrap_or(path).display().to_string()
    }

    fn read(&self, path: &Path, most: usize) -> Result<(Source, String), Box<Diagnostic>> {
        let name = self.name_of(path);
        let length = fs::metadata(path).map(|file| file.len()).unwrap_or_default();
        if length > most as u64 {
            return Err(Box::new(crate::input::source::too_large(&name, most)));
        }
        let bytes = fs::read(path).map_err(|error| Box::new(files::io_fault(&name, &error)))?;
        let hash = sha256(&bytes);
        source(&name, bytes, most).map(|source| (source, hash)).map_err(Box::new)
    }

    /// Checks a profile as the command line does, and refuses what lies outside.
    pub(super) fn checked(&self, text: &Source, path: &Path) -> Result<LoadedProfile, Faults> {
        if let Some(fault) = self.outside(text, path) {
            return Err(Faults::new(vec![fault], vec![text.clone()]));
        }
        let ids: Vec<&str> = RULES.iter().map(|rule| rule.id()).collect();
        let known = Known { entries: self.planner.catalog().entries(), rules: &ids };
        files::check_profile(text, path, known)
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
        let found = self.profiles_in(&self.home());
        let found = found.map_err(|error| Box::new(files::io_fault(&self.name(), &error)))?;
        Ok(found.into_keys().collect())
    }

    fn orphans(&self) -> Vec<String> {
        let keys = self.keys().unwrap_or_default();
        let plans = self.plans().into_iter();
        let is_old = |key: &str| {
            key.rsplit_once('.').is_some_and(|(_, number)| number.parse::<u32>().is_ok())
        };
        plans
            .filter(|(key, _)| !keys.contains(key) && !is_old(key))
            .map(|(_, path)| self.name_of(&path))
            .collect()
    }

    fn profile(&self, key: &str) -> Option<ProfileFile> {
        let path = self.path_of(key)?;
        let name = self.name_of(&path);
        let empty = |faults| ProfileFile {
            name: name.clone(),
            text: String::new(),
            sha256: String::new(),
            profile: Err(faults),
            previous: None,
            remarks: Vec::new(),
        };
        let (text, sha256) = match self.read(&path, MOST_BYTES) {
            Ok(read) => read,
            Err(fault) => return Some(empty(vec![*fault])),
        };
        let file = |profile, previous, remarks| ProfileFile {
            name: name.clone(),
            text: text.text.to_string(),
            sha256: sha256.clone(),
            profile,
            previous,
            remarks,
        };
        Some(match self.checked(&text, &path) {
            Ok(loaded) => {
                let remarks = loaded.warnings.diagnostics;
                file(Ok(Box::new(loaded.profile)), loaded.previous.map(Box::new), remarks)
            }
            Err(faults) => file(Err(faults.diagnostics), None, Vec::new()),
        })
    }

    fn plan(&self, key: &str) -> Option<PlanFile> {
        let path = self.plan_path(key)?;
        let name = self.name_of(&path);
        let (text, sha256) = match self.read(&path, MOST_PLAN_BYTES) {
            Ok(read) => read,
            Err(fault) => {
                return Some(PlanFile { name, sha256: String::new(), plan: Err(vec![*fault]) });
            }
        };
        let mut known = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known.get(&path).filter(|known| known.sha256 == sha256) {
            return Some(known.clone());
        }
        let mut is_whole = false;
        let plan = plan_file::plan_in(text).and_then(|loaded| match &loaded.plan.profile {
            ProfileRef::File(file) if !self.is_inside(&path.with_file_name(file)) => {
                let message = format!("the plan's profile {} is not in the folder", quoted(file));
                let fault = Diagnostic::error("E1008", message).at(Label::whole(name.clone()));
                Err(fault.help("put the profile itself into the plan").into())
            }
            profile => {
                is_whole = matches!(profile, ProfileRef::Whole(_));
                files::with_profile(&path, loaded, &self.planner)
            }
        });
        let plan = plan.map(Arc::new).map_err(|faults: Faults| faults.diagnostics);
        let file = PlanFile { name, sha256, plan };
        if is_whole {
            known.insert(path, file.clone());
        }
        Some(file)
    }

    fn keep_plan(&self, key: &str, text: &str, read: Option<&str>) -> Result<Kept, NotKept> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        if self.path_of(key).is_none() {
            return Err(NotKept::Changed { name: key.to_owned() });
        }
        let path = self.plan_path(key).unwrap_or_else(|| {
            let folders = self.plan_folders();
            let own = folders.iter().find(|folder| folder.ends_with(PLANS));
            let folder = own.cloned().unwrap_or_else(|| self.home());
            folder.join(format!("{key}{}", ending::PLAN))
        });
        self.put(&path, text, read)
    }

    fn check(&self, key: &str, text: &str) -> Vec<Diagnostic> {
        let path = self.path_of(key).unwrap_or_else(|| self.home().join(format!("{key}.yaml")));
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
        let path = match (self.path_of(key), read) {
            (Some(path), Some(_)) => path,
            (None, None) if is_plain(key) => self.home().join(format!("{key}.yaml")),
            _ => return Err(NotKept::Changed { name: key.to_owned() }),
        };
        self.put(&path, text, read)
    }

    fn places(&self) -> Vec<String> {
        let home = self.home().join("profile.yaml");
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

    fn today(&self) -> Date {
        jiff::ZonedDateTime::now().date()
    }
}

impl Folder {
    /// Puts a text in the place of what was read, or as a new file.
    fn put(&self, path: &Path, text: &str, read: Option<&str>) -> Result<Kept, NotKept> {
        let now = fs::read(path).ok();
        let name = self.name_of(path);
        if now.as_deref().map(sha256).as_deref() != read {
            return Err(NotKept::Changed { name });
        }
        let is_plan = path.to_str().is_some_and(|path| path.ends_with(ending::PLAN));
        let by_hand = now.filter(|old| is_plan && !seal::is_whole(&String::from_utf8_lossy(old)));
        // A plan that somebody edited is kept under another name.
        let aside = by_hand.map_or(Ok(()), |_| set_aside(path).map(drop));
        let written = aside.and_then(|()| replace(path, text));
        written.map(|()| Kept { name: name.clone() }).map_err(|error| {
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
