//! `weekwright sheet FOLDER`: a sheet of every plan, or the cards of one day on one page. A plan that cannot be shown
//! stops no other.

use std::path::{Path, PathBuf};

use super::{made, options, told, unmade};
use crate::catalog::Catalog;
use crate::cli::args::{Form, SheetArgs};
use crate::cli::output::Console;
use crate::cli::{Exit, Failure, Faults, ending, files};
use crate::diagnostic::{Diagnostic, Label, counted, quoted};
use crate::input::clock::date;
use crate::input::plan::Plan;
use crate::sheets;

pub(super) fn run(
    arguments: &SheetArgs,
    plans: &Path,
    catalog: &Catalog,
    console: &Console,
) -> Result<Exit, Failure> {
    let paths = files::plan_paths(plans)?;
    match &arguments.date {
        Some(day) => of_day(arguments, day, &paths, catalog, console),
        None => each(arguments, (plans, &paths), catalog, console),
    }
}

/// A file for each plan.
fn each(
    arguments: &SheetArgs,
    (plans, paths): (&Path, &[PathBuf]),
    catalog: &Catalog,
    console: &Console,
) -> Result<Exit, Failure> {
    let form = arguments.form.unwrap_or(Form::Html);
    let Some(folder) = &arguments.output else { return Err(no_folder(plans).into()) };
    files::make_folder(folder)?;
    let options = options(arguments, console, false);
    let mut exits = Vec::new();
    for path in paths {
        let written = told(path, catalog, console).and_then(|plan| {
            let text = made(&plan, catalog.entries(), form.id(), &options)?;
            let file = folder.join(format!("{}.{}", name_of(path), ending::of(form.id())));
            console.write(Some(&file), &text)
        });
        exits.push(match written {
            Ok(()) => Exit::Done,
            Err(failure) => failure.told(console)?,
        });
    }
    tell(console, &exits, "sheet", "sheets");
    Ok(Exit::of_many(exits))
}

/// The cards of one day, client after client.
fn of_day(
    arguments: &SheetArgs,
    day: &str,
    paths: &[PathBuf],
    catalog: &Catalog,
    console: &Console,
) -> Result<Exit, Failure> {
    let day = date(day).ok_or_else(|| no_such_day(day))?;
    if arguments.form.is_some_and(|form| form != Form::Html) {
        return Err(html_only().into());
    }
    let mut exits = Vec::new();
    let mut plans: Vec<Plan> = Vec::new();
    for path in paths {
        match told(path, catalog, console) {
            Ok(plan) => {
                plans.extend(sheets::of_day(&plan, day));
                exits.push(Exit::Done);
            }
            Err(failure) => exits.push(failure.told(console)?),
        }
    }
    if plans.is_empty() {
        console.note(&format!("nobody trains on {day}: nothing is written"));
        return Ok(Exit::of_many(exits));
    }
    plans.sort_by(|one, other| {
        let start = |plan: &Plan| plan.sessions.first().and_then(|session| session.at.clone());
        (start(one), &one.client).cmp(&(start(other), &other.client))
    });
    let page =
        sheets::cards_of_day(&plans, catalog.entries(), day, arguments.paper.map(Into::into));
    let page = page.map_err(|error| unmade(&error))?;
    let file = arguments.output.as_ref().map(|output| match ending::promised(output) {
        None if output != Path::new("-") => output.join(format!("{day}.html")),
        _ => output.clone(),
    });
    if let Some(folder) = file.as_ref().filter(|file| arguments.output.as_ref() != Some(*file)) {
        files::make_folder(folder.parent().unwrap_or(Path::new("")))?;
    }
    if let Some(file) = &file {
        ending::holds(file, "html")?;
    }
    console.write(file.as_deref(), &page)?;
    tell(console, &vec![Exit::Done; plans.len()], "client trains", "clients train");
    Ok(Exit::of_many(exits))
}

fn tell(console: &Console, exits: &[Exit], one: &str, more: &str) {
    if !console.is_quiet() {
        let done = exits.iter().filter(|exit| **exit == Exit::Done).count();
        console.note(&counted(done, one, more));
    }
}

/// `tide-01` of `tide-01.plan.yaml`.
fn name_of(plan: &Path) -> String {
    let name = plan.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    name.strip_suffix(".plan").map(str::to_owned).unwrap_or(name)
}

fn no_folder(plans: &Path) -> Faults {
    Diagnostic::error("E1004", "the sheets of a folder go into a folder")
        .at(Label::whole(plans.display().to_string()))
        .help("name it with `-o DIR`; it is made when it is missing")
        .into()
}

fn no_such_day(day: &str) -> Faults {
    Diagnostic::error("E2002", format!("there is no day {}", quoted(day)))
        .at(Label::whole("command line"))
        .help("write it like `--date 2027-01-04`")
        .into()
}

fn html_only() -> Faults {
    Diagnostic::error("E4002", "the cards of a day are a page to print")
        .at(Label::whole("command line"))
        .help("leave `--as` out, or write `--as html`")
        .into()
}
