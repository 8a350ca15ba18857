//! A plan's text: refused where it is of another format, or no plan at all, and its profile made whole.

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::diagnostic::{Diagnostic, Faults, Label, Source, quoted};
use crate::input::catalog::Entry;
use crate::input::check::{self, Known};
use crate::input::marks::Marks;
use crate::input::naming;
use crate::input::plan::{FORMAT, Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::input::short_plan::{SHORT_FORMAT, ShortPlan};
use crate::input::{Read, read};
use crate::path;
use crate::plan::short::{self, Misfit};

/// A plan as read.
#[derive(Debug, Clone)]
pub struct LoadedPlan {
    /// The plan; of a kept one what its numbers say, until `whole` or `told` tells the rest.
    pub plan: Plan,
    /// The text that it came from.
    pub source: Source,
    /// Where its parts stand in the text.
    marks: Marks,
    /// The kept form.
    short: Option<Box<ShortPlan>>,
}

impl LoadedPlan {
    /// The plan with what follows from its numbers, for the sheets; without a whole profile it stays as it is.
    ///
    /// # Errors
    /// What of the weeks does not fit the sessions.
    pub fn told(mut self, entries: &BTreeMap<String, Entry>) -> Result<LoadedPlan, Faults> {
        if let (Some(short), ProfileRef::Whole(profile)) = (&self.short, &self.plan.profile) {
            let own = &self.plan.exercises;
            let entry = |id: &str| own.get(id).or_else(|| entries.get(id));
            self.plan = expanded(short, Some(profile), &entry, &self.marks)?;
        }
        Ok(self)
    }

    /// Whether it is in the kept form, which leaves out what can be counted.
    #[must_use]
    pub fn is_kept(&self) -> bool {
        self.short.is_some()
    }

    /// The plan with a whole and checked profile; `named` reads the one that a plan by hand only names. Tables that it
    /// has not are still to be counted.
    ///
    /// # Errors
    /// All faults of the profile, and what of the weeks does not fit the sessions.
    pub fn whole(
        mut self,
        entries: &BTreeMap<String, Entry>,
        named: impl FnOnce(&str, Known<'_>) -> Result<Profile, Faults>,
    ) -> Result<Plan, Faults> {
        let mut entries = Cow::Borrowed(entries);
        if !self.plan.exercises.is_empty() {
            entries.to_mut().extend(self.plan.exercises.clone());
        }
        let known = super::known(&entries);
        let profile = match self.plan.profile {
            ProfileRef::File(name) => named(&name, known)?,
            ProfileRef::Whole(profile) => {
                check_inside(&profile, &self.source, &self.marks, known)?;
                naming::with_ids(*profile, known.entries)
            }
        };
        self.plan.profile = ProfileRef::Whole(Box::new(profile));
        let profile = self.plan.profile.clone();
        Ok(Plan { profile, ..self.told(&entries)?.plan })
    }
}

/// The whole plan of a kept one.
fn expanded(
    short: &ShortPlan,
    profile: Option<&Profile>,
    entry: &short::Entries<'_>,
    marks: &Marks,
) -> Result<Plan, Faults> {
    short::expand(short, profile, entry).map_err(|misfits| {
        let fault = |misfit: &Misfit| {
            let path = path!["weeks", misfit.week, misfit.key, misfit.place];
            Diagnostic::error("E2001", format!("week {}: {}", misfit.week + 1, misfit.what))
                .at(marks.at(path, "not there"))
                .help("name days and exercises as the sessions above do")
        };
        Faults::new(misfits.iter().map(fault).collect(), vec![marks.source.clone()])
    })
}

/// Reads a plan and refuses another format version.
///
/// # Errors
/// All faults of the text.
pub fn plan(source: Source) -> Result<LoadedPlan, Faults> {
    let wrong = |diagnostics: Vec<Diagnostic>| Faults::new(diagnostics, vec![source.clone()]);
    if is_profile(&source) {
        return Err(wrong(vec![profile_for_plan(&source)]));
    }
    if is_short(&source) {
        let Read { value, marks } = read::<ShortPlan>(&source).map_err(wrong)?;
        if value.format == SHORT_FORMAT {
            let plan = expanded(&value, None, &|_| None, &marks)?;
            return Ok(LoadedPlan { plan, source, marks, short: Some(Box::new(value)) });
        }
    }
    let read = read::<Plan>(&source).map_err(wrong)?;
    if read.value.format != FORMAT {
        let label = read.marks.at(path!["format"], "this format");
        let found = quoted(&read.value.format);
        let fault = Diagnostic::error(
            "E1009",
            format!("{found} is not a plan format of this version"),
        )
        .at(label)
        .help(format!(
            "this version reads `{FORMAT}` and `{SHORT_FORMAT}`; plan the profile again to get one"
        ));
        return Err(wrong(vec![fault]));
    }
    Ok(LoadedPlan { plan: read.value, source, marks: read.marks, short: None })
}

/// Whether the text says that it is in the kept form.
fn is_short(source: &Source) -> bool {
    let says = |line: &str| line.starts_with("format:") && line.contains(SHORT_FORMAT);
    let in_json = || {
        let text = source.text.trim_start();
        text.starts_with('{') && text.contains(&format!("\"{SHORT_FORMAT}\""))
    };
    source.text.lines().any(says) || in_json()
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

/// Checks the profile inside a plan. Its warnings were told when the plan was made.
fn check_inside(
    profile: &Profile,
    source: &Source,
    marks: &Marks,
    known: Known<'_>,
) -> Result<(), Faults> {
    let read = Read { value: profile.clone(), marks: marks.part(path!["profile"]) };
    let mut diagnostics = check::resolved(&read, None, known);
    diagnostics.retain(Diagnostic::is_error);
    if diagnostics.is_empty() {
        return Ok(());
    }
    Err(Faults::new(diagnostics, vec![source.clone()]))
}
