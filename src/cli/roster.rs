//! `weekwright roster`: a folder at a glance.

use std::path::Path;

use super::args::{RosterArgs, RosterForm};
use super::guests::{Guest, folder, monday, one_each, told, whole};
use super::output::Console;
use super::plan_file;
use super::{Exit, Failure, Faults, ending, files};
use crate::input::plan::Plan;
use crate::planner::Planner;
use crate::room::roster::roster;
use crate::sheets::room::{roster_csv, roster_page, roster_text};

pub(super) fn run(arguments: &RosterArgs, console: &Console) -> Result<Exit, Failure> {
    let output = arguments.output.as_deref();
    let form = ending::chosen(arguments.form.as_ref(), output, RosterForm::Text)?;
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let (plans, profiles) = folder(&arguments.folder)?;
    let mut faults = Faults::default();
    let mut guests = Vec::new();
    for path in plans {
        match read(&path, &planner) {
            Ok(guest) => guests.push(guest),
            Err(found) => faults.add(found),
        }
    }
    if faults.any_error() {
        return Err(faults.into());
    }
    let all: Vec<&Plan> = guests.iter().map(|guest| &guest.plan).collect();
    let monday = monday(arguments.date.as_deref(), &all)?;
    let plans: Vec<Plan> = one_each(guests, monday)?.into_iter().map(|guest| guest.plan).collect();
    let without: Vec<(String, String)> = profiles
        .iter()
        .map(|path| {
            let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            (told(path, "client").unwrap_or(name), told(path, "place").unwrap_or_default())
        })
        .collect();
    let roster = roster(&plans, &without, monday);
    let text = match form {
        RosterForm::Text => roster_text(&roster),
        RosterForm::Csv => roster_csv(&roster),
        RosterForm::Html => roster_page(&roster).map_err(|error| super::sheet::unmade(&error))?,
    };
    console.write(output, &text)?;
    Ok(Exit::Done)
}

fn read(path: &Path, planner: &Planner) -> Result<Guest, Faults> {
    let loaded = plan_file::load_plan(path)?;
    let plan = whole(plan_file::with_profile(path, loaded, planner)?);
    Ok(Guest { path: path.to_owned(), plan, text: None })
}
