//! A profile's text, with the place and the last block that it names.

use crate::diagnostic::{self, Diagnostic, Faults, Label, Source, quoted};
use crate::input::check::{self, Known};
use crate::input::marks::Marks;
use crate::input::naming;
use crate::input::place::{Equipment, Place};
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::input::{Read, read};
use crate::path;

/// A profile with everything it names.
#[derive(Debug, Clone)]
pub struct LoadedProfile {
    /// The profile with the place's kit as its own.
    pub profile: Profile,
    /// The profile as written, with its places.
    pub read: Read<Profile>,
    /// The plan of the last block, where the profile names it.
    pub previous: Option<Plan>,
    /// Remarks that stop nothing, and the texts they point into.
    pub warnings: Faults,
}

/// The texts that a profile names, wherever they are kept.
pub trait Beside {
    /// A place.
    ///
    /// # Errors
    /// Why there is none.
    fn place(&self, name: &str) -> Result<Source, Diagnostic>;

    /// The plan of the last block.
    ///
    /// # Errors
    /// Why there is none.
    fn previous(&self, name: &str) -> Result<Source, Diagnostic>;
}

/// Reads a profile and what it names, and checks all of it.
///
/// # Errors
/// All faults of all texts at once.
pub fn profile(
    source: &Source,
    beside: &dyn Beside,
    known: Known<'_>,
) -> Result<LoadedProfile, Faults> {
    let mut faults = Faults::default();
    faults.sources.push(source.clone());
    let place = named_place(source)
        .and_then(|(name, label)| place(beside.place(&name), label, &mut faults))
        .map(|place| place.value);
    match read::<Profile>(source) {
        Ok(read) => {
            faults.diagnostics.extend(check::profile(&read, place.as_ref(), known));
            let previous = previous(beside, &read, &mut faults);
            diagnostic::sort(&mut faults.diagnostics);
            if faults.any_error() {
                return Err(faults);
            }
            let profile =
                naming::with_ids(resolve_place(&read.value, place.as_ref()), known.entries);
            Ok(LoadedProfile { profile, read, previous, warnings: faults })
        }
        Err(found) => {
            faults.diagnostics.extend(found);
            diagnostic::sort(&mut faults.diagnostics);
            Err(faults)
        }
    }
}

/// The profile with the place's kit as its equipment; the place keeps its name. Without a place
/// only items that are not there (count 0) are taken out.
#[must_use]
pub fn resolve_place(profile: &Profile, place: Option<&Place>) -> Profile {
    let equipment = match place {
        Some(place) => Some(place.equipment.present()),
        None => profile.equipment.as_ref().map(Equipment::present),
    };
    Profile { equipment, ..profile.clone() }
}

/// The place that a profile names and where, also where the rest of the profile has faults.
fn named_place(source: &Source) -> Option<(String, Label)> {
    let marks = Marks::parse(source).ok()?;
    let value: serde_yaml::Value = serde_yaml::from_str(&source.text).ok()?;
    let name = value.get("place")?.as_str()?.to_owned();
    Some((name, marks.at(path!["place"], "named here")))
}

/// Reads and checks a place; its faults are added to the others.
fn place(
    found: Result<Source, Diagnostic>,
    named: Label,
    faults: &mut Faults,
) -> Option<Read<Place>> {
    let source = taken(found, named, faults)?;
    faults.sources.push(source.clone());
    match read::<Place>(&source) {
        Ok(read) => {
            faults.diagnostics.extend(check::place(&read));
            Some(read)
        }
        Err(found) => {
            faults.diagnostics.extend(found);
            None
        }
    }
}

/// Reads the plan of the last block; its faults are added to the others.
fn previous(beside: &dyn Beside, read: &Read<Profile>, faults: &mut Faults) -> Option<Plan> {
    let name = read.value.previous.as_deref()?;
    let label = |text: &str| read.marks.at(path!["previous"], text);
    let source = taken(beside.previous(name), label("named here"), faults)?;
    match super::plan(source) {
        Ok(loaded) => {
            faults.diagnostics.extend(other_client(&loaded.plan, &read.value, label("this plan")));
            Some(loaded.plan)
        }
        Err(found) => {
            faults.add(found);
            None
        }
    }
}

/// A text that was found; where it was not, that is a fault of the line that names it.
fn taken(found: Result<Source, Diagnostic>, named: Label, faults: &mut Faults) -> Option<Source> {
    let missing = |fault: Diagnostic| {
        let labels = std::iter::once(named).chain(fault.labels).collect();
        faults.diagnostics.push(Diagnostic { labels, ..fault });
    };
    found.map_err(missing).ok()
}

/// W1327: the last block of somebody else says nothing about this client's main lifts.
fn other_client(plan: &Plan, profile: &Profile, label: Label) -> Option<Diagnostic> {
    let whose = match &plan.profile {
        _ if !plan.client.is_empty() => &plan.client,
        ProfileRef::Whole(inside) => &inside.client,
        ProfileRef::File(_) => return None,
    };
    (*whose != profile.client).then(|| {
        Diagnostic::warning("W1327", format!("the last block is that of {}", quoted(whose)))
            .at(label)
            .help(format!("name the last plan of {}", quoted(&profile.client)))
    })
}
