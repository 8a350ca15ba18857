//! The arguments of the commands for a room and for a folder of clients.

use std::path::PathBuf;

use clap::ValueEnum;

use super::Format;

/// `weekwright rota`.
#[derive(Debug, clap::Args)]
pub struct RotaArgs {
    /// Profiles, plans, or folders with them; a client's plan comes before the profile
    #[arg(value_name = "PROFILE|PLAN|FOLDER", required = true)]
    pub inputs: Vec<PathBuf>,
    /// The room; without it the one where all of them train
    #[arg(long, value_name = "NAME")]
    pub place: Option<String>,
    /// A day of the week that is meant; without it this week, or the first of the plans
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// How many minutes a start may move, in steps of 5
    #[arg(long, value_name = "MIN", default_value_t = 10, value_parser = clap::value_parser!(u32).range(0..=60))]
    pub slack: u32,
    /// Find hours for sessions that have none
    #[arg(long)]
    pub spread: bool,
    /// Clients whom one coach looks after at once; then no two novices lift a heavy bar beside the same coach
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=50))]
    pub per_coach: Option<u32>,
    /// Coaches on the floor [default: 1]
    #[arg(long, value_name = "N", requires = "per_coach", value_parser = clap::value_parser!(u32).range(1..=50))]
    pub coaches: Option<u32>,
    /// How to print the week, and faults with it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// A folder for the plans, each with its dates, and the page for the wall; a name that ends in `.html` for the page alone
    #[arg(short, long, value_name = "DIR")]
    pub output: Option<PathBuf>,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright roster`.
#[derive(Debug, clap::Args)]
pub struct RosterArgs {
    /// A folder with plans and profiles
    #[arg(value_name = "FOLDER")]
    pub folder: PathBuf,
    /// A day of the week that is meant; without it this week, or the first of the plans
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// The form of the table; without it the ending of the file says which, else it is text
    #[arg(long = "as", value_enum)]
    pub form: Option<RosterForm>,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// The form of the roster.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum RosterForm {
    /// For a terminal
    Text,
    /// A table, one row per client
    Csv,
    /// One page
    Html,
}
