//! The arguments of the commands that plan, rework and explain.

use std::path::PathBuf;

use super::Format;
use crate::planner::Options;
use crate::search::budget::Budget;

/// How long the planner looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
pub enum Search {
    /// A first answer, in a fraction of the time
    Quick,
    /// The week to keep
    #[default]
    Full,
}

/// Thousands of changes: about six times the most that any of some hundred profiles took, those that collide included
/// (3.1 million), and some seconds of a core.
const WORK: u64 = 20_000;

/// `weekwright plan`.
#[derive(Debug, clap::Args)]
pub struct PlanArgs {
    /// Profiles, or folders whose profiles are planned; `-` for standard input
    #[arg(value_name = "PROFILE", required_unless_present = "lines")]
    pub profiles: Vec<PathBuf>,
    /// Chooses among equally good weeks
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub seed: u64,
    /// Where the hard rules collide, apply the cheapest way out and say so in the plan
    #[arg(long)]
    pub best_effort: bool,
    /// How to print the plan, and faults with it; without it the ending of the file says which, else it is text, or YAML
    /// in a folder
    #[arg(long, value_enum)]
    pub format: Option<Format>,
    /// Write to this file instead of standard output; for several profiles a folder, each plan as `NAME.plan.yaml`
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Print, in place of the plan, the rows and sources that its numbers come from, and where sources disagree
    #[arg(long)]
    pub sources: bool,
    /// Also write the weekly model as free MPS, for other solvers; for several profiles into a folder
    #[arg(long, value_name = "FILE")]
    pub write_model: Option<PathBuf>,
    /// Also prove bounds of the plan's value by linear programming, and tell them; the plan stays the same
    #[arg(long, conflicts_with = "lines")]
    pub prove: bool,
    /// How long to look: `quick` is for a first impression, with the same rules and fewer points
    #[arg(long, value_enum, default_value_t)]
    pub effort: Search,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
    /// Take known lifts, the last block and what was left out from this book, and say in the plan what was taken
    #[cfg(feature = "book")]
    #[arg(long, value_name = "FILE", conflicts_with = "lines")]
    pub book: Option<PathBuf>,
    /// Read a profile as JSON from each line of standard input, and answer each with a line: its plan or its faults
    #[arg(long, conflicts_with_all = ["profiles", "output", "format", "write_model", "sources"])]
    pub lines: bool,
    /// The most work for each line, in thousands of changes of a week that are tried; a line that takes more is answered
    /// with a fault
    #[arg(long, value_name = "N", requires = "lines", default_value_t = WORK, value_parser = clap::value_parser!(u64).range(1..))]
    pub work: u64,
    /// The solver; `highs` solves whole weeks again after the search, which is slow
    #[cfg(feature = "highs")]
    #[arg(long, value_name = "SOLVER", default_value_t)]
    pub backend: crate::program::backend::Backend,
}

impl PlanArgs {
    /// One profile, planned as usual.
    #[must_use]
    pub fn for_one(profile: PathBuf, catalog: Option<PathBuf>) -> PlanArgs {
        PlanArgs {
            profiles: vec![profile],
            seed: 0,
            best_effort: false,
            format: None,
            output: None,
            sources: false,
            write_model: None,
            prove: false,
            effort: Search::Full,
            catalog,
            #[cfg(feature = "book")]
            book: None,
            lines: false,
            work: WORK,
            #[cfg(feature = "highs")]
            backend: crate::program::backend::Backend::default(),
        }
    }

    /// How the planner is asked.
    #[must_use]
    pub fn options(&self) -> Options {
        let mut options =
            Options { seed: self.seed, best_effort: self.best_effort, ..Options::default() };
        if self.effort == Search::Quick {
            options.budget = Budget::quick();
        }
        #[cfg(feature = "highs")]
        {
            options.budget.backend = self.backend;
        }
        options
    }
}

/// `weekwright rework`.
#[derive(Debug, clap::Args)]
pub struct ReworkArgs {
    /// The plan, or `-` for standard input
    pub plan: PathBuf,
    /// Kit that is missing
    #[arg(long, value_name = "ITEM")]
    pub without: Vec<String>,
    /// A day that is lost: `tue`, or `tue@07:30`
    #[arg(long, value_name = "DAY")]
    pub drop_day: Vec<String>,
    /// New minutes of a day
    #[arg(long, value_name = "DAY=N")]
    pub minutes: Vec<String>,
    /// Keep a stress out
    #[arg(long, value_name = "TAG")]
    pub limit: Vec<String>,
    /// Keep an exercise out
    #[arg(long, value_name = "ID")]
    pub never: Vec<String>,
    /// Bring an exercise in
    #[arg(long, value_name = "ID")]
    pub must: Vec<String>,
    /// Change one session only: that of this week, with `--day`
    #[arg(long, value_name = "N", conflicts_with_all = ["date", "from"])]
    pub week: Option<u32>,
    /// The day of the week that changes: `wed`, or `wed@18:30`
    #[arg(long, value_name = "DAY", conflicts_with_all = ["date", "from"], visible_alias = "today")]
    pub day: Option<String>,
    /// Change the session of this date only; with `--drop-day` what is left of its week
    #[arg(long, value_name = "DATE", conflicts_with = "from")]
    pub date: Option<String>,
    /// The first date of a span, with `--to`
    #[arg(long, value_name = "DATE", requires = "to")]
    pub from: Option<String>,
    /// The last date of a span
    #[arg(long, value_name = "DATE", requires = "from")]
    pub to: Option<String>,
    /// Where the dates of the span are trained: a place beside the plan
    #[arg(long, value_name = "NAME", requires = "from", conflicts_with = "off")]
    pub place: Option<String>,
    /// No training in the span; the weeks after it move
    #[arg(long, requires = "from")]
    pub off: bool,
    /// Plan for this profile in place of the plan's own
    #[arg(long, value_name = "FILE")]
    pub profile: Option<PathBuf>,
    /// Another seed than the plan's
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// How to print the plan, and faults with it; without it the ending of the file says which, else it is YAML
    #[arg(long, value_enum)]
    pub format: Option<Format>,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright why`.
#[derive(Debug, clap::Args)]
pub struct WhyArgs {
    /// The plan, or `-` for standard input
    pub plan: PathBuf,
    /// An exercise, in the plan or not, by id or name
    pub id: Option<String>,
    /// Where a muscle's sets come from
    #[arg(long, value_name = "MUSCLE", conflicts_with = "id")]
    pub muscle: Option<String>,
    /// The best replacements of the exercise
    #[arg(long, requires = "id")]
    pub instead: bool,
    /// How to print the answer, and faults with it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}
