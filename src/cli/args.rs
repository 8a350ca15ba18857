//! The arguments as typed.

#[cfg(feature = "book")]
pub mod book;
pub mod plan;
mod room;

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use super::examples;
use crate::sheets::{Audience, Paper};
#[cfg(feature = "book")]
use book::{BookArgs, LogArgs, MeasureArgs, NextArgs, ReviewArgs};
pub use plan::{PlanArgs, ReworkArgs, WhyArgs};
pub use room::{RosterArgs, RosterForm, RotaArgs};

/// Turns a client's days, minutes, kit, goal and limits into an audited week of training.
#[derive(Debug, Parser)]
#[command(name = "weekwright", version, max_term_width = 80, after_help = examples::ALL)]
#[command(arg_required_else_help = true)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Say what a code of a fault means, as programs get it in JSON, and what to do
    #[arg(long, value_name = "CODE", exclusive = true)]
    pub explain: Option<String>,
    /// Print no warnings and no progress, only errors
    #[arg(short, long, global = true, conflicts_with = "verbose")]
    pub quiet: bool,
    /// Also say how the result was found and how long it took
    #[arg(short, long, global = true)]
    pub verbose: bool,
    /// Replace a file that is there; of a YAML file the old one is kept
    #[arg(long, global = true)]
    pub force: bool,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Plan a client's weeks
    #[command(after_help = examples::PLAN)]
    Plan(PlanArgs),
    /// Change a plan as little as possible when something else changes
    #[command(after_help = examples::REWORK)]
    Rework(ReworkArgs),
    /// Ask a plan for its reasons
    #[command(after_help = examples::WHY)]
    Why(WhyArgs),
    /// Recount every rule of a plan, also one edited or written by hand
    #[command(after_help = examples::AUDIT)]
    Audit(AuditArgs),
    /// Write down what was done
    #[cfg(feature = "book")]
    #[command(after_help = examples::LOG)]
    Log(LogArgs),
    /// Write down body measures
    #[cfg(feature = "book")]
    #[command(after_help = examples::MEASURE)]
    Measure(MeasureArgs),
    /// Make the coming week from what was done
    #[cfg(feature = "book")]
    #[command(after_help = examples::NEXT)]
    Next(NextArgs),
    /// Look back: what was done, where the main lifts go, what could be changed
    #[cfg(feature = "book")]
    #[command(after_help = examples::REVIEW)]
    Review(ReviewArgs),
    /// Check, copy and tidy the book
    #[cfg(feature = "book")]
    #[command(after_help = examples::BOOK)]
    Book(BookArgs),
    /// Print a plan for paper, phone, table or calendar
    #[command(after_help = examples::SHEET)]
    Sheet(SheetArgs),
    /// Look through the exercises
    #[command(after_help = examples::CATALOG)]
    Catalog(CatalogArgs),
    /// Ask a new client's answers and write a profile
    #[command(after_help = examples::INTAKE)]
    Intake(IntakeArgs),
    /// Open the coach's page over a folder, in a browser on this machine
    #[cfg(feature = "page")]
    #[command(after_help = examples::OPEN)]
    Open(OpenArgs),
    /// Settle who is at which station when, for all who share a room in a week
    #[command(after_help = examples::ROTA)]
    Rota(RotaArgs),
    /// Show who of a folder trains when, and what is open
    #[command(after_help = examples::ROSTER)]
    Roster(RosterArgs),
    /// Print the JSON Schema of a file format
    #[command(after_help = examples::SCHEMA)]
    Schema(SchemaArgs),
    /// Print the manual page of the program or of a command
    #[command(after_help = examples::MANUAL)]
    Manual(ManualArgs),
    /// Print what a shell needs to complete commands and options
    #[command(after_help = examples::COMPLETIONS)]
    Completions(CompletionsArgs),
}

impl Command {
    /// Whether faults are printed as JSON.
    #[must_use]
    pub fn diagnostics_as_json(&self) -> bool {
        match self {
            Command::Plan(arguments) => arguments.lines || arguments.format == Some(Format::Json),
            Command::Rework(arguments) => arguments.format == Some(Format::Json),
            Command::Why(arguments) => arguments.format == Format::Json,
            Command::Audit(arguments) => arguments.format == Format::Json,
            Command::Catalog(arguments) => arguments.format == Format::Json,
            Command::Rota(arguments) => arguments.format == Format::Json,
            #[cfg(feature = "book")]
            Command::Next(arguments) => arguments.format == Some(Format::Json),
            #[cfg(feature = "book")]
            Command::Review(arguments) => arguments.format == Format::Json,
            _ => false,
        }
    }
}

/// How results and faults are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people
    Text,
    /// As YAML; faults as text
    Yaml,
    /// As JSON, faults too
    Json,
}

/// `weekwright catalog`.
#[derive(Debug, clap::Args)]
pub struct CatalogArgs {
    /// What to do with the exercises.
    #[command(subcommand)]
    pub action: CatalogAction,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR", global = true)]
    pub catalog: Option<PathBuf>,
    /// How to print the result, and faults with it
    #[arg(long, value_enum, default_value_t = Format::Text, global = true)]
    pub format: Format,
}

/// What to do with the exercises.
#[derive(Debug, Subcommand)]
pub enum CatalogAction {
    /// List exercises; filters combine
    List(ListArgs),
    /// Show one exercise
    Show {
        /// The exercise, by id or name
        id: String,
    },
    /// Look for exercises by words of their names, muscles or kit
    Find {
        /// The words
        #[arg(required = true, value_name = "WORDS")]
        words: Vec<String>,
    },
    /// Look for faults and gaps; exit code 2 if there is a fault
    Lint,
}

