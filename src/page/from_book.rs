//! What the record makes of a week: the one that comes, an easier one, the next block. The engine is that of the command
//! line, and nothing is kept by itself.

use std::sync::Arc;

use super::begin;
use super::cabinet::ProfileFile;
use super::desk::Desk;
use super::draft::{By, FromRecord, Refused, Step};
use super::template::say;
use super::tries::name_of;
use crate::book::carry::{Known, give};
use crate::book::coming::{Coming, NoComing, Nothing, first_day, made};
use crate::diagnostic::Diagnostic;
use crate::input::plan::Plan;
use crate::request::turn::Turn;

/// The week that comes, or an easier one in its place; none where it stays as it is.
pub(super) fn coming(desk: &Desk, plan: &Plan, easier: bool) -> Result<Option<Step>, Box<Refused>> {
    let records = desk.cabinet.records().ok_or_else(|| nothing(Nothing::NotBegun))?;
    let done = records.sessions(&plan.client).map_err(refused)?;
    let as_of = first_day(plan, &done, desk.cabinet.today());
    let coming =
        made(&desk.planner, plan, &done, as_of, easier).map_err(|reason| match reason {
            NoComing::Nothing(reason) => nothing(reason),
            NoComing::Refused(_) => refused(vec![
                Diagnostic::error("E4001", reason.to_string()).help(say!(report_this)),
            ]),
        })?;
    if coming.plan == *plan {
        return Ok(None);
    }
    let Coming { plan: new, week, changes, remarks } = coming;
    let lines = changes.into_iter().map(|one| {
        let name = name_of(&desk.planner, plan, &one.exercise);
        [format!("{} {name}", one.day.name()), one.line, one.because]
    });
    let lines = lines.collect();
    let label = if easier { say!(tried_easier, week) } else { say!(tried_coming, week) };
    let by = By::Record(FromRecord { week: Some(week), lines, remarks });
    Ok(Some(Step { label, by, plan: Arc::new(new), is_quick: false }))
}

/// The next block: the profile as it is now with what the record knows, and the last plan as the last block.
pub(super) fn block(
    desk: &Desk,
    (key, file): (&str, &ProfileFile),
    plan: &Plan,
    turn: Turn,
) -> Result<Step, Box<Refused>> {
    let records = desk.cabinet.records().ok_or_else(|| nothing(Nothing::NotBegun))?;
    let back = records.look_back(&plan.client).map_err(refused)?;
    let back = back.ok_or_else(|| nothing(Nothing::NotBegun))?;
    let mut profile = file.profile.clone().map_err(refused)?;
    let mut previous = file.previous.as_deref().cloned();
    let known = Known {
        sessions: &back.sessions,
        review: &back.review,
        plan: back.plan.as_ref(),
        entries: desk.planner.catalog().entries(),
    };
    let from = give(&mut profile, &mut previous, &known);
    let lines = from.took.iter().map(|line| match line.split_once(": ") {
        Some((what, told)) => [what.to_owned(), told.to_owned(), String::new()],
        None => [line.clone(), String::new(), String::new()],
    });
    let lines = lines.collect();
    // The ways out of a collision would be those of the profile with the record's gifts, which no button can do.
    let made = begin::planned(desk, key, &profile, previous, turn);
    let mut new = made.map_err(|refused| Box::new(Refused { impossible: None, ..*refused }))?;
    if let Some(inputs) = &mut new.inputs {
        inputs.book = Some(from);
    }
    let by =
        By::Record(FromRecord { week: None, lines, remarks: vec![say!(block_help).to_owned()] });
    Ok(Step { label: say!(tried_block).to_owned(), by, plan: Arc::new(new), is_quick: false })
}

fn nothing(reason: Nothing) -> Box<Refused> {
    let help = match reason {
        Nothing::NotBegun => say!(record_not_begun),
        Nothing::Over => say!(record_is_over),
    };
    refused(vec![Diagnostic::error("E2003", reason.to_string()).help(help)])
}

fn refused(told: Vec<Diagnostic>) -> Box<Refused> {
    Box::new(Refused { label: String::new(), told, impossible: None, seed: 0 })
}
