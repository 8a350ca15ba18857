//! A plan's file, and the profile that it may only name.

use std::path::Path;

use super::files::{read_plan, read_source};
use super::profile_file::load_profile;
use super::{Faults, no_plan};
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::input::read;
use crate::load::{self, LoadedPlan};
use crate::planner::Planner;

/// Reads a plan and refuses another format version.
///
/// # Errors
/// All faults of the file.
pub fn load_plan(path: &Path) -> Result<LoadedPlan, Faults> {
    load::plan(read_plan(path)?)
}

/// A plan whose profile is whole and checked: a file name in a hand-written plan is read, relative
/// to the plan.
///
/// # Errors
/// All faults of the profile.
pub fn with_profile(path: &Path, loaded: LoadedPlan, planner: &Planner) -> Result<Plan, Faults> {
    let folder = path.parent().unwrap_or(Path::new(""));
    planner.whole(loaded, |name, known| Ok(load_profile(&folder.join(name), known)?.profile))
}

/// Refuses a plan whose client waits for a clinician, as far as its profile is known.
///
/// # Errors
/// Why there is no training yet.
pub(super) fn may_train(plan: &Plan, path: &Path) -> Result<(), Faults> {
    match &plan.profile {
        ProfileRef::Whole(profile) => no_plan::may_train(profile, path.display().to_string()),
        ProfileRef::File(name) => {
            let file = path.parent().unwrap_or(Path::new("")).join(name);
            // A sheet is made without the profile too, so that one that cannot be read is no fault here.
            let profile = read_source(&file).ok().and_then(|source| read::<Profile>(&source).ok());
            profile
                .map_or(Ok(()), |read| no_plan::may_train(&read.value, file.display().to_string()))
        }
    }
}
