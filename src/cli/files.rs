//! Files and folders into sources, with what to do where that fails.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use super::output::io_fault;
use super::output::used::{self, Use};
use super::{Failure, Faults, ending};
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::catalog::Entry;
use crate::input::source::{MOST_BYTES, MOST_PLAN_BYTES, source};
use crate::input::{naming, suggest};

/// The built-in catalog, with the files of a folder added.
///
/// # Errors
/// All faults of all files of the folder.
pub fn load_catalog(folder: Option<&Path>) -> Result<Catalog, Faults> {
    let Some(folder) = folder else {
        return Ok(Catalog::built_in());
    };
    let sources = catalog_sources(folder)?;
    Catalog::built_in().with(&sources).map_err(|diagnostics| Faults::new(diagnostics, sources))
}

/// The YAML files of a catalog folder in the order of their names; a single file will do too.
///
/// # Errors
/// Files that cannot be read, or none at all.
pub fn catalog_sources(folder: &Path) -> Result<Vec<Source>, Faults> {
    if folder.is_file() {
        return Ok(vec![read_source(folder)?]);
    }
    if !folder.is_dir() {
        return Err(missing(folder).into());
    }
    let names = names_in(folder);
    let mut sources = Vec::new();
    let mut faults = Faults::default();
    for name in names.iter().filter(|name| is_yaml(name)) {
        match read_source(&folder.join(name)) {
            Ok(source) => sources.push(source),
            Err(fault) => faults.diagnostics.push(fault),
        }
    }
    if sources.is_empty() && faults.diagnostics.is_empty() {
        faults.diagnostics.push(
            Diagnostic::error("E1004", "the folder has no `.yaml` file")
                .at(Label::whole(folder.display().to_string()))
                .help("name a folder with catalog files, each a list of exercises"),
        );
    }
    if faults.diagnostics.is_empty() { Ok(sources) } else { Err(faults) }
}

/// The id of an exercise that was named on the command line.
///
/// # Errors
/// E1313: nothing is called so; what was meant by the meaning of its words.
pub(super) fn exercise(typed: &str, entries: &BTreeMap<String, Entry>) -> Result<String, Faults> {
    naming::id_of(typed, entries).map(str::to_owned).ok_or_else(|| {
        Diagnostic::error("E1313", format!("there is no exercise {}", quoted(typed)))
            .at(Label::whole("command line"))
            .help(naming::help(typed, entries))
            .into()
    })
}

/// The profiles that arguments name: a file stands for itself, a folder for its profiles in the order of their names.
/// Folders inside it, such as `places/`, are left out, and so are plans and drafts.
///
/// # Errors
/// A folder without a profile.
pub fn profile_paths(arguments: &[PathBuf]) -> Result<Vec<PathBuf>, Faults> {
    let mut paths = Vec::new();
    for argument in arguments {
        if !argument.is_dir() {
            paths.push(argument.clone());
            continue;
        }
        let names = names_in(argument);
        let files =
            names.iter().filter(|name| may_be_profile(name)).map(|name| argument.join(name));
        let files: Vec<PathBuf> =
            files.filter(|path| !path.is_dir() && !holds_plan(path)).collect();
        if files.is_empty() {
            return Err(Diagnostic::error("E1004", "the folder has no profile")
                .at(Label::whole(argument.display().to_string()))
                .help("name profiles, or a folder that holds them as `.yaml` files")
                .into());
        }
        paths.extend(files);
    }
    Ok(paths)
}

/// The plans of a folder in the order of their names, without those that were kept when others took their place; a file
/// stands for itself.
///
/// # Errors
/// A folder without a plan.
pub(super) fn plan_paths(folder: &Path) -> Result<Vec<PathBuf>, Faults> {
    if !folder.is_dir() {
        return Ok(vec![folder.to_owned()]);
    }
    let is_kept = |name: &str| {
        let stem = name.strip_suffix(ending::PLAN).unwrap_or_default();
        stem.rsplit_once('.').is_some_and(|(_, number)| number.parse::<u32>().is_ok())
    };
    let names = names_in(folder).into_iter().filter(|name| is_yaml(name) && !is_kept(name));
    let paths: Vec<PathBuf> =
        names.map(|name| folder.join(name)).filter(|path| holds_plan(path)).collect();
    if paths.is_empty() {
        return Err(Diagnostic::error("E1004", "the folder has no plan")
            .at(Label::whole(folder.display().to_string()))
            .help(format!(
                "plan its profiles first: `weekwright plan {0} -o {0}`",
                folder.display()
            ))
            .into());
    }
    Ok(paths)
}

