//! Everyone in the folder: what comes next, and what is missing.

use std::collections::BTreeMap;

use jiff::civil::{Date, Weekday as Civil};
use serde::Serialize;

use super::cabinet::{Cabinet, Client, PlanFile, ProfileFile};
use super::draft::goes_back_to;
use super::records::Records;
use super::template::say;
use crate::book::slot;
use crate::diagnostic::Diagnostic;
use crate::input::plan::{Plan, Week};
use crate::input::profile::Profile;
use crate::request::screening;
use crate::sheets::{head, phrase};
use crate::words::Weekday;

/// The table.
#[derive(Serialize)]
pub(super) struct Clients {
    folder: String,
    rows: Vec<Row>,
    /// Whether there is a book.
    has_book: bool,
    /// Plans whose profile is gone.
    orphans: Vec<String>,
    /// Why the folder cannot be read.
    fault: Option<String>,
}

/// A client.
#[derive(Serialize)]
struct Row {
    key: String,
    client: String,
    about: String,
    days: String,
    next: String,
    week: String,
    /// The day of the last session that was written down.
    last: String,
    missing: Vec<String>,
}

impl Clients {
    pub(super) fn of(cabinet: &dyn Cabinet) -> Clients {
        let (clients, fault) = match cabinet.clients() {
            Ok(clients) => (clients, None),
            Err(fault) => (Vec::new(), Some(format!("{}. {}", fault.message, fault.help))),
        };
        let today = cabinet.today();
        let records = cabinet.records().filter(|records| records.has_book());
        let (last, unread) = match records.map(Records::last_days) {
            Some(Ok(days)) => (Some(days), None),
            Some(Err(faults)) => {
                (None, faults.first().map(|fault| format!("{}. {}", fault.message, fault.help)))
            }
            None => (None, None),
        };
        let rows = clients.into_iter().map(|client| row(client, today, last.as_ref())).collect();
        Clients {
            folder: cabinet.name(),
            rows,
            has_book: records.is_some(),
            orphans: cabinet.orphans(),
            fault: fault.or(unread),
        }
    }
}

fn row(client: Client, today: Date, last: Option<&BTreeMap<String, Date>>) -> Row {
    let Client { key, profile: file, plan: kept } = client;
    let plan = kept.as_ref().and_then(|kept| kept.plan.as_ref().ok());
    let profile = file.profile.as_deref().ok();
    let code = plan.map(|plan| plan.client.as_str()).filter(|code| !code.is_empty());
    let code = code.or(profile.map(|profile| profile.client.as_str())).unwrap_or(&key);
    let written = last.and_then(|last| last.get(code)).copied();
    let entries = last.map(|_| Entries { last: written, today });
    // What is written down today comes no more.
    let from = if written == Some(today) { today.tomorrow().unwrap_or(today) } else { today };
    Row {
        last: written.map(phrase::day_month).unwrap_or_default(),
        client: profile.map_or_else(|| key.clone(), |profile| profile.client.clone()),
        about: profile.map(about).unwrap_or_default(),
        days: profile.map(days).unwrap_or_default(),
        next: plan.and_then(|plan| next_session(plan, from)).unwrap_or_default(),
        week: plan.and_then(|plan| week_of(plan, today)).unwrap_or_default(),
        missing: missing(&file, kept.as_ref(), entries),
        key,
    }
}

fn about(profile: &Profile) -> String {
    let parts = [head::goal(profile.goal), profile.training_status.id()];
    phrase::sentence(&parts.join(", "))
}

fn days(profile: &Profile) -> String {
    let day = |slot: &crate::input::profile::SessionSlot| {
        format!("{} {}", phrase::sentence(slot.day.id()), slot.minutes)
    };
    profile.sessions.iter().map(day).collect::<Vec<_>>().join(" · ")
}

/// Days without an entry that a coach should know of.
const SILENT_DAYS: i32 = 10;

/// What the book has of a client.
#[derive(Clone, Copy)]
pub(super) struct Entries {
    /// The day of the last session.
    last: Option<Date>,
    today: Date,
}

impl Entries {
    /// Whether a plan runs, and nothing was written down for days.
    fn are_missing(self, plan: &Plan) -> bool {
        let Some((first, end)) = slot::span(plan).filter(|(first, _)| *first <= self.today) else {
            return false;
        };
        let since = self.last.map_or(first, |last| last.max(first));
        let silent = (self.today.min(end) - since).get_days();
        silent >= SILENT_DAYS
    }
}

/// What a coach should see to.
pub(super) fn missing(
    file: &ProfileFile,
    kept: Option<&PlanFile>,
    entries: Option<Entries>,
) -> Vec<String> {
    let mut told = Vec::new();
    let profile = match &file.profile {
        Ok(profile) => profile,
        Err(faults) => {
            let count = faults.iter().filter(|fault| Diagnostic::is_error(fault)).count();
            return vec![say!(missing_faults, count)];
        }
    };
    if !screening::advise(profile).open.is_empty() {
        told.push(say!(missing_screening).to_owned());
    }
    match kept.map(|kept| &kept.plan) {
        None => told.push(say!(missing_plan).to_owned()),
        Some(Err(_)) => told.push(say!(missing_broken).to_owned()),
        Some(Ok(plan)) if !goes_back_to(plan, profile) => {
            told.push(say!(missing_older).to_owned());
        }
        Some(Ok(_)) => {}
    }
    let plan = kept.and_then(|kept| kept.plan.as_ref().ok());
    if plan.zip(entries).is_some_and(|(plan, entries)| entries.are_missing(plan)) {
        told.push(say!(missing_entries).to_owned());
    }
    told
}

/// The first session from today on: `Monday 4 January, 18:30`.
fn next_session(plan: &Plan, today: Date) -> Option<String> {
    let sessions = plan.weeks.iter().filter_map(|week| Some((first_day(week)?, week)));
    let dated = sessions.flat_map(|(first, week)| {
        week.sessions.iter().filter_map(move |session| {
            let date =
                first.checked_add(jiff::Span::new().days(days_after(first, session.day))).ok()?;
            Some((date, session))
        })
    });
    let next = dated
        .filter(|(date, _)| *date >= today)
        .min_by_key(|(date, session)| (*date, session.at.clone()));
    let Some((date, session)) = next else {
        return plan.weeks.last().and_then(first_day).map(|_| say!(block_is_over).to_owned());
    };
    let at = session.at.as_deref().and_then(phrase::clock);
    let at = at.map(|at| format!(", {}", phrase::clock_text(at, head::clock(plan))));
    let at = at.unwrap_or_default();
    Some(format!("{} {}{at}", session.day.name(), phrase::day_month(date)))
}

fn first_day(week: &Week) -> Option<Date> {
    phrase::date(week.date.as_ref())
}

/// Days from the first day of a week to a weekday of it.
fn days_after(first: Date, day: Weekday) -> i64 {
    let wanted = i64::try_from(day.index()).unwrap_or(0);
    let begin = i64::from(Civil::to_monday_zero_offset(first.weekday()));
    (wanted - begin).rem_euclid(7)
}

/// `Week 2 of 4, build`, by today's date; where there are no dates, only how many.
fn week_of(plan: &Plan, today: Date) -> Option<String> {
    let count = plan.weeks.len();
    let begun =
        plan.weeks.iter().rev().find(|week| first_day(week).is_some_and(|first| first <= today));
    let week = begun.or_else(|| plan.weeks.first())?;
    if first_day(week).is_none() {
        return Some(say!(weeks_in_all, count));
    }
    Some(say!(week_of, week = week.week, count, kind = week.kind.id()))
}
