//! The arguments of the commands that keep the book.

use std::path::PathBuf;

use clap::Subcommand;

use super::Format;
use crate::book::body::Kind;

/// Where the book is.
#[derive(Debug, Clone, clap::Args)]
pub struct BookFile {
    /// The book; without it `weekwright.sqlite` in the working folder, else beside the plan
    #[arg(long, value_name = "FILE")]
    pub book: Option<PathBuf>,
}

/// `weekwright log`.
#[derive(Debug, clap::Args)]
pub struct LogArgs {
    /// The plan, or a client whose plan is in the book
    #[arg(value_name = "PLAN|CLIENT")]
    pub target: PathBuf,
    /// What was done: `back-squat 42.5 8 8 7 r2; plank 45s 40s`; without it the card is gone through
    #[arg(conflicts_with = "from")]
    pub lines: Option<String>,
    /// The day it was done, `2027-01-11`; without it that of `--week` and `--day` in the plan, else today
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// The plan's week
    #[arg(long, value_name = "N")]
    pub week: Option<u32>,
    /// The plan's day: `mon`, or `mon@18:30`
    #[arg(long, value_name = "DAY")]
    pub day: Option<String>,
    /// A note on the session
    #[arg(long, value_name = "TEXT", allow_hyphen_values = true)]
    pub note: Option<String>,
    /// A table that was filled in: `.csv`, `.xlsx`, or `-` for comma-separated values on standard input
    #[arg(long, value_name = "FILE")]
    pub from: Option<PathBuf>,
    /// Take a table whole or not at all, which is what happens anyway
    #[arg(long, requires = "from", conflicts_with = "what_is_good")]
    pub all_or_nothing: bool,
    /// Take the good rows of a table and name the others
    #[arg(long, requires = "from")]
    pub what_is_good: bool,
    /// Where the book is.
    #[command(flatten)]
    pub book: BookFile,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright next`.
#[derive(Debug, clap::Args)]
pub struct NextArgs {
    /// The plan
    pub plan: PathBuf,
    /// The first day that is still to come; without it today, or the day after the last session
    #[arg(long, value_name = "DATE")]
    pub on: Option<String>,
    /// Make the coming week an easier one
    #[arg(long)]
    pub easier: bool,
    /// How to print the plan, and faults with it; without it the ending of the file says which, else it is YAML
    #[arg(long, value_enum)]
    pub format: Option<Format>,
    /// Write to this file instead of standard output
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Where the book is.
    #[command(flatten)]
    pub book: BookFile,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright measure`.
#[derive(Debug, clap::Args)]
pub struct MeasureArgs {
    /// The client's code
    pub client: String,
    /// The day, `2027-01-11`; today where none is named
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// Body mass, in the client's unit or as `64.2kg`
    #[arg(long, value_name = "MASS")]
    pub mass: Option<String>,
    /// Height in cm, or as `66in`
    #[arg(long, value_name = "CM")]
    pub height: Option<String>,
    /// Girth of the neck in cm
    #[arg(long, value_name = "CM")]
    pub neck: Option<String>,
    /// Girth of the waist in cm; `--site waist=navel` says where
    #[arg(long, value_name = "CM")]
    pub waist: Option<String>,
    /// Girth of the hips in cm
    #[arg(long, value_name = "CM")]
    pub hip: Option<String>,
    /// Girth of the chest in cm
    #[arg(long, value_name = "CM")]
    pub chest: Option<String>,
    /// Girth of the upper arm in cm
    #[arg(long, value_name = "CM")]
    pub arm: Option<String>,
    /// Girth of the thigh in cm
    #[arg(long, value_name = "CM")]
    pub thigh: Option<String>,
    /// Girth of the calf in cm
    #[arg(long, value_name = "CM")]
    pub calf: Option<String>,
    /// Breadth of the knee in cm
    #[arg(long, value_name = "CM")]
    pub knee_breadth: Option<String>,
    /// Body fat in percent, as measured by something; `--method` says by what
    #[arg(long, value_name = "PERCENT")]
    pub body_fat: Option<String>,
    /// Beats a minute at rest
    #[arg(long, value_name = "BEATS")]
    pub resting_heart_rate: Option<String>,
    /// A skinfold in mm: `triceps=12`
    #[arg(long, value_name = "SITE=MM")]
    pub skinfold: Vec<String>,
    /// Where a girth was taken: `waist=navel`
    #[arg(long, value_name = "MEASURE=SITE")]
    pub site: Vec<String>,
    /// How it was measured: `tape`, `scales`, `calliper`
    #[arg(long, value_name = "WORD")]
    pub method: Option<String>,
    /// The profile to read height, sex and year of birth from; without it, the latest plan in the book
    #[arg(long, value_name = "FILE")]
    pub profile: Option<PathBuf>,
    /// Where the book is.
    #[command(flatten)]
    pub book: BookFile,
}

impl MeasureArgs {
    /// The measures that have an option of their own, as typed.
    #[must_use]
    pub fn named(&self) -> Vec<(Kind, &str)> {
        let named = [
            (Kind::Mass, &self.mass),
            (Kind::Height, &self.height),
            (Kind::Neck, &self.neck),
            (Kind::Waist, &self.waist),
            (Kind::Hip, &self.hip),
            (Kind::Chest, &self.chest),
            (Kind::Arm, &self.arm),
            (Kind::Thigh, &self.thigh),
            (Kind::Calf, &self.calf),
            (Kind::KneeBreadth, &self.knee_breadth),
            (Kind::BodyFat, &self.body_fat),
            (Kind::RestingHeartRate, &self.resting_heart_rate),
        ];
        named.into_iter().filter_map(|(kind, told)| Some((kind, told.as_deref()?))).collect()
    }
}

/// `weekwright review`.
#[derive(Debug, clap::Args)]
pub struct ReviewArgs {
    /// The client's code
    pub client: String,
    /// The first day that is looked at; without it the first day of the current plan
    #[arg(long, value_name = "DATE")]
    pub from: Option<String>,
    /// The last day
    #[arg(long, value_name = "DATE")]
    pub to: Option<String>,
    /// How to print the review, and faults with it
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Where the book is.
    #[command(flatten)]
    pub book: BookFile,
    /// A folder of catalog files that add exercises or replace them by id
    #[arg(long, value_name = "DIR")]
    pub catalog: Option<PathBuf>,
}

/// `weekwright book`.
#[derive(Debug, clap::Args)]
pub struct BookArgs {
    /// What to do with the book.
    #[command(subcommand)]
    pub action: BookAction,
    /// The book; without it `weekwright.sqlite` in the working folder
    #[arg(long, value_name = "FILE", global = true)]
    pub book: Option<PathBuf>,
}

/// What to do with the book.
#[derive(Debug, Subcommand)]
pub enum BookAction {
    /// Look the whole book through, and say what it holds
    Check,
    /// List the clients
    List {
        /// Those in the archive
        #[arg(long)]
        archived: bool,
    },
    /// Copy the book, profiles, places and plans into a new folder of the day
    Backup {
        /// Where the day's folder is made
        folder: PathBuf,
    },
    /// Write everything as comma-separated tables
    Export {
        /// The folder of the tables
        folder: PathBuf,
    },
    /// Read such tables back
    Import {
        /// The folder of the tables
        folder: PathBuf,
    },
    /// Remove a client and everything of theirs
    Forget {
        /// The client's code
        client: String,
    },
    /// Take a client out of the lists
    Archive {
        /// The client's code
        client: String,
        /// Take the client back into the lists
        #[arg(long)]
        back: bool,
    },
    /// Give a client another code
    Rename {
        /// The client's code
        client: String,
        /// The new one
        new: String,
    },
    /// Write down a remark on a client
    Remark {
        /// The client's code
        client: String,
        /// What there is to say
        #[arg(allow_hyphen_values = true)]
        text: String,
        /// The day; today where none is named
        #[arg(long, value_name = "DATE")]
        date: Option<String>,
    },
}
