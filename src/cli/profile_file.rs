//! A profile's file, and the files that it names.

use std::path::Path;

use super::Faults;
use super::files::{read_plan, read_source};
use super::places::place_source;
use crate::diagnostic::{Diagnostic, Source};
use crate::input::check::Known;
use crate::load::{self, Beside, LoadedProfile};

/// Reads a profile and what it names, and checks all of it.
///
/// # Errors
/// All faults of all files at once.
pub fn load_profile(path: &Path, known: Known<'_>) -> Result<LoadedProfile, Faults> {
    check_profile(&read_source(path)?, path, known)
}

/// Checks a profile's text and what it names, which is looked for beside the path.
///
/// # Errors
/// All faults of all texts at once.
pub fn check_profile(
    source: &Source,
    path: &Path,
    known: Known<'_>,
) -> Result<LoadedProfile, Faults> {
    load::profile(source, &Files(path), known)
}

/// The files beside a profile.
struct Files<'a>(&'a Path);

impl Beside for Files<'_> {
    fn place(&self, name: &str) -> Result<Source, Diagnostic> {
        place_source(self.0, name)
    }

    fn previous(&self, name: &str) -> Result<Source, Diagnostic> {
        let folder = self.0.parent().filter(|_| self.0 != Path::new("-")).unwrap_or(Path::new(""));
        // A dot before it, so that a name of `-` is a file and not standard input.
        read_plan(&if name == "-" { Path::new(".").join(name) } else { folder.join(name) })
    }
}
