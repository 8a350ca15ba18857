//! Results to standard output or a file, all else to standard error.

mod part;
mod target;
pub(super) mod used;

use std::io::{self, IsTerminal as _, Write as _};
use std::path::Path;

use super::{Failure, Faults, render};
use crate::diagnostic::{Diagnostic, Label};
use target::Target;
#[cfg(feature = "page")]
pub(super) use target::{replace, set_aside};

/// Where the program writes. Color goes only to terminals, and not with `NO_COLOR`.
#[derive(Debug)]
pub struct Console {
    json: bool,
    loudness: Loudness,
    /// Whether a file that is there may be replaced.
    force: bool,
    /// Whether faults are told with their codes.
    codes: bool,
    /// Whether there is a standard output.
    has_output: bool,
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
    pub fn new(json: bool, loudness: Loudness, has_output: bool) -> Console {
        let codes = std::env::var_os("WEEKWRIGHT_CODES").is_some_and(|told| !told.is_empty());
        Console { json, loudness, force: false, codes, has_output }
    }

    /// The same, and files that are there may be replaced where `force` was typed.
    #[must_use]
    pub fn replacing(self, force: bool) -> Console {
        Console { force, ..self }
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
    /// A file that may not or cannot be written, or a closed pipe.
    pub fn write(&self, target: Option<&Path>, text: &str) -> Result<(), Failure> {
        self.write_all(&[(target, text)])
    }

    /// Writes several results, each to its own file or to standard output. Nothing is written where one of them may
    /// not be.
    ///
    /// # Errors
    /// A file that may not or cannot be written, or a closed pipe.
    pub fn write_all(&self, results: &[(Option<&Path>, &str)]) -> Result<(), Failure> {
        let mut files: Vec<Target<'_>> = Vec::new();
        let mut printed = Vec::new();
        for (path, text) in results {
            match path.filter(|path| *path != Path::new("-")) {
                Some(path) => {
                    let file = Target::settle(path, text, self.force);
                    let file = file.map_err(|fault| Failure::Faults(fault.into()))?;
                    if files.iter().any(|other| other.identity == file.identity) {
                        return Err(Failure::Faults(target::twice(path).into()));
                    }
                    files.push(file);
                }
                None => printed.push(text),
            }
        }
        for file in files {
            if let Some(kept) = file.write()?.filter(|_| !self.is_quiet()) {
                self.note(&format!("the old file is kept as {}", kept.display()));
            }
        }
        printed.into_iter().try_for_each(|text| self.print(text))
    }

    /// Writes a file in the place of one that somebody agreed to replace.
    ///
    /// # Errors
    /// A file that may not or cannot be written.
    pub fn replace(&self, path: &Path, text: &str) -> Result<(), Failure> {
        Console { force: true, ..*self }.write(Some(path), text)
    }

    /// Writes a file of our own that is written over and over, such as a draft.
    ///
    /// # Errors
    /// A file that cannot be written.
    pub fn keep(&self, path: &Path, text: &str) -> Result<(), Failure> {
        part::replace(path, None, text)
            .map_err(|error| Failure::Unwritten(io_fault(&path.display().to_string(), &error)))
    }

    /// Writes a result to standard output.
    ///
    /// # Errors
    /// A closed pipe, or a full disk behind it.
    pub fn print(&self, text: &str) -> Result<(), Failure> {
        if !self.has_output {
            return Err(Failure::Unwritten(no_output()));
        }
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

    /// Writes what is good to know to standard error, unless the console is quiet.
    pub fn remark(&self, text: &str) {
        if !self.is_quiet() {
            self.note(text);
        }
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
            render::text(&diagnostics, &faults.sources, self.codes)
        };
        self.note(text.trim_end());
    }
}

/// E1006: there is nowhere to print to.
fn no_output() -> Diagnostic {
    Diagnostic::error("E1006", "standard output is closed")
        .at(Label::whole("standard output"))
        .help("leave `>&-` out, or name a file with `-o FILE`")
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

/// E1006: the system said no.
pub(super) fn io_fault(name: &str, error: &io::Error) -> Diagnostic {
    Diagnostic::error("E1006", format!("the file cannot be used: {error}"))
        .at(Label::whole(name))
        .help("check the path, and that you may use this file")
}
