//! Whose session is written down, and by which plan.

use std::collections::BTreeMap;
use std::path::Path;

use jiff::civil::Date;

use crate::book::{DoneSession, slot};
use crate::catalog::Catalog;
use crate::cli::args::book::BookFile;
use crate::cli::book::{self, Book, plans, sessions};
use crate::cli::output::Console;
use crate::cli::plan_file;
use crate::cli::{Failure, today};
use crate::diagnostic::{Label, Source};
use crate::input::catalog::Entry;
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::load;
use crate::planner::Planner;
use crate::strength::ladder::Ladder;
use crate::strength::racks;
use crate::words::Units;

/// A client with the plan that is current.
pub(in crate::cli) struct Target {
    pub(in crate::cli) client: String,
    pub(in crate::cli) plan: Option<TargetPlan>,
    planner: Planner,
}

/// A plan with its text as it is filed.
pub(in crate::cli) struct TargetPlan {
    pub(in crate::cli) plan: Plan,
    pub(in crate::cli) name: String,
    pub(in crate::cli) text: String,
}

impl Target {
    /// The plan of a file with the book beside it, or a client of the book with the plan that covers a date, where none is
    /// told today or else the plan that was filed last; and the book.
    ///
    /// # Errors
    /// All faults of the plan, or no such client.
    pub(in crate::cli) fn of(
        target: &Path,
        catalog: Catalog,
        date: Option<Date>,
        named: &BookFile,
        console: &Console,
    ) -> Result<(Target, Book), Failure> {
        let planner = Planner::new(catalog);
        let is_client = !target.is_file() && is_code(target);
        if is_client {
            let path = book::place(named.book.as_deref(), None);
            if path.is_file() {
                return Target::of_client(&target.to_string_lossy(), planner, date, &path, console);
            }
        }
        let plan = plan_of_file(target, &planner)?;
        let path = book::place(named.book.as_deref(), Some(target));
        let book = Book::open_or_promise(&path, console)?;
        let client = client_of(&plan.plan).ok_or_else(|| no_client(target))?;
        let planner = planner.with_plan(&plan.plan);
        Ok((Target { client, plan: Some(plan), planner }, book))
    }

    fn of_client(
        code: &str,
        planner: Planner,
        date: Option<Date>,
        path: &Path,
        console: &Console,
    ) -> Result<(Target, Book), Failure> {
        let book = Book::open(path, console)?;
        let client = book.client(code)?;
        let day = date.unwrap_or_else(today::today).to_string();
        let filed = book.ask(|connection| {
            let current = plans::current(connection, client.id, &day)?;
            match current {
                None if date.is_none() => plans::latest(connection, client.id),
                current => Ok(current),
            }
        })?;
        let plan = match filed {
            Some(filed) => Some(filed_plan(&filed, &planner)?),
            None => None,
        };
        let planner = match &plan {
            Some(plan) => planner.with_plan(&plan.plan),
            None => planner,
        };
        Ok((Target { client: code.to_owned(), plan, planner }, book))
    }

    /// The exercises that there are.
    pub(in crate::cli) fn entries(&self) -> &BTreeMap<String, Entry> {
        self.planner.catalog().entries()
    }

    /// The client's profile, where there is a plan.
    pub(in crate::cli) fn profile(&self) -> Option<&Profile> {
        self.plan.as_ref().and_then(|plan| profile_of(&plan.plan))
    }

    /// In which loads are written.
    pub(in crate::cli) fn units(&self) -> Units {
        self.profile().map_or(Units::Kg, |profile| profile.units)
    }

    /// The loads that the client's place can make for an exercise.
    pub(in crate::cli) fn ladder(&self, entry: &Entry) -> Option<Ladder> {
        let profile = self.profile()?;
        racks::ladder(entry, profile.equipment.as_ref()?, profile.units)
    }

    /// What is written down of the client.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub(in crate::cli) fn done(&self, book: &Book) -> Result<Vec<DoneSession>, Failure> {
        let client = book.clients()?.into_iter().find(|one| one.code == self.client);
        let Some(client) = client else { return Ok(Vec::new()) };
        book.ask(|connection| sessions::between(connection, client.id, Date::MIN, Date::MAX))
    }
}

/// The profile inside a plan that was read whole.
pub(in crate::cli) fn profile_of(plan: &Plan) -> Option<&Profile> {
    match &plan.profile {
        ProfileRef::Whole(profile) => Some(profile),
        ProfileRef::File(_) => None,
    }
}

/// A plan that lies in the book, with its profile whole.
///
/// # Errors
/// What this version cannot read of it.
pub(in crate::cli) fn filed_plan(
    filed: &plans::Filed,
    planner: &Planner,
) -> Result<TargetPlan, Failure> {
    let source = Source::new(&filed.name, &filed.text);
    let plan = plan_file::with_profile(Path::new(&filed.name), load::plan(source)?, planner)?;
    Ok(TargetPlan { plan, name: filed.name.clone(), text: filed.text.clone() })
}

/// The plan of a file, with its profile whole.
///
/// # Errors
/// All faults of the file.
pub(in crate::cli) fn plan_of_file(path: &Path, planner: &Planner) -> Result<TargetPlan, Failure> {
    let loaded = plan_file::load_plan(path)?;
    let text = loaded.source.text.to_string();
    let plan = plan_file::with_profile(path, loaded, planner)?;
    Ok(TargetPlan { plan, name: path.display().to_string(), text })
}

fn client_of(plan: &Plan) -> Option<String> {
    let inside = profile_of(plan).map(|profile| profile.client.clone());
    Some(plan.client.clone()).filter(|client| !client.is_empty()).or(inside)
}

fn is_code(target: &Path) -> bool {
    let text = target.to_string_lossy();
    !text.contains(['/', '\\'])
        && !text.ends_with(".yaml")
        && !text.ends_with(".json")
        && text != "-"
}

fn no_client(path: &Path) -> Failure {
    let fault = crate::diagnostic::Diagnostic::error("E2001", "the plan names no client")
        .at(Label::whole(path.display().to_string()))
        .help("write `client: CODE` into it");
    Failure::Faults(fault.into())
}

/// Files a plan under its client, who is added where the book has none of that code. Gives both ids.
pub(in crate::cli) fn file_plan(
    transaction: &rusqlite::Transaction<'_>,
    client: &str,
    plan: Option<(&Plan, &str, &str)>,
    today: Date,
) -> rusqlite::Result<(i64, Option<i64>)> {
    let client = book::client_id(transaction, client)?;
    let Some((plan, name, text)) = plan else { return Ok((client, None)) };
    let span = slot::span(plan);
    let filed = plans::ToFile {
        name,
        text,
        first_day: span.map(|(first, _)| first.to_string()),
        last_day: span.map(|(_, last)| last.to_string()),
        course: slot::course(plan),
        today: today.to_string(),
    };
    Ok((client, Some(plans::file(transaction, client, &filed)?)))
}
