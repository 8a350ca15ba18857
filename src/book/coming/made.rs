//! The coming week of a plan as every front door makes it: from the right sessions, marked, and audited.

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::{Coming, Nothing, Told, coming};
use crate::book::{DoneSession, slot};
use crate::input::plan::{Plan, ProfileRef};
use crate::plan::seal;
use crate::planner::Planner;
use crate::rules::Severity;

/// Why a coming week could not be made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoComing {
    /// There is nothing to make it from, or no week to make.
    #[error(transparent)]
    Nothing(#[from] Nothing),
    /// Our own audit refuses what it did not refuse before, which is a fault of ours.
    #[error("the coming week did not pass its own audit: {0}")]
    Refused(String),
}

/// The first day that is still to come: today, and never before the day after the plan's last session.
#[must_use]
pub fn first_day(plan: &Plan, done: &[DoneSession], today: Date) -> Date {
    let last = done.iter().rev().find(|session| slot::belongs(session, plan));
    let after = last.and_then(|last| last.date.checked_add(1.day()).ok());
    after.map_or(today, |after| after.max(today))
}

/// The coming week of a plan that holds its profile, from all that is written down of its client.
///
/// # Errors
/// Why there is none.
pub fn made(
    planner: &Planner,
    plan: &Plan,
    done: &[DoneSession],
    as_of: Date,
    easier: bool,
) -> Result<Coming, NoComing> {
    let ProfileRef::Whole(profile) = &plan.profile else { return Err(Nothing::NotBegun.into()) };
    let planner = planner.with_plan(plan);
    // What lies ahead and in no week of the plan is a slip of the pen: it says nothing of the week that comes.
    let is_real = |session: &&DoneSession| session.date < as_of || slot::belongs(session, plan);
    let done: Vec<DoneSession> = done.iter().filter(is_real).cloned().collect();
    let entries = planner.catalog().entries();
    let mut coming = coming(&Told { plan, profile, entries, done: &done, as_of, easier })?;
    seal::reseal(&mut coming.plan, plan);
    match refused(plan, &coming.plan, &planner) {
        Some(finding) => Err(NoComing::Refused(finding)),
        None => Ok(coming),
    }
}

/// What our own audit refuses now and did not refuse before.
fn refused(before: &Plan, now: &Plan, planner: &Planner) -> Option<String> {
    let broken = |plan: &Plan| {
        planner.audit(plan).map(|audit| {
            audit.of(Severity::Broken).map(ToString::to_string).collect::<Vec<String>>()
        })
    };
    let (Ok(before), Ok(now)) = (broken(before), broken(now)) else { return None };
    now.into_iter().find(|found| !before.contains(found))
}
