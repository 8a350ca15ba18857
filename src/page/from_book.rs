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
use crate::book::coming::{self, Coming, NoComing, Nothing, first_day, made};
use crate::diagnostic::Diagnostic;
use crate::explain::ways::WayOut;
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::request::turn::Turn;

/// Why the record makes no week.
enum NoWeek {
    /// There is nothing to make it from, or no week to make.
    Nothing(Nothing),
    /// What is wrong.
    Faults(Vec<Diagnostic>),
}

impl From<NoWeek> for Box<Refused> {
    fn from(reason: NoWeek) -> Self {
        match reason {
            NoWeek::Nothing(reason) => nothing(reason),
            NoWeek::Faults(told) => refused(told),
        }
    }
}

/// The week that comes, or an easier one in its place; none where it stays as it is.
pub(super) fn coming(desk: &Desk, plan: &Plan, easier: bool) -> Result<Option<Step>, Box<Refused>> {
    let coming = made_now(desk, plan, easier)?;
    if coming.plan == *plan {
        return Ok(None);
    }
    let week = coming.week;
    let label = if easier { say!(tried_easier, week) } else { say!(tried_coming, week) };
    let (new, record) = with_words(desk, coming);
    let plan = Arc::new(new);
    Ok(Some(Step { label, by: By::Record(record), again: None, plan, is_quick: false }))
}

/// A plan with the week from the record that stood in the plan before it: a rework makes every week anew, and so without it.
/// None where the plan before had no such week, or none is left to come.
pub(super) fn again(
    desk: &Desk,
    before: &Plan,
    plan: &Plan,
) -> Result<Option<(Plan, FromRecord)>, Box<Refused>> {
    let eased = coming::eased(before);
    if eased.is_none() && !coming::is_of_the_record(before) {
        return Ok(None);
    }
    let made = made_now(desk, plan, eased.is_some()).and_then(|coming| {
        // Once an easier week is over, the one after it is none.
        let is_over = eased.is_some_and(|week| week != coming.week);
        if is_over { made_now(desk, plan, false) } else { Ok(coming) }
    });
    match made {
        Ok(coming) => Ok((coming.plan != *plan).then(|| with_words(desk, coming))),
        Err(NoWeek::Nothing(_)) => Ok(None),
        Err(reason) => Err(reason.into()),
    }
}

/// The coming week as it is today.
fn made_now(desk: &Desk, plan: &Plan, easier: bool) -> Result<Coming, NoWeek> {
    let records = desk.cabinet.records().ok_or(NoWeek::Nothing(Nothing::NotBegun))?;
    let done = records.sessions(&plan.client).map_err(NoWeek::Faults)?;
    let as_of = first_day(plan, &done, desk.cabinet.today());
    made(&desk.planner, plan, &done, as_of, easier).map_err(|reason| match reason {
        NoComing::Nothing(reason) => NoWeek::Nothing(reason),
        NoComing::Refused(_) => NoWeek::Faults(vec![
            Diagnostic::error("E4001", reason.to_string()).help(say!(report_this)),
        ]),
    })
}

/// A plan with a coming week, and what that week says of itself.
fn with_words(desk: &Desk, coming: Coming) -> (Plan, FromRecord) {
    let Coming { plan, week, changes, remarks } = coming;
    let lines = changes.into_iter().map(|one| {
        let name = name_of(&desk.planner, &plan, &one.exercise);
        [format!("{} {name}", one.day.name()), one.line, one.because]
    });
    let lines = lines.collect();
    (plan, FromRecord { week: Some(week), lines, remarks })
}

/// The next block: the profile as it is now with what the record knows, and the last plan as the last block. With a way out
/// of a collision comes the profile that collided; where another would be planned by now, the way is gone.
pub(super) fn block(
    desk: &Desk,
    (key, file): (&str, &ProfileFile),
    plan: &Plan,
    by_way: Option<(&Profile, &WayOut)>,
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
    let mut label = say!(tried_block).to_owned();
    let mut wanted = &*profile;
    if let Some((asked, way)) = by_way {
        if *asked != *profile {
            let gone = Diagnostic::error("E2003", say!(way_is_gone));
            return Err(refused(vec![gone.help(say!(way_is_gone_help))]));
        }
        label = format!("{label}, {way}");
        wanted = &way.profile;
    }
    let made = begin::planned(desk, key, wanted, previous, turn);
    let mut new = made.map_err(|refused| {
        Box::new(Refused {
            label: label.clone(),
            block: Some(Box::new(wanted.clone())),
            ..*refused
        })
    })?;
    if let Some(inputs) = &mut new.inputs {
        inputs.book = Some(from);
    }
    let by =
        By::Record(FromRecord { week: None, lines, remarks: vec![say!(block_help).to_owned()] });
    Ok(Step { label, by, again: None, plan: Arc::new(new), is_quick: false })
}

fn nothing(reason: Nothing) -> Box<Refused> {
    let help = match reason {
        Nothing::NotBegun => say!(record_not_begun),
        Nothing::Over => say!(record_is_over),
    };
    refused(vec![Diagnostic::error("E2003", reason.to_string()).help(help)])
}

fn refused(told: Vec<Diagnostic>) -> Box<Refused> {
    Box::new(Refused::told(told))
}
