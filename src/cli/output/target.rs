//! Where a result may go: never over an input or another result, and over what a coach wrote or edited only when asked.

use std::fs::{self, Permissions};
use std::io;
use std::path::{Path, PathBuf};

use super::part;
use super::used::{self, Identity, Use};
use crate::cli::Failure;
use crate::cli::ending::{self, PLAN};
use crate::diagnostic::{Diagnostic, Label};
use crate::sheets::seal;

/// A file to be written, looked at before anything is.
pub(super) struct Target<'a> {
    /// As it was named.
    path: &'a Path,
    text: &'a str,
    /// Links followed, so that a link stays one.
    file: PathBuf,
    pub(super) identity: Identity,
    way: Way,
}

/// How the text gets there.
enum Way {
    /// It is there already, letter by letter.
    Same,
    /// Straight into a device or a pipe, which holds nothing that could be lost.
    Through,
    /// As a new file.
    New,
    /// In the place of a file.
    Replace { permissions: Permissions, keeps_old: bool },
}

impl<'a> Target<'a> {
    /// Looks whether a text may be written to a path.
    pub(super) fn settle(path: &'a Path, text: &'a str, force: bool) -> Result<Self, Diagnostic> {
        let there = fs::metadata(path).ok();
        if there.is_none() && fs::symlink_metadata(path).is_ok() {
            return Err(dangling(path));
        }
        if there.as_ref().is_some_and(fs::Metadata::is_dir) {
            return Err(is_directory(path));
        }
        let file = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let folder = folder_of(&file);
        if !folder.is_dir() {
            return Err(no_folder(path, folder));
        }
        let identity = Identity::of(path);
        match used::of(&identity) {
            Some(Use::Read) => return Err(is_input(path)),
            Some(Use::Written) => return Err(twice(path)),
            None => {}
        }
        let way = match there {
            None => Way::New,
            Some(there) if !there.is_file() => Way::Through,
            Some(there) => over(path, &file, there.permissions(), text, force)?,
        };
        Ok(Target { path, text, file, identity, way })
    }

    /// Writes the text; what was kept of an old file is told.
    pub(super) fn write(&self) -> Result<Option<PathBuf>, Failure> {
        let written = match &self.way {
            Way::Same => Ok(None),
            Way::Through => fs::write(&self.file, self.text).map(|()| None),
            Way::New => part::replace(&self.file, None, self.text).map(|()| None),
            Way::Replace { permissions, keeps_old } => {
                let kept = if *keeps_old { keep(&self.file).map(Some) } else { Ok(None) };
                kept.and_then(|kept| {
                    part::replace(&self.file, Some(permissions), self.text).map(|()| kept)
                })
            }
        };
        used::note(&self.file, Use::Written);
        // As the file was named, and not as its whole path.
        let called = |kept: PathBuf| {
            kept.file_name().map_or(kept.clone(), |name| self.path.with_file_name(name))
        };
        written
            .map(|kept| kept.map(called))
            .map_err(|error| Failure::Unwritten(unwritable(self.path, &self.file, &error)))
    }
}

/// How a text may take the place of a file that is there.
fn over(
    path: &Path,
    file: &Path,
    permissions: Permissions,
    text: &str,
    force: bool,
) -> Result<Way, Diagnostic> {
    let old = fs::read(file).unwrap_or_default();
    if old == text.as_bytes() {
        return Ok(Way::Same);
    }
    let old = String::from_utf8_lossy(&old);
    let is_ours = seal::is_whole(&old) && seal::is_whole(text);
    match (is_ours, force) {
        (true, _) => Ok(Way::Replace { permissions, keeps_old: false }),
        (false, true) => Ok(Way::Replace { permissions, keeps_old: ending::is_yaml(file) }),
        (false, false) => Err(is_there(path, ending::is_plan(&old))),
    }
}

