//! The arguments as typed.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

/// Turns a client's days, minutes, kit, goal and limits into an audited week of training.
#[derive(Debug, Parser)]
#[command(name = "weekwright", version, max_term_width = 80)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Look through the exercises
    Catalog(CatalogArgs),
    /// Print the JSON Schema of a file format
    Schema(SchemaArgs),
}

impl Command {
    /// Whether faults are printed as JSON.
    #[must_use]
    pub fn diagnostics_as_json(&self) -> bool {
        match self {
            Command::Catalog(arguments) => arguments.format == Format::Json,
            Command::Schema(_) => false,
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
        /// The exercise
        id: String,
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