/// Filters of `catalog list`. Words are checked later, so that a wrong one gets the nearest.
#[derive(Debug, clap::Args)]
pub struct ListArgs {
    /// Only this movement pattern
    #[arg(long, value_name = "PATTERN")]
    pub pattern: Option<String>,
    /// Only what trains this muscle directly, or readies it
    #[arg(long, value_name = "MUSCLE")]
    pub muscle: Option<String>,
    /// Only what can be done with these items and uses one of them; `none` for no kit
    #[arg(long, value_name = "ITEM", value_delimiter = ',')]
    pub kit: Vec<String>,
    /// Only what a client with this limit may do
    #[arg(long, value_name = "TAG", value_delimiter = ',')]
    pub limit: Vec<String>,
    /// Only this level: 1 novice, 2 intermediate, 3 advanced
    #[arg(long, value_name = "1-3", value_parser = clap::value_parser!(u8).range(1..=3))]
    pub level: Option<u8>,
    /// Only this role: work, prep, conditioning or finisher
    #[arg(long, value_name = "ROLE")]
    pub role: Option<String>,
}

/// `weekwright schema`.
#[derive(Debug, clap::Args)]
pub struct SchemaArgs {
    /// The file format
    #[arg(value_enum)]
    pub of: Shape,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// `weekwright open`.
#[cfg(feature = "page")]
#[derive(Debug, clap::Args)]
pub struct OpenArgs {
    /// The folder with profiles, their places and plans
    #[arg(value_name = "FOLDER", default_value = ".")]
    pub folder: PathBuf,
    /// The port to listen at; without it one that is free
    #[arg(long, value_name = "N")]
    pub port: Option<u16>,
    /// Print the address and open no browser
    #[arg(long)]
    pub no_browser: bool,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright intake`.
#[derive(Debug, clap::Args)]
pub struct IntakeArgs {
    /// A profile to change, or a draft to go on with; without one a new client is asked
    #[arg(value_name = "FILE", conflicts_with = "output")]
    pub file: Option<PathBuf>,
    /// Write the profile to this file instead of `profiles/<client>.yaml`
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright manual`.
#[derive(Debug, clap::Args)]
pub struct ManualArgs {
    /// The command; without one, the page of the program
    pub command: Option<String>,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// `weekwright completions`.
#[derive(Debug, clap::Args)]
pub struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
}

/// A file format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Shape {
    /// One client
    Profile,
    /// A room with kit
    Place,
    /// A list of exercises
    Catalog,
    /// A plan
    Plan,
}

/// `weekwright audit`.
#[derive(Debug, clap::Args)]
pub struct AuditArgs {
    /// The plan, or `-` for standard input
    pub plan: PathBuf,
    /// How to print the findings, and faults with them
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright sheet`.
#[derive(Debug, clap::Args)]
pub struct SheetArgs {
    /// The plan, or `-` for standard input; of a folder every plan
    #[cfg_attr(feature = "book", arg(required_unless_present = "progress"))]
    #[cfg_attr(not(feature = "book"), arg(required = true))]
    pub plan: Option<PathBuf>,
    /// In place of a plan: what this client did, from the book (text or html)
    #[cfg(feature = "book")]
    #[arg(long, value_name = "CLIENT", conflicts_with_all = ["plan", "week"])]
    pub progress: Option<String>,
    /// The book; without it `weekwright.sqlite` in the working folder
    #[cfg(feature = "book")]
    #[arg(long, value_name = "FILE", requires = "progress")]
    pub book: Option<PathBuf>,
    /// The form of the sheet; without it the ending of the file says which, else it is text
    #[arg(long = "as", value_enum)]
    pub form: Option<Form>,
    /// Whom it is for [default: both; of progress the client]
    #[arg(long = "for", value_enum)]
    pub audience: Option<For>,
    /// The paper it is laid out for [default: that of the profile, of several the first one's]
    #[arg(long, value_enum)]
    pub paper: Option<PaperSize>,
    /// Show this week instead of the week at its fullest (text only)
    #[arg(long, value_name = "N")]
    pub week: Option<u32>,
    /// The cards of this day only, of all who train on it, on one page (HTML)
    #[arg(long, value_name = "DATE", conflicts_with = "week")]
    pub date: Option<String>,
    /// Write to this file instead of standard output; for a folder of plans a folder
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// The form of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Form {
    /// For a terminal
    Text,
    /// One page for screen, phone and paper
    Html,
    /// Markdown
    Md,
    /// A table, one row per item and week
    Csv,
    /// A calendar, one event per session
    Ics,
    /// The plan itself
    Yaml,
    /// The plan itself
    Json,
}

impl Form {
    /// The word of the form.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Form::Text => "text",
            Form::Html => "html",
            Form::Md => "md",
            Form::Csv => "csv",
            Form::Ics => "ics",
            Form::Yaml => "yaml",
            Form::Json => "json",
        }
    }
}

/// Whom a sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum For {
    /// Sessions and cautions
    Client,
    /// Counts, shortfalls and sources
    Coach,
    /// Both
    Both,
}

impl From<For> for Audience {
    fn from(audience: For) -> Audience {
        match audience {
            For::Client => Audience::Client,
            For::Coach => Audience::Coach,
            For::Both => Audience::Both,
        }
    }
}

/// Paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum PaperSize {
    /// 210 x 297 mm
    A4,
    /// 8.5 x 11 in
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(paper: PaperSize) -> Paper {
        match paper {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        }
    }
}
