//! Results to standard output or a file, all else to standard error.

use std::fs::{self, Permissions};
use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

use super::files::io_fault;
use super::{Failure, Faults, render};
use crate::diagnostic::{Diagnostic, Label};

/// Where the program writes. Color goes only to terminals, and not with `NO_COLOR`.
#[derive(Debug)]
pub struct Console {
    json: bool,
    loudness: Loudness,
}

/// How much is said beside the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Loudness {
    /// Errors only.
    Quiet,
    /// Warnings too.
    #[default]
    Usual,
    /// Also how a result was found, and how long it took.
    Verbose,
}

impl Console {
    /// A console that prints faults as text, or as JSON.
    #[must_use]
    pub fn new(json: bool, loudness: Loudness) -> Console {
        Console { json, loudness }
    }

    /// Whether it is also said how a result was found.
    #[must_use]
    pub fn is_verbose(&self) -> bool {
        self.loudness == Loudness::Verbose
    }

    /// Whether nothing but results and errors is said.
    #[must_use]
    pub fn is_quiet(&self) -> bool {
        self.loudness == Loudness::Quiet
    }

    /// Columns for tables and sheets: what `COLUMNS` says, else the terminal's, else 80, so that
    /// what goes into a pipe does not change with the window.
    #[must_use]
    pub fn width(&self) -> usize {
        let told = std::env::var("COLUMNS").ok().and_then(|told| told.parse().ok());
        let seen = || {
            let size = terminal_size::terminal_size_of(io::stdout());
            size.map(|(width, _)| usize::from(width.0))
        };
        told.or_else(seen).filter(|width| *width > 0).unwrap_or(render::WIDTH)
    }

    /// Says that something takes its time, on a terminal only; the answer takes it back.
    #[must_use]
    pub fn progress(&self, text: &str) -> Progress {
        let is_shown = self.loudness != Loudness::Quiet && io::stderr().is_terminal();
        if is_shown {
            let mut stderr = anstream::stderr().lock();
            let _ = write!(stderr, "{text}").and_then(|()| stderr.flush());
        }
        Progress { columns: if is_shown { text.chars().count() } else { 0 } }
    }

    /// Whether standard output takes colors: a terminal, and not with `NO_COLOR`.
    #[must_use]
    pub fn colors(&self) -> bool {
        anstream::AutoStream::choice(&io::stdout()) != anstream::ColorChoice::Never
    }

    /// Writes a result to a file, or to standard output where none or `-` is named.
    ///
    /// # Errors
    /// A file that cannot be written, or a closed pipe.
    pub fn write(&self, target: Option<&Path>, text: &str) -> Result<(), Failure> {
        match target {
            Some(path) if path != Path::new("-") => write_file(path, text),
            _ => self.print(text),
        }
    }

    /// Writes a result to standard output.
    ///
    /// # Errors
    /// A closed pipe, or a full disk behind it.
    pub fn print(&self, text: &str) -> Result<(), Failure> {
        let mut stdout = anstream::stdout().lock();
        let written = stdout.write_all(text.as_bytes()).and_then(|()| stdout.flush());
        written.map_err(|error| match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::Unwritten(io_fault("standard output", &error)),
        })
    }

    /// Writes a remark to standard error; nothing is lost if nobody reads it.
    pub fn note(&self, text: &str) {
        let mut stderr = anstream::stderr().lock();
        let _ = writeln!(stderr, "{text}");
    }

    /// Writes faults and warnings to standard error; a quiet console keeps the warnings to itself.
    pub fn report(&self, faults: &Faults) {
        let is_told = |found: &&Diagnostic| found.is_error() || self.loudness != Loudness::Quiet;
        let diagnostics: Vec<Diagnostic> =
            faults.diagnostics.iter().filter(is_told).cloned().collect();
        if diagnostics.is_empty() {
            return;
        }
        let text = if self.json {
            render::json(&diagnostics, &faults.details)
        } else {
            render::text(&diagnostics, &faults.sources)
        };
        self.note(text.trim_end());
    }
}

/// A line that is taken back when it is no longer true.
#[derive(Debug)]
pub struct Progress {
    columns: usize,
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.columns > 0 {
            let mut stderr = anstream::stderr().lock();
            let blank = " ".repeat(self.columns);
            let _ = write!(stderr, "\r{blank}\r").and_then(|()| stderr.flush());
        }
    }
}

/// Writes a whole file or nothing: beside it first, then in its place.
fn write_file(path: &Path, text: &str) -> Result<(), Failure> {
    // A link is followed, so that it stays one.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let existing = fs::metadata(&target).ok();
    if existing.as_ref().is_some_and(fs::Metadata::is_dir) {
        return Err(Failure::Faults(is_directory(path).into()));
    }
    let folder = match target.parent() {
        Some(folder) if folder != Path::new("") => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    if !folder.is_dir() {
        return Err(Failure::Faults(no_folder(path, &folder).into()));
    }
    let written = match &existing {
        Some(existing) if !existing.is_file() => fs::write(&target, text),
        _ => replace(&folder, &target, existing.map(|file| file.permissions()), text),
    };
    written.map_err(|error| Failure::Unwritten(unwritable(path, &folder, &error)))
}

fn replace(
    folder: &Path,
    target: &Path,
    permissions: Option<Permissions>,
    text: &str,
) -> io::Result<()> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".weekwright-");
    #[cfg(unix)]
    {
        // Ordinary permissions of a new file; the user's mask is applied to them.
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(text.as_bytes())?;
    if let Some(permissions) = permissions {
        file.as_file().set_permissions(permissions)?;
    }
    file.as_file().sync_all()?;
    file.persist(target)?;
    Ok(())
}

/// E1005: a folder is no place for a text.
fn is_directory(path: &Path) -> Diagnostic {
    Diagnostic::error("E1005", "the output is a directory")
        .at(Label::whole(path.display().to_string()))
        .help("name a file in it, as in `-o plan.yaml`")
}

/// E1004: the folder has to be there.
fn no_folder(path: &Path, folder: &Path) -> Diagnostic {
    Diagnostic::error("E1004", format!("there is no folder `{}`", folder.display()))
        .at(Label::whole(path.display().to_string()))
        .help("make the folder first, or name another file with `-o`")
}

/// E1006: the folder does not let us.
fn unwritable(path: &Path, folder: &Path, error: &io::Error) -> Diagnostic {
    Diagnostic::error("E1006", format!("the file cannot be written: {error}"))
        .at(Label::whole(path.display().to_string()))
        .help(format!(
            "check that you may write into `{}` and that there is room; nothing was changed",
            folder.display()
        ))
}
