//! The book for another front door of the program, such as a page: who is in it, what is planned, what was done last,
//! and writing a session down. Everything that the commands check is checked here too, and nothing is printed.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

#[cfg(feature = "page")]
use super::book::measures;
use super::book::{Book, NAME, Written, plans, sessions};
use super::log::target::{Target, filed_plan};
#[cfg(feature = "page")]
use super::log::target::{file_plan, plan_of_file, profile_of};
use super::log::{self, Meant};
use super::output::{Console, Loudness};
#[cfg(feature = "page")]
use super::review::Past;
use super::{Failure, today};
use crate::book::{DoneSession, slot};
use crate::catalog::Catalog;
use crate::input::plan::Plan;
use crate::planner::Planner;

/// A book in a folder, opened for each question: between two of them it may be copied, moved or written by a command.
#[derive(Debug, Clone)]
pub struct Notebook {
    path: PathBuf,
    catalog: Catalog,
}

/// A plan as it was handed over.
#[derive(Debug, Clone, PartialEq)]
pub struct FiledPlan {
    /// The file's name then.
    pub name: String,
    /// The day that it was filed.
    pub filed_on: String,
    /// The file's text.
    pub text: String,
    /// The plan that the text stands for, every week complete.
    pub plan: Plan,
}

/// A session to write down.
#[derive(Debug, Clone, Copy)]
pub struct ToLog<'a> {
    /// A plan's file, or a client whose plan is in the book.
    pub target: &'a Path,
    /// The day it was done.
    pub date: Date,
    /// The plan's week, where it is not that of the date.
    pub week: Option<u32>,
    /// The plan's day where it is not that of the date: `mon`, or `mon@18:30`.
    pub day: Option<&'a str>,
    /// A note on the session.
    pub note: Option<&'a str>,
    /// What was done, as `weekwright log` takes it: `back-squat 42.5 8 8 7 r2; plank 45s 40s`.
    pub lines: &'a str,
}

/// A session that was written down.
#[derive(Debug, Clone, PartialEq)]
pub struct Logged {
    /// The client's code.
    pub client: String,
    /// As it is in the book now.
    pub session: DoneSession,
    /// The exercises of the session whose place it took.
    pub instead_of: Vec<String>,
    /// What is odd about it and was kept.
    pub remarks: Vec<String>,
}

impl Notebook {
    /// The book of a folder, which need not be there yet.
    #[must_use]
    pub fn of_folder(folder: &Path, catalog: Catalog) -> Notebook {
        Notebook { path: folder.join(NAME), catalog }
    }

