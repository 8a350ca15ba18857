//! `weekwright sheet`: a plan for paper, phone, table or calendar.

mod of_many;

use std::collections::BTreeMap;
use std::path::Path;

use super::args::{For, Form, SheetArgs};
use super::output::Console;
use super::plan_file;
use super::{Exit, Failure, Faults, ending, files};
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::catalog::Entry;
use crate::input::marks::Marks;
use crate::input::naming;
use crate::input::plan::{Plan, Session};
use crate::path;
use crate::planner::Planner;
use crate::sheets::{self, SheetError};

pub(super) fn run(arguments: &SheetArgs, console: &Console) -> Result<Exit, Failure> {
    #[cfg(feature = "book")]
    if let Some(client) = &arguments.progress {
        return super::progress::run(client, arguments, console);
    }
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let plan = arguments.plan.as_deref().expect("a sheet without a plan is one of progress");
    if plan.is_dir() || arguments.date.is_some() {
        return of_many::run(arguments, plan, &catalog, console);
    }
    let form = ending::chosen(arguments.form.as_ref(), arguments.output.as_deref(), Form::Text)?;
    let plan = told(plan, &catalog, console)?;
    let color = console.colors() && arguments.output.is_none();
    let text = made(&plan, catalog.entries(), form.id(), &options(arguments, console, color))?;
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
}

/// How the sheets of a command are made.
pub(super) fn options(arguments: &SheetArgs, console: &Console, color: bool) -> sheets::Options {
    sheets::Options {
        audience: arguments.audience.unwrap_or(For::Both).into(),
        paper: arguments.paper.map(Into::into),
        week: arguments.week,
        color,
        width: console.width(),
    }
}

/// A plan as it is shown: its client may train, its texts and figures follow its numbers. What the catalog lacks is said.
pub(super) fn told(path: &Path, catalog: &Catalog, console: &Console) -> Result<Plan, Failure> {
    let planner = Planner::new(catalog.clone());
    let mut loaded = plan_file::load_plan(path)?.told(catalog.entries())?;
    plan_file::may_train(&loaded.plan, path)?;
    planner.count(&mut loaded.plan);
    console.report(&strangers(&loaded.plan, catalog.entries(), &loaded.source));
    Ok(loaded.plan)
}

/// A sheet as text.
pub(super) fn made(
    plan: &Plan,
    names: &BTreeMap<String, Entry>,
    format: &str,
    options: &sheets::Options,
) -> Result<String, Failure> {
    let sheet = sheets::sheet(format).expect("the arguments name only sheets that there are");
    let mut bytes = Vec::new();
    sheet.write(plan, names, options, &mut bytes).map_err(|error| unmade(&error))?;
    Ok(String::from_utf8(bytes).expect("sheets are text"))
}

/// W4003: exercises that neither the catalog nor the plan itself knows, each told once. A plan may outlive a catalog, so
/// the sheet is still made.
fn strangers(plan: &Plan, names: &BTreeMap<String, Entry>, source: &Source) -> Faults {
    let weeks = plan.weeks.iter().map(|week| week.sessions.as_slice());
    let mut strange: Vec<&str> = weeks
        .chain([plan.sessions.as_slice()])
        .flatten()
        .flat_map(exercises)
        .filter(|id| !names.contains_key(*id) && !plan.exercises.contains_key(*id))
        .collect();
    strange.sort_unstable();
    strange.dedup();
    let told = strange.into_iter().map(|id| {
        let message = format!(
            "the catalog has no exercise {}, so the sheet shows it without name, cues and kind of load",
            quoted(id)
        );
        let help = match naming::near(id, names).first() {
            Some(near) => format!("did you mean `{near}`?"),
            None => "name the folder that has it with `--catalog`".to_owned(),
        };
        Diagnostic::warning("W4003", message).at(place(plan, source, id)).help(help)
    });
    let told: Vec<Diagnostic> = told.collect();
    Faults::new(told, vec![source.clone()])
}

fn exercises(session: &Session) -> impl Iterator<Item = &str> {
    let items = session.groups.iter().flat_map(|group| &group.items);
    items.map(|item| item.exercise.as_str())
}

/// Where the sessions of a plan first name an exercise; the whole file where only its weeks do.
fn place(plan: &Plan, source: &Source, id: &str) -> Label {
    let marks = Marks::parse(source).ok();
    let places = plan.sessions.iter().enumerate().flat_map(|(day, session)| {
        let groups = session.groups.iter().enumerate();
        groups.flat_map(move |(group, items)| {
            items.items.iter().enumerate().map(move |(at, item)| (day, group, at, item))
        })
    });
    let found = places.into_iter().find(|(.., item)| item.exercise == id);
    found.zip(marks).map_or_else(
        || Label::whole(source.name.to_string()),
        |((day, group, at, _), marks)| {
            let path = path!["sessions", day, "groups", group, "items", at, "exercise"];
            marks.at(path, "not in the catalog")
        },
    )
}

pub(super) fn unmade(error: &SheetError) -> Failure {
    let help = match error {
        SheetError::NoStart => "add `start:` to the profile and plan again",
        SheetError::NoSuchWeek { .. } => "name a week that the plan has",
        SheetError::Write(_) | SheetError::Template(_) => "please report this",
    };
    let fault = Diagnostic::error("E4002", error.to_string()).at(Label::whole("plan")).help(help);
    Failure::Faults(fault.into())
}