/// Writes a whole file or nothing, in the place of one that is there or as a new one.
#[cfg(feature = "page")]
pub(in crate::cli) fn replace(file: &Path, text: &str) -> io::Result<()> {
    let permissions = fs::metadata(file).ok().map(|there| there.permissions());
    part::replace(file, permissions.as_ref(), text)
}

/// Keeps a file under a second name before it is replaced.
#[cfg(feature = "page")]
pub(in crate::cli) fn set_aside(file: &Path) -> io::Result<PathBuf> {
    keep(file)
}

/// Gives a file a second name with the first number that is free: `tide-01.1.plan.yaml` for a plan. Another YAML file
/// gets the number behind its ending, `tide-01.yaml.1`, so that it is not taken for one more client.
fn keep(file: &Path) -> io::Result<PathBuf> {
    let is_plan = fs::read_to_string(file).is_ok_and(|text| ending::is_plan(&text));
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    for number in 1_u32.. {
        let kept = match name.strip_suffix(PLAN) {
            Some(stem) => format!("{stem}.{number}{PLAN}"),
            None if is_plan => {
                let (stem, ending) = name.rsplit_once('.').unwrap_or((&name, "yaml"));
                format!("{stem}.{number}.plan.{ending}")
            }
            None => format!("{name}.{number}"),
        };
        let kept = file.with_file_name(kept);
        match fs::hard_link(file, &kept) {
            Ok(()) => return Ok(kept),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
            // A file system without links.
            Err(_) if kept.exists() => {}
            Err(_) => return fs::copy(file, &kept).map(|_| kept),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

fn folder_of(file: &Path) -> &Path {
    file.parent().filter(|folder| *folder != Path::new("")).unwrap_or(Path::new("."))
}

fn at(path: &Path) -> Label {
    Label::whole(path.display().to_string())
}

/// E1004: the folder has to be there.
fn no_folder(path: &Path, folder: &Path) -> Diagnostic {
    Diagnostic::error("E1004", format!("there is no folder `{}`", folder.display()))
        .at(at(path))
        .help("make the folder first, or name another file with `-o`")
}

/// E1005: a folder is no place for a text.
fn is_directory(path: &Path) -> Diagnostic {
    Diagnostic::error("E1005", "the output is a directory")
        .at(at(path))
        .help("name a file in it, as in `-o plan.yaml`")
}

/// E1006: the folder does not let us.
fn unwritable(path: &Path, file: &Path, error: &io::Error) -> Diagnostic {
    Diagnostic::error("E1006", format!("the file cannot be written: {error}")).at(at(path)).help(
        format!(
            "check that you may write into `{}` and that there is room; nothing was changed",
            folder_of(file).display()
        ),
    )
}

/// E1010: the later result would be all that is left.
pub(super) fn twice(path: &Path) -> Diagnostic {
    Diagnostic::error("E1010", "two results would be written to this file")
        .at(at(path))
        .help("name another file for one of them")
}

/// E1011: what a plan is made from outlives the plan.
fn is_input(path: &Path) -> Diagnostic {
    Diagnostic::error("E1011", "this file is read by the same command, so nothing is written to it")
        .at(at(path))
        .help("name another file, as in `-o NAME.plan.yaml`")
}

/// E1012: somebody made this file.
fn is_there(path: &Path, is_plan: bool) -> Diagnostic {
    let (message, help) = if is_plan {
        (
            "this plan was edited, or was not written by this program",
            "name another file; `--force` replaces it and keeps the old one with a number in its name",
        )
    } else {
        ("there is a file of this name already", "name another file, or replace it with `--force`")
    };
    Diagnostic::error("E1012", message).at(at(path)).help(help)
}

/// E1013: where the link leads is not known to be what was meant.
fn dangling(path: &Path) -> Diagnostic {
    Diagnostic::error("E1013", "this is a link to a file that is not there")
        .at(at(path))
        .help("delete the link, or name another file")
}