    /// Where the book is.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    fn open(&self) -> Result<Option<Book>, Failure> {
        self.path.is_file().then(|| Book::open(&self.path, &quiet())).transpose()
    }

    /// The clients in the book, without those in the archive; none where there is no book.
    ///
    /// # Errors
    /// A file that is no book of this version, or one that cannot be read.
    pub fn clients(&self) -> Result<Vec<String>, Failure> {
        let Some(book) = self.open()? else { return Ok(Vec::new()) };
        let clients = book.clients()?.into_iter().filter(|client| client.archived_on.is_none());
        Ok(clients.map(|client| client.code).collect())
    }

    /// The plan of a client that is current on a day: of those that cover it the one that was filed last.
    ///
    /// # Errors
    /// As for `clients`, and a plan that this version cannot read.
    pub fn plan(&self, client: &str, date: Date) -> Result<Option<FiledPlan>, Failure> {
        let Some(book) = self.open()? else { return Ok(None) };
        let Some(client) = book.clients()?.into_iter().find(|one| one.code == client) else {
            return Ok(None);
        };
        let filed = book.ask(|book| plans::current(book, client.id, &date.to_string()))?;
        let Some(filed) = filed else { return Ok(None) };
        let plan = filed_plan(&filed, &Planner::new(self.catalog.clone()))?.plan;
        Ok(Some(FiledPlan { name: filed.name, filed_on: filed.filed_on, text: filed.text, plan }))
    }

    /// The sessions of a client from one day to another, oldest first.
    ///
    /// # Errors
    /// As for `clients`.
    pub fn sessions(
        &self,
        client: &str,
        from: Date,
        to: Date,
    ) -> Result<Vec<DoneSession>, Failure> {
        let Some(book) = self.open()? else { return Ok(Vec::new()) };
        let Some(client) = book.clients()?.into_iter().find(|one| one.code == client) else {
            return Ok(Vec::new());
        };
        book.ask(|book| sessions::between(book, client.id, from, to))
    }

    /// The session of a client that was done last.
    ///
    /// # Errors
    /// As for `clients`.
    pub fn last_session(&self, client: &str) -> Result<Option<DoneSession>, Failure> {
        Ok(self.sessions(client, Date::MIN, Date::MAX)?.pop())
    }

    /// The day of each client's last session, by the client's code; none where there is no book.
    ///
    /// # Errors
    /// As for `clients`.
    pub fn last_days(&self) -> Result<BTreeMap<String, Date>, Failure> {
        let Some(book) = self.open()? else { return Ok(BTreeMap::new()) };
        book.ask(sessions::last_days)
    }

    /// All that the book has of a client; none where nothing is written down.
    ///
    /// # Errors
    /// As for `plan`.
    #[cfg(feature = "page")]
    pub(super) fn past(&self, client: &str) -> Result<Option<Past>, Failure> {
        let Some(book) = self.open()? else { return Ok(None) };
        let Some(found) = book.clients()?.into_iter().find(|one| one.code == client) else {
            return Ok(None);
        };
        let is_blank = book.ask(|book| {
            let sessions = sessions::between(book, found.id, Date::MIN, Date::MAX)?;
            Ok(sessions.is_empty() && measures::of(book, found.id)?.is_empty())
        })?;
        if is_blank {
            return Ok(None);
        }
        Past::of(&book, client, (None, None), self.catalog.clone()).map(Some)
    }

    /// Files the plan of a file, where there is a book.
    ///
    /// # Errors
    /// As for `plan`, and a book that cannot be written.
    #[cfg(feature = "page")]
    pub(super) fn file(&self, plan: &Path) -> Result<(), Failure> {
        let Some(mut book) = self.open()? else { return Ok(()) };
        let told = plan_of_file(plan, &Planner::new(self.catalog.clone()))?;
        let client = profile_of(&told.plan).map_or(&told.plan.client, |profile| &profile.client);
        let filed = Some((&told.plan, told.name.as_str(), told.text.as_str()));
        book.change(|transaction| file_plan(transaction, client, filed, today::today()))?;
        Ok(())
    }

    /// Writes a session down, in the book that is made where there is none. The same session again takes the place of
    /// the first.
    ///
    /// # Errors
    /// Every fault of the lines at once, with its place in them; a plan or a client that is not there; a book that cannot
    /// be written. Nothing is written then.
    pub fn log(&self, told: &ToLog<'_>) -> Result<Logged, Failure> {
        let catalog = self.catalog.clone();
        let named = super::args::book::BookFile { book: Some(self.path.clone()) };
        let (target, mut book) =
            Target::of(told.target, catalog, Some(told.date), &named, &quiet())?;
        let done = target.done(&book)?;
        let plan = target.plan.as_ref();
        let taken = plan.map(|plan| slot::taken(&done, &plan.plan)).unwrap_or_default();
        let meant =
            Meant { date: Some(told.date), week: told.week, day: told.day, note: told.note };
        let session = log::of_lines(&target, &taken, &meant, told.lines)?;
        let remarks = log::oddities(&session, &target, today::today());
        let stood = log::write(&mut book, &target, std::slice::from_ref(&session), today::today())?;
        let instead_of = match stood.into_iter().next() {
            Some(Written::Instead(before)) => before,
            _ => Vec::new(),
        };
        Ok(Logged { client: target.client.clone(), session, instead_of, remarks })
    }
}

/// What the commands say beside their results is not said here.
fn quiet() -> Console {
    Console::new(false, Loudness::Quiet, true)
}
