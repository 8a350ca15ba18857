//! `weekwright --explain CODE`: what a code of a fault means.

use super::output::Console;
use super::{Exit, Failure};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::check::CODES;
use crate::input::suggest;

pub(super) fn run(typed: &str, console: &Console) -> Result<Exit, Failure> {
    let wanted = typed.trim().to_uppercase();
    if let Some((code, cause, way_out)) = CODES.iter().find(|(code, _, _)| *code == wanted) {
        console.print(&format!("{code}: {cause}.\nWhat to do: {way_out}.\n"))?;
        return Ok(Exit::Done);
    }
    let codes: Vec<&str> = CODES.iter().map(|(code, _, _)| *code).collect();
    let fault = Diagnostic::error("E2002", format!("there is no code {}", quoted(typed)))
        .at(Label::whole("command line"))
        .help(suggest::help(&wanted, &codes, "codes stand in JSON, as in `E1201`"));
    Err(Failure::Faults(fault.into()))
}
