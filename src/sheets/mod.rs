//! What leaves the program: the plan for a terminal, on paper, in a table, in a calendar.
//!
//! A sheet is made from the plan alone, plus catalog entries for names and cues. No sheet reads a
//! file or a clock, so the same plan gives the same bytes.

pub mod basis;
mod block;
pub(crate) mod card;
pub(crate) mod clean;
mod csv;
mod data;
mod day;
pub(crate) mod head;
mod heed;
pub(crate) mod html;
mod ics;
mod kit;
mod md;
pub(crate) mod phrase;
pub mod progress;
pub mod room;
pub mod seal;
mod sources;
mod text;
mod whys;
pub(crate) mod wording;
mod yaml;

use std::collections::BTreeMap;
use std::io;

use crate::input::catalog::Entry;
use crate::plan::file::Plan;

pub use crate::words::Paper;
pub use csv::Csv;
pub use data::Json;
pub use day::of_day;
pub(crate) use head::TRIAL;
pub use html::{Html, cards_of_day};
pub use ics::Calendar;
pub use md::Markdown;
pub use text::{Text, basis_text};
pub use yaml::Yaml;

/// Finds the catalog entry of an exercise, for its name, kit and cues.
pub trait Lookup {
    /// The entry of `id`, or `None` where the catalog has none; the sheet then prints the id.
    fn entry(&self, id: &str) -> Option<&Entry>;
}

impl Lookup for BTreeMap<String, Entry> {
    fn entry(&self, id: &str) -> Option<&Entry> {
        self.get(id)
    }
}

/// Who the sheet is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Audience {
    /// The sessions and the cautions.
    Client,
    /// The counts, the shortfalls and their reasons, the sources.
    Coach,
    /// Both, one after the other.
    #[default]
    Both,
}

impl Audience {
    /// Whether the client's part is wanted.
    #[must_use]
    pub const fn client(self) -> bool {
        matches!(self, Audience::Client | Audience::Both)
    }

    /// Whether the coach's part is wanted.
    #[must_use]
    pub const fn coach(self) -> bool {
        matches!(self, Audience::Coach | Audience::Both)
    }
}

/// How a sheet is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Options {
    /// Who it is for; text, HTML and Markdown heed it.
    pub audience: Audience,
    /// The paper, in place of the profile's; HTML heeds it.
    pub paper: Option<Paper>,
    /// Whether text may carry terminal colors.
    pub color: bool,
    /// Columns of the terminal; text heeds it and uses 60 to 100 of them.
    pub width: usize,
    /// The week whose sessions text shows; `None` shows the week at its fullest.
    pub week: Option<u32>,
}

impl Default for Options {
    fn default() -> Self {
        Options { audience: Audience::Both, paper: None, color: false, width: 80, week: None }
    }
}

/// Why a sheet could not be made.
#[derive(Debug, thiserror::Error)]
pub enum SheetError {
    /// The place that takes the sheet refused it.
    #[error("the sheet could not be written: {0}")]
    Write(#[from] io::Error),
    /// The page's template failed: a fault of the program.
    #[error("the page could not be made, which is a fault of the program: {0}")]
    Template(#[from] minijinja::Error),
    /// A calendar needs dates.
    #[error("a calendar needs dates: give the profile a `start`, such as `start: 2027-01-04`")]
    NoStart,
    /// The plan has fewer weeks than was asked for.
    #[error("the plan has no week {wanted}; it has {weeks}")]
    NoSuchWeek {
        /// The week asked for.
        wanted: u32,
        /// How many there are.
        weeks: usize,
    },
}

/// One way to put a plan in front of people.
pub trait Sheet {
    /// The word that `--as` or `--format` takes.
    fn format(&self) -> &'static str;

    /// Writes the plan to `out`.
    ///
    /// # Errors
    /// When `out` refuses the bytes, or the plan lacks what the format or the options need.
    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError>;
}

/// Every sheet, in the order that help lists them.
pub const SHEETS: &[&dyn Sheet] = &[&Text, &Html, &Markdown, &Csv, &Calendar, &Yaml, &Json];

/// The sheet of that format, if there is one.
#[must_use]
pub fn sheet(format: &str) -> Option<&'static dyn Sheet> {
    SHEETS.iter().copied().find(|sheet| sheet.format() == format)
}

/// Catalog entries as the sheets of one plan see them: the plan's own come first.
pub(crate) struct Names<'a> {
    plan: &'a Plan,
    catalog: &'a dyn Lookup,
}

impl<'a> Names<'a> {
    pub(crate) fn new(plan: &'a Plan, catalog: &'a dyn Lookup) -> Self {
        Names { plan, catalog }
    }

    pub(crate) fn entry(&self, id: &str) -> Option<&'a Entry> {
        self.plan.exercises.get(id).or_else(|| self.catalog.entry(id))
    }

    /// The trade's name of an exercise, or the text itself where it is no known id.
    pub(crate) fn name(&self, id: &str) -> String {
        self.entry(id).map_or_else(|| clean::line(id), |entry| clean::line(&entry.name))
    }
}
