//! A plan's file: refused where it is of another format, or no plan at all, and its profile made whole.

use std::path::Path;

use super::Faults;
use super::files::{load_profile, read_plan};
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::check::{self, Known};
use crate::input::marks::Marks;
use crate::input::plan::{FORMAT, Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::input::{Read, read};
use crate::path;
use crate::planner::Planner;
use crate::rules::RULES;

/// A plan as read.
#[derive(Debug, Clone)]
pub struct LoadedPlan {
    /// The plan.
    pub plan: Plan,
    /// The text that it came from.
    pub source: Source,
}

/// Reads a plan and refuses another format version.
///
/// # Errors
/// All faults of the file.
pub fn load_plan(path: &Path) -> Result<LoadedPlan, Faults> {
    plan_in(read_plan(path)?)
}

/// The plan of a text.
pub(super) fn plan_in(source: Source) -> Result<LoadedPlan, Faults> {
    let wrong = |diagnostics: Vec<Diagnostic>| Faults::new(diagnostics, vec![source.clone()]);
    if is_profile(&source) {
        return Err(wrong(vec![profile_for_plan(&source)]));
    }
    let read = read::<Plan>(&source).map_err(wrong)?;
    if read.value.format != FORMAT {
        let label = read.marks.at(path!["format"], "this format");
        let found = quoted(&read.value.format);
        let fault =
            Diagnostic::error("E1009", format!("{found} is not a plan format of this version"))
                .at(label)
                .help(format!("this version reads `{FORMAT}`; plan the profile again to get one"));
        return Err(wrong(vec![fault]));
    }
    Ok(LoadedPlan { plan: read.value, source })
}

/// Whether a text is a client's profile where a plan belongs.
fn is_profile(source: &Source) -> bool {
    let starts = |key: &str| source.text.lines().any(|line| line.starts_with(key));
    starts("training_status:") && !starts("format:") && !starts("profile:")
}

/// E1009: a plan is made from it first.
fn profile_for_plan(source: &Source) -> Diagnostic {
    let name = &source.name;
    Diagnostic::error("E1009", "this is a profile, and a plan belongs here")
        .at(Label::whole(name.to_string()))
        .help(format!("plan it first: `weekwright plan {name} --format yaml -o FILE`"))
}

/// A plan whose profile is whole and checked: a file name in a hand-written plan is read, relative
/// to the plan.
///
/// # Errors
/// All faults of the profile.
pub fn with_profile(path: &Path, loaded: LoadedPlan, planner: &Planner) -> Result<Plan, Faults> {
    let LoadedPlan { mut plan, source } = loaded;
    let ids: Vec<&str> = RULES.iter().map(|rule| rule.id()).collect();
    let catalog = planner.catalog().clone().with_entries(plan.exercises.values().cloned());
    let known = Known { entries: catalog.entries(), rules: &ids };
    match plan.profile {
        ProfileRef::File(name) => {
            let folder = path.parent().unwrap_or(Path::new(""));
            let profile = load_profile(&folder.join(name), known)?;
            plan.profile = ProfileRef::Whole(Box::new(profile.profile));
        }
        ProfileRef::Whole(profile) => {
            check_inside(&profile, &source, known)?;
            plan.profile = ProfileRef::Whole(profile);
        }
    }
    Ok(plan)
}

/// Checks the profile inside a plan. Its warnings were told when the plan was made.
fn check_inside(profile: &Profile, source: &Source, known: Known<'_>) -> Result<(), Faults> {
    let marks = Marks::parse(source)
        .map_err(|diagnostics| Faults::new(diagnostics, vec![source.clone()]))?;
    let read = Read { value: profile.clone(), marks: marks.part(path!["profile"]) };
    let mut diagnostics = check::resolved(&read, None, known);
    diagnostics.retain(Diagnostic::is_error);
    if diagnostics.is_empty() {
        return Ok(());
    }
    Err(Faults::new(diagnostics, vec![source.clone()]))
}
