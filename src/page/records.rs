//! The record of what was done as the page needs it. Only the command line knows how the book is kept.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::book::DoneSession;
use crate::book::review::Review;
use crate::catalog::Catalog;
use crate::diagnostic::Diagnostic;
use crate::input::plan::Plan;
use crate::words::Units;

/// A session to write down.
#[derive(Debug, Clone, Copy)]
pub struct ToWrite<'a> {
    /// The day it was done.
    pub date: Date,
    /// The plan's week.
    pub week: u32,
    /// The plan's day: `mon`, or `mon@18:30`.
    pub day: &'a str,
    /// A note on the session.
    pub note: &'a str,
    /// What was done, a line for each exercise, as `weekwright log` takes it.
    pub lines: &'a str,
}

/// A session that was written down.
#[derive(Debug, Clone)]
pub struct Stands {
    /// As it is in the book now.
    pub session: DoneSession,
    /// The exercises of the session whose place it took.
    pub instead_of: Vec<String>,
    /// What is odd about it and was kept.
    pub remarks: Vec<String>,
}

/// What a look back at a client comes to.
#[derive(Debug, Clone)]
pub struct LookBack {
    /// The look back.
    pub review: Review,
    /// Its first day.
    pub from: Date,
    /// Every session that is written down, oldest first.
    pub sessions: Vec<DoneSession>,
    /// The current plan.
    pub plan: Option<Plan>,
    /// The client's unit of mass.
    pub units: Units,
    /// The exercises that there are.
    pub catalog: Catalog,
}

/// The book of a folder, which need not be there yet. Faults are told in the words of the command line.
pub trait Records: Send + Sync {
    /// Whether there is a book.
    fn has_book(&self) -> bool;

    /// The day of each client's last session, by the client's code.
    ///
    /// # Errors
    /// A book that cannot be read.
    fn last_days(&self) -> Result<BTreeMap<String, Date>, Vec<Diagnostic>>;

    /// The sessions of a client, oldest first.
    ///
    /// # Errors
    /// A book that cannot be read.
    fn sessions(&self, client: &str) -> Result<Vec<DoneSession>, Vec<Diagnostic>>;

    /// All that the book has of a client; none where nothing is written down.
    ///
    /// # Errors
    /// A book that cannot be read.
    fn look_back(&self, client: &str) -> Result<Option<LookBack>, Vec<Diagnostic>>;

    /// Writes a session of the plan that is kept under a key, in place of the same session that stood there.
    ///
    /// # Errors
    /// Every fault of the lines with its place in them, or a book that cannot be written. Nothing is written then.
    fn write(&self, key: &str, told: &ToWrite<'_>) -> Result<Stands, Vec<Diagnostic>>;

    /// Files the plan that is kept under a key, where there is a book.
    ///
    /// # Errors
    /// A plan that cannot be read, or a book that cannot be written.
    fn file(&self, key: &str) -> Result<(), Vec<Diagnostic>>;
}
