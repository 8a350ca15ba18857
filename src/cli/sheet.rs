//! `weekwright sheet`: a plan for paper, phone, table or calendar.

use std::collections::BTreeMap;

use super::args::SheetArgs;
use super::output::Console;
use super::{Exit, Failure, files};
use crate::diagnostic::{Diagnostic, Label};
use crate::input::catalog::Entry;
use crate::input::plan::Plan;
use crate::sheets::{self, SheetError};

pub(super) fn run(arguments: &SheetArgs, console: &Console) -> Result<Exit, Failure> {
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let loaded = files::load_plan(&arguments.plan)?;
    let color = console.colors() && arguments.output.is_none();
    let options = sheets::Options {
        audience: arguments.audience.into(),
        paper: arguments.paper.into(),
        week: arguments.week,
        color,
        width: console.width(),
    };
    let text = made(&loaded.plan, catalog.entries(), arguments.form.id(), &options)?;
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
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

fn unmade(error: &SheetError) -> Failure {
    let help = match error {
        SheetError::NoStart => "add `start:` to the profile and plan again",
        SheetError::NoSuchWeek { .. } => "name a week that the plan has",
        SheetError::Write(_) | SheetError::Template(_) => "please report this",
    };
    let fault = Diagnostic::error("E4002", error.to_string()).at(Label::whole("plan")).help(help);
    Failure::Faults(fault.into())
}
