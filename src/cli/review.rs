//! `weekwright review`: a look back at what was done.

use std::fs;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::args::Format;
use super::args::book::ReviewArgs;
use super::book::{self, Book, measures, plans, sessions};
use super::log::target::{filed_plan, profile_of};
use super::output::Console;
use super::render::paragraph;
use super::{Exit, Failure, files, today};
use crate::book::body::Measured;
use crate::book::review::{About, Files, Review, review, text};
use crate::book::{DoneSession, slot};
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, Label};
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::planner::Planner;
use crate::words::Units;

pub(super) fn run(arguments: &ReviewArgs, console: &Console) -> Result<Exit, Failure> {
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let path = book::place(arguments.book.book.as_deref(), None);
    let book = Book::open(&path, console)?;
    let typed = |option: &str, text: &Option<String>| {
        text.as_deref().map(|text| today::typed(option, text)).transpose()
    };
    let span = (typed("--from", &arguments.from)?, typed("--to", &arguments.to)?);
    let past = Past::of(&book, &arguments.client, span, catalog)?;
    let review = past.review(Path::new("."));
    let told = match arguments.format {
        Format::Json => {
            let json = serde_json::to_string_pretty(&review).expect("a review has text keys only");
            format!("{json}\n")
        }
        Format::Text | Format::Yaml => {
            let width = console.width();
            text::text(&review, past.units(), &|line| paragraph(line, width))
        }
    };
    console.print(&told)?;
    Ok(Exit::Done)
}

/// All that the book has of a client, and the span that is looked at.
pub(super) struct Past {
    pub(super) client: String,
    pub(super) from: Date,
    pub(super) to: Date,
    pub(super) sessions: Vec<DoneSession>,
    pub(super) measured: Vec<Measured>,
    pub(super) plans: Vec<Plan>,
    plan_name: Option<String>,
    book: PathBuf,
    planner: Planner,
}

impl Past {
    /// The span as told; without it from the first day of the current plan, else from the first day written down, to the
    /// last day written down, or today while the plan runs.
    pub(super) fn of(
        book: &Book,
        code: &str,
        span: (Option<Date>, Option<Date>),
        catalog: Catalog,
    ) -> Result<Past, Failure> {
        let client = book.client(code)?;
        let sessions =
            book.ask(|connection| sessions::between(connection, client.id, Date::MIN, Date::MAX))?;
        let measured = book.ask(|connection| measures::of(connection, client.id))?;
        let mut days: Vec<Date> = sessions.iter().map(|one| one.date).collect();
        days.extend(measured.iter().map(|one| one.date));
        days.sort_unstable();
        let (Some(first), Some(last)) = (days.first().copied(), days.last().copied()) else {
            return Err(nothing(book.path(), code));
        };
        let planner = Planner::new(catalog);
        let today = today::today();
        let mut current = None;
        let mut last_real = None;
        for day in days.iter().rev() {
            current = book.ask(|book| plans::current(book, client.id, &day.to_string()))?;
            // A day to come that no plan has is a slip of the pen, and would stretch the span to it.
            if current.is_some() || *day <= today {
                last_real = Some(*day);
                break;
            }
        }
        let last = last_real.unwrap_or(last);
        let current = current.map(|filed| filed_plan(&filed, &planner)).transpose()?;
        let days = current.as_ref().and_then(|plan| slot::span(&plan.plan));
        let to = days.map_or(last, |(_, end)| last.max(today.min(end)));
        let (from, to) =
            (span.0.unwrap_or(days.map_or(first, |(first, _)| first)), span.1.unwrap_or(to));
        if from > to {
            let fault = Diagnostic::error("E2002", format!("{from} comes after {to}"))
                .help("write the earlier day after `--from`");
            return Err(Failure::Faults(fault.into()));
        }
        let filed = book.ask(|connection| {
            plans::between(connection, client.id, &from.to_string(), &to.to_string())
        })?;
        let plan_name = filed.last().map(|filed| filed.name.clone());
        let plans = filed.iter().map(|filed| filed_plan(filed, &planner).map(|plan| plan.plan));
        let plans = plans.collect::<Result<Vec<Plan>, Failure>>()?;
        let planner = plans.last().map_or_else(|| planner.clone(), |plan| planner.with_plan(plan));
        Ok(Past {
            client: code.to_owned(),
            from,
            to,
            sessions,
            measured,
            plans,
            plan_name,
            book: book.path().to_owned(),
            planner,
        })
    }

    pub(super) fn profile(&self) -> Option<&Profile> {
        self.plans.last().and_then(profile_of)
    }

    pub(super) fn units(&self) -> Units {
        self.profile().map_or(Units::Kg, |profile| profile.units)
    }

    pub(super) fn catalog(&self) -> &Catalog {
        self.planner.catalog()
    }

    /// The look back; its commands name files as they are called from a folder.
    pub(super) fn review(&self, folder: &Path) -> Review {
        let plan = self.plan_name.as_deref().map(Path::new);
        let profile = plan.and_then(|plan| beside(plan, &self.client, folder));
        let call = |path: Option<&Path>, otherwise: &str| {
            path.map_or_else(|| otherwise.to_owned(), |path| called(path, folder))
        };
        review(&About {
            client: &self.client,
            from: self.from,
            to: self.to,
            sessions: &self.sessions,
            measured: &self.measured,
            plans: &self.plans,
            profile: self.profile(),
            entries: self.planner.catalog().entries(),
            files: &Files {
                plan: call(plan, "PLAN"),
                profile: call(profile.as_deref(), "PROFILE"),
                book: call(Some(&self.book), "BOOK"),
            },
        })
    }
}

/// The profile of a plan: the file of that name without `.plan`, or the one that is called like the client.
fn beside(plan: &Path, client: &str, folder: &Path) -> Option<PathBuf> {
    let name = plan.file_name()?.to_str()?;
    let stem = name.strip_suffix(".yaml")?;
    let stems = [stem.strip_suffix(".plan").unwrap_or(client), client];
    let paths = stems.iter().flat_map(|stem| {
        let file = format!("{stem}.yaml");
        [plan.with_file_name(&file), folder.join("profiles").join(&file)]
    });
    let is_there = |path: &PathBuf| path != plan && folder.join(path).is_file();
    paths.into_iter().find(is_there)
}

/// A file as it is called from a folder: below it by the way down, elsewhere by its whole path. Blanks want quotes.
fn called(path: &Path, folder: &Path) -> String {
    let whole = |path: &Path| fs::canonicalize(path).ok();
    let below = || {
        let (path, folder) = (whole(path)?, whole(folder)?);
        Some(path.strip_prefix(folder).ok()?.to_owned())
    };
    let short = if path.is_absolute() { below() } else { None };
    let text = short.as_deref().unwrap_or(path).display().to_string();
    let text = text.strip_prefix("./").unwrap_or(&text).to_owned();
    if text.contains(char::is_whitespace) { format!("\"{text}\"") } else { text }
}

/// E6006: a client of whom nothing is written down.
fn nothing(path: &Path, code: &str) -> Failure {
    let fault = Diagnostic::error("E6006", format!("nothing is written down of {code}"))
        .at(Label::whole(path.display().to_string()))
        .help("`weekwright log` writes sessions down, `weekwright measure` body measures");
    Failure::Faults(fault.into())
}