pub(super) fn may_be_profile(name: &str) -> bool {
    let is_other = name.ends_with(ending::PLAN) || name.ends_with(ending::DRAFT);
    is_yaml(name) && !is_other
}

/// Whether a file is a plan under another name. One that cannot be read is told when it is planned.
pub(super) fn holds_plan(path: &Path) -> bool {
    let mut text = Vec::new();
    let read =
        File::open(path).and_then(|file| file.take(MOST_BYTES as u64).read_to_end(&mut text));
    read.is_ok() && ending::is_plan(&String::from_utf8_lossy(&text))
}

fn is_yaml(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}

/// Reads a file, or standard input for `-`.
///
/// # Errors
/// A missing file (E1004), a directory (E1005), one that cannot be read (E1006), or one whose
/// bytes are refused (E1001 to E1003).
pub fn read_source(path: &Path) -> Result<Source, Diagnostic> {
    read_up_to(path, MOST_BYTES)
}

/// Reads a plan, which may be larger than what a coach writes.
pub(super) fn read_plan(path: &Path) -> Result<Source, Diagnostic> {
    read_up_to(path, MOST_PLAN_BYTES)
}

fn read_up_to(path: &Path, most: usize) -> Result<Source, Diagnostic> {
    if path == Path::new("-") {
        return take("<stdin>", &mut io::stdin().lock(), most);
    }
    let name = path.display().to_string();
    if path.is_dir() {
        return Err(directory(path));
    }
    match File::open(path) {
        Ok(mut file) => {
            used::note(path, Use::Read);
            take(&name, &mut file, most)
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => Err(missing(path)),
        Err(error) => Err(io_fault(&name, &error)),
    }
}

/// Reads no further than a byte past the limit: an endless stream is refused, not waited for.
fn take(name: &str, reader: &mut dyn io::Read, most: usize) -> Result<Source, Diagnostic> {
    let mut bytes = Vec::new();
    let limit = most as u64 + 1;
    if let Err(error) = reader.take(limit).read_to_end(&mut bytes) {
        return Err(io_fault(name, &error));
    }
    source(name, bytes, most)
}

/// E1004: a file that is not there, with the nearest name that is.
fn missing(path: &Path) -> Diagnostic {
    let folder = path.parent().unwrap_or(Path::new(""));
    let names = names_in(folder);
    let typed = path.file_name().unwrap_or_default().to_string_lossy();
    let near = suggest::nearest(&typed, names.iter().map(String::as_str));
    let help = match near {
        Some(near) => format!("did you mean `{}`?", folder.join(near).display()),
        None => "check the path; a file argument of `-` reads standard input".to_owned(),
    };
    Diagnostic::error("E1004", "there is no such file")
        .at(Label::whole(path.display().to_string()))
        .help(help)
}

/// E1005: a directory, with a file in it that may have been meant.
fn directory(path: &Path) -> Diagnostic {
    let names = names_in(path);
    let first = names.iter().find(|name| is_yaml(name));
    let help = match first {
        Some(first) => format!("name a file in it, for example `{}`", path.join(first).display()),
        None => "name a file instead".to_owned(),
    };
    Diagnostic::error("E1005", "this is a directory, not a file")
        .at(Label::whole(path.display().to_string()))
        .help(help)
}

/// The names in a folder in their order; none where it cannot be read.
pub(super) fn names_in(folder: &Path) -> Vec<String> {
    let folder = if folder == Path::new("") { Path::new(".") } else { folder };
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> =
        entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
    names.sort();
    names
}

/// Several results need a folder, which is made when it is missing.
pub(super) fn make_folder(folder: &Path) -> Result<(), Failure> {
    let is_file = folder.is_file() || (!folder.is_dir() && ending::promised(folder).is_some());
    if is_file {
        let fault = Diagnostic::error("E1004", "several results need a folder, and this is a file")
            .at(Label::whole(folder.display().to_string()))
            .help("name a folder; it is made when it is missing");
        return Err(Failure::Faults(fault.into()));
    }
    let made = std::fs::create_dir_all(folder);
    made.map_err(|error| Failure::Unwritten(io_fault(&folder.display().to_string(), &error)))
}
