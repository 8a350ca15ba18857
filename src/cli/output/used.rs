//! The files that a run has read or written, so that no result replaces an input or another result.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// What a run did with a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Use {
    /// It is an input.
    Read,
    /// It is a result.
    Written,
}

/// Which file it is, whatever it is called: links to one file are that file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Identity {
    /// Device and number.
    #[cfg(unix)]
    There(u64, u64),
    /// Not there yet, or on a system that numbers no files: the whole path.
    Called(PathBuf),
}

/// A run is a process, and its files are read in many places and on all cores.
static USED: Mutex<BTreeMap<Identity, Use>> = Mutex::new(BTreeMap::new());

/// Keeps in mind that a file was used. A terminal or a pipe may be both ends of a run.
pub(crate) fn note(path: &Path, what: Use) {
    if fs::metadata(path).is_ok_and(|file| file.is_file()) {
        let mut used = USED.lock().unwrap_or_else(PoisonError::into_inner);
        used.entry(Identity::of(path)).or_insert(what);
    }
}

/// What this run did with a file before; `None` where it did nothing.
pub(super) fn of(identity: &Identity) -> Option<Use> {
    USED.lock().unwrap_or_else(PoisonError::into_inner).get(identity).copied()
}

impl Identity {
    pub(super) fn of(path: &Path) -> Identity {
        #[cfg(unix)]
        if let Ok(file) = fs::metadata(path) {
            use std::os::unix::fs::MetadataExt as _;
            return Identity::There(file.dev(), file.ino());
        }
        let whole = fs::canonicalize(path).or_else(|_| {
            let folder = path.parent().filter(|folder| *folder != Path::new(""));
            let folder = fs::canonicalize(folder.unwrap_or(Path::new(".")))?;
            Ok::<_, std::io::Error>(folder.join(path.file_name().unwrap_or_default()))
        });
        Identity::Called(whole.unwrap_or_else(|_| path.to_owned()))
    }
}
