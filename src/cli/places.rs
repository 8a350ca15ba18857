//! Files of places, and where they are looked for.

use std::path::{Path, PathBuf};

use super::Faults;
use super::files::{names_in, read_source};
use crate::diagnostic::{Diagnostic, Source, quoted};
use crate::input::place::{Equipment, Place};
use crate::input::{check, read, suggest};

/// The kit of a place that is named on the command line, looked for beside a plan and where profiles are kept.
///
/// # Errors
/// No such place, or the faults of its file.
pub(super) fn load_kit(plan: &Path, name: &str) -> Result<Equipment, Faults> {
    let homes = [plan, Path::new("profiles/any.yaml"), Path::new("any.yaml")];
    let mut found = homes.iter().map(|home| place_source(home, name));
    let first = found.next().expect("there are three");
    let source = first.or_else(|fault| found.find_map(Result::ok).ok_or(fault))?;
    let wrong = |diagnostics: Vec<Diagnostic>| Faults::new(diagnostics, vec![source.clone()]);
    let place = read::<Place>(&source).map_err(wrong)?;
    let faults = check::place(&place);
    if faults.iter().any(Diagnostic::is_error) {
        return Err(wrong(faults));
    }
    Ok(place.value.equipment)
}

/// The file of a place: in `places/` beside the profile, or beside the profile's folder.
pub(super) fn place_source(profile: &Path, name: &str) -> Result<Source, Diagnostic> {
    let file = place_files(profile, name).into_iter().find(|file| file.is_file());
    match file {
        Some(file) => read_source(&file),
        None => Err(unknown_place(name, &place_folders(profile))),
    }
}

/// Where the file of a place may be; nowhere for a name that is a path.
pub(super) fn place_files(profile: &Path, name: &str) -> Vec<PathBuf> {
    if name.contains(['/', '\\', '\0']) || name.starts_with('.') {
        return Vec::new();
    }
    let folders = place_folders(profile).into_iter();
    folders.map(|folder| folder.join(format!("{name}.yaml"))).collect()
}

fn place_folders(profile: &Path) -> Vec<PathBuf> {
    let beside = match profile.parent() {
        Some(folder) if profile != Path::new("-") => folder.to_owned(),
        _ => PathBuf::new(),
    };
    let above = match beside.file_name() {
        Some(_) => beside.parent().map(Path::to_owned),
        None => None,
    };
    let above = above.unwrap_or_else(|| beside.join(".."));
    vec![beside.join("places"), above.join("places")]
}

/// The places that a profile at this path may name.
pub(super) fn places(profile: &Path) -> Vec<String> {
    places_in(&place_folders(profile))
}

fn places_in(folders: &[PathBuf]) -> Vec<String> {
    let names = folders.iter().flat_map(|folder| names_in(folder));
    let mut places: Vec<String> =
        names.filter_map(|name| name.strip_suffix(".yaml").map(str::to_owned)).collect();
    places.sort();
    places.dedup();
    places
}

/// E1007: tells which places there are.
fn unknown_place(name: &str, folders: &[PathBuf]) -> Diagnostic {
    let places = places_in(folders);
    let words: Vec<&str> = places.iter().map(String::as_str).collect();
    let looked_in = folders[0].display();
    let otherwise = if places.is_empty() {
        format!("add `{looked_in}/<place>.yaml`, or list the kit under `equipment`")
    } else {
        format!("`{looked_in}` has {}", suggest::list(&words))
    };
    Diagnostic::error("E1007", format!("there is no place {}", quoted(name)))
        .help(suggest::help(name, &words, &otherwise))
}
