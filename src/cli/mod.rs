//! The command line: the only place that touches files, environment and output.

pub mod args;
mod audit;
#[cfg(feature = "book")]
mod book;
#[cfg(feature = "book")]
mod carry;
mod catalog;
mod ending;
pub mod examples;
mod explain;
pub mod files;
mod guests;
mod intake;
#[cfg(feature = "book")]
mod log;
mod manual;
#[cfg(feature = "book")]
mod measure;
#[cfg(feature = "book")]
mod next;
mod no_plan;
#[cfg(feature = "book")]
pub mod notebook;
#[cfg(feature = "page")]
pub mod open;
pub mod output;
mod places;
mod plan;
pub mod plan_file;
pub mod profile_file;
#[cfg(feature = "book")]
mod progress;
pub mod render;
#[cfg(feature = "book")]
mod review;
mod rework;
mod rework_table;
mod roster;
mod rota;
mod schema;
mod sheet;
mod table;
mod terminal;
#[cfg(feature = "book")]
mod today;
mod why;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::{CommandFactory as _, Parser as _};

pub use crate::diagnostic::Faults;

use crate::diagnostic::Diagnostic;
use args::{Args, Command};
use output::{Console, Loudness};

/// How the program ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u8)]
pub enum Exit {
    /// Done.
    Done = 0,
    /// Anything that has no code of its own.
    Other = 1,
    /// The input or the usage is wrong.
    Input = 2,
    /// No plan can meet the hard rules.
    Impossible = 3,
    /// The audit found a broken rule.
    Broken = 4,
}

impl Exit {
    /// How several ends are one: the first of 1, 3, 2, 0 that occurs.
    fn of_many(exits: impl IntoIterator<Item = Exit>) -> Exit {
        let rank = |exit: &Exit| match exit {
            Exit::Done => 0,
            Exit::Input => 1,
            Exit::Impossible => 2,
            Exit::Other | Exit::Broken => 3,
        };
        exits.into_iter().max_by_key(rank).unwrap_or(Exit::Done)
    }
}

/// Why a command stopped.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The input is wrong.
    #[error("the input is wrong")]
    Faults(Faults),
    /// A result could not be written.
    #[error("{}", .0.message)]
    Unwritten(Diagnostic),
    /// The reader of our output went away, which is its right.
    #[error("nobody reads the output")]
    ClosedPipe,
}

impl Failure {
    /// Tells it, and how the program ends of it.
    ///
    /// # Errors
    /// The reader of our output went away: nothing more is to be told.
    fn told(self, console: &Console) -> Result<Exit, Failure> {
        match self {
            Failure::Faults(faults) => {
                console.report(&faults);
                Ok(Exit::Input)
            }
            Failure::Unwritten(diagnostic) => {
                console.report(&diagnostic.into());
                Ok(Exit::Other)
            }
            Failure::ClosedPipe => Err(self),
        }
    }
}

impl From<Faults> for Failure {
    fn from(faults: Faults) -> Self {
        Failure::Faults(faults)
    }
}

/// Runs the program with its arguments, the program's name first; without an output where there is no standard output.
pub fn run(arguments: impl IntoIterator<Item = OsString>, has_output: bool) -> ExitCode {
    let arguments = match Args::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => {
            // A closed pipe while printing help or a usage error is no fault of ours.
            let _ = error.print();
            return code(match (error.use_stderr(), has_output) {
                (true, _) => Exit::Input,
                (false, true) => Exit::Done,
                (false, false) => Exit::Other,
            });
        }
    };
    let loudness = match (arguments.quiet, arguments.verbose) {
        (true, _) => Loudness::Quiet,
        (_, true) => Loudness::Verbose,
        _ => Loudness::Usual,
    };
    let as_json = arguments.command.as_ref().is_some_and(Command::diagnostics_as_json);
    let console = Console::new(as_json, loudness, has_output).replacing(arguments.force);
    let outcome = match (&arguments.explain, &arguments.command) {
        (Some(code), _) => explain::run(code, &console),
        (None, Some(command)) => obey(command, &console),
        // Options alone ask for nothing.
        (None, None) => {
            let _ = Args::command().print_help();
            Ok(Exit::Input)
        }
    };
    code(match outcome {
        Ok(exit) => exit,
        Err(failure) => failure.told(&console).unwrap_or(Exit::Done),
    })
}

fn obey(command: &Command, console: &Console) -> Result<Exit, Failure> {
    match command {
        Command::Plan(arguments) => plan::run(arguments, console),
        Command::Rework(arguments) => rework::run(arguments, console),
        Command::Why(arguments) => why::run(arguments, console),
        Command::Audit(arguments) => audit::run(arguments, console),
        Command::Sheet(arguments) => sheet::run(arguments, console),
        #[cfg(feature = "book")]
        Command::Log(arguments) => log::run(arguments, console),
        #[cfg(feature = "book")]
        Command::Measure(arguments) => measure::run(arguments, console),
        #[cfg(feature = "book")]
        Command::Book(arguments) => book::run(arguments, console),
        #[cfg(feature = "book")]
        Command::Review(arguments) => review::run(arguments, console),
        #[cfg(feature = "book")]
        Command::Next(arguments) => next::run(arguments, console),
        Command::Catalog(arguments) => catalog::run(arguments, console),
        Command::Intake(arguments) => intake::run(arguments, console),
        #[cfg(feature = "page")]
        Command::Open(arguments) => open::run(arguments, console),
        Command::Rota(arguments) => rota::run(arguments, console),
        Command::Roster(arguments) => roster::run(arguments, console),
        Command::Schema(arguments) => schema::run(arguments, console),
        Command::Manual(arguments) => manual::run(arguments, console),
        Command::Completions(arguments) => manual::completions(arguments, console),
    }
}

fn code(exit: Exit) -> ExitCode {
    ExitCode::from(exit as u8)
}
