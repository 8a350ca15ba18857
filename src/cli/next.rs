//! `weekwright next`: the coming week from what was done.

use std::path::Path;

use jiff::civil::Date;

use super::args::Format;
use super::args::book::NextArgs;
use super::book::{self, Book, sessions};
use super::log::target::{TargetPlan, file_plan, plan_of_file, profile_of};
use super::output::Console;
use super::plan_file;
use super::render::wrapped;
use super::{Exit, Failure, ending, files, table, today};
use crate::book::coming::{Coming, NoComing, Nothing, first_day, made};
use crate::diagnostic::{Diagnostic, counted};
use crate::planner::Planner;
use crate::sheets;

pub(super) fn run(arguments: &NextArgs, console: &Console) -> Result<Exit, Failure> {
    let output = arguments.output.as_deref();
    let format = ending::chosen(arguments.format.as_ref(), output, Format::Yaml)?;
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let told = plan_of_file(&arguments.plan, &planner)?;
    plan_file::may_train(&told.plan, &arguments.plan)?;
    let path = book::place(arguments.book.book.as_deref(), Some(&arguments.plan));
    let mut book = Book::open(&path, console)?;
    let profile = profile_of(&told.plan).expect("the profile of a plan was read with it");
    let client = book.client(&profile.client)?;
    let done = book.ask(|book| sessions::between(book, client.id, Date::MIN, Date::MAX))?;
    let as_of = match &arguments.on {
        Some(text) => today::typed("--on", text)?,
        None => first_day(&told.plan, &done, today::today()),
    };
    let coming = match made(&planner, &told.plan, &done, as_of, arguments.easier) {
        Ok(coming) => coming,
        Err(NoComing::Nothing(nothing)) => {
            return as_it_stands(&told, nothing, &planner, (output, format), console);
        }
        Err(refused @ NoComing::Refused(_)) => {
            let fault = Diagnostic::error("E4001", refused.to_string());
            return Err(Failure::Unwritten(
                fault.help("please report this with the plan and the book"),
            ));
        }
    };
    let planner = planner.with_plan(&told.plan);
    let text = rendered(&coming, &planner, (output, format), console)?;
    console.write(output, &text)?;
    if format != Format::Text {
        file(&mut book, &told, &coming, &text, arguments)?;
    }
    tell(&coming, format, console);
    Ok(Exit::Done)
}

/// The plan unchanged, where there is nothing to make a week from or no week to make.
fn as_it_stands(
    told: &TargetPlan,
    nothing: Nothing,
    planner: &Planner,
    (output, format): (Option<&Path>, Format),
    console: &Console,
) -> Result<Exit, Failure> {
    let text = match format {
        Format::Yaml => told.text.clone(),
        format => super::plan::rendered(&told.plan, planner, format, false, console.width())?,
    };
    console.write(output, &text)?;
    let help = match nothing {
        Nothing::NotBegun => {
            "the plan stands as it is; `weekwright log` writes the first session down"
        }
        Nothing::Over => {
            "the plan stands as it is; `weekwright plan PROFILE --book FILE` makes the next block from the book"
        }
    };
    console.remark(&format!("{nothing}: {help}"));
    Ok(Exit::Done)
}

fn rendered(
    coming: &Coming,
    planner: &Planner,
    (output, format): (Option<&Path>, Format),
    console: &Console,
) -> Result<String, Failure> {
    let is_file = output.is_some_and(|path| path != Path::new("-"));
    let color = console.colors() && !is_file;
    let width = console.width();
    match format {
        Format::Text => {
            let has_weeks = !coming.plan.weeks.is_empty();
            let week = has_weeks.then_some(coming.week);
            let audience = sheets::Audience::Client;
            let options =
                sheets::Options { audience, color, width, week, ..sheets::Options::default() };
            super::sheet::made(&coming.plan, planner.catalog().entries(), "text", &options)
        }
        format => super::plan::rendered(&coming.plan, planner, format, color, width),
    }
}

/// Files the plan and what comes of it.
fn file(
    book: &mut Book,
    told: &TargetPlan,
    coming: &Coming,
    text: &str,
    arguments: &NextArgs,
) -> Result<(), Failure> {
    let today = today::today();
    let client = profile_of(&told.plan).map(|profile| profile.client.clone()).unwrap_or_default();
    let named = arguments.output.as_deref().filter(|path| *path != Path::new("-"));
    let name = named.map_or_else(|| told.name.clone(), |path| path.display().to_string());
    book.change(|transaction| {
        file_plan(transaction, &client, Some((&told.plan, &told.name, &told.text)), today)?;
        file_plan(transaction, &client, Some((&coming.plan, &name, text)), today)
    })?;
    Ok(())
}

/// What changed and why, on standard error.
fn tell(coming: &Coming, format: Format, console: &Console) {
    if format == Format::Json {
        console.remark(&format!(
            "{:#}",
            serde_json::json!({
                "week": coming.week,
                "changes": coming.changes,
                "remarks": coming.remarks,
            })
        ));
        return;
    }
    let width = console.width();
    let mut text = format!(
        "week {}: {} from what was done\n",
        coming.week,
        counted(coming.changes.len(), "line comes", "lines come")
    );
    let rows: Vec<Vec<String>> = coming
        .changes
        .iter()
        .map(|change| {
            vec![
                change.day.to_string(),
                change.exercise.clone(),
                change.line.clone(),
                change.because.clone(),
            ]
        })
        .collect();
    if !rows.is_empty() {
        text.push_str(&table::table(&["day", "exercise", "line", "why"], &rows, width.max(100)));
    }
    for remark in &coming.remarks {
        text.push_str(&wrapped(remark, width));
        text.push('\n');
    }
    console.remark(text.trim_end());
}
