//! Everyone in the folder: what comes next, and what is missing.

use jiff::civil::{Date, Weekday as Civil};
use serde::Serialize;

use super::cabinet::{Cabinet, Client, PlanFile, ProfileFile};
use super::draft::goes_back_to;
use super::template::{word, word_of};
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
    missing: Vec<String>,
}

impl Clients {
    pub(super) fn of(cabinet: &dyn Cabinet) -> Clients {
        let (clients, fault) = match cabinet.clients() {
            Ok(clients) => (clients, None),
            Err(fault) => (Vec::new(), Some(format!("{}. {}", fault.message, fault.help))),
        };
        let today = cabinet.today();
        let rows = clients.into_iter().map(|client| row(client, today)).collect();
        Clients { folder: cabinet.name(), rows, orphans: cabinet.orphans(), fault }
    }
}

fn row(client: Client, today: Date) -> Row {
    let Client { key, profile: file, plan: kept } = client;
    let plan = kept.as_ref().and_then(|kept| kept.plan.as_ref().ok());
    let profile = file.profile.as_deref().ok();
    Row {
        client: profile.map_or_else(|| key.clone(), |profile| profile.client.clone()),
        about: profile.map(about).unwrap_or_default(),
        days: profile.map(days).unwrap_or_default(),
        next: plan.and_then(|plan| next_session(plan, today)).unwrap_or_default(),
        week: plan.and_then(|plan| week_of(plan, today)).unwrap_or_default(),
        missing: missing(&file, kept.as_ref()),
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

/// What a coach should see to.
pub(super) fn missing(file: &ProfileFile, kept: Option<&PlanFile>) -> Vec<String> {
    let mut told = Vec::new();
    let profile = match &file.profile {
        Ok(profile) => profile,
        Err(faults) => {
            let count = faults.iter().filter(|fault| Diagnostic::is_error(fault)).count();
            return vec![word_of("missing_faults", &count.to_string())];
        }
    };
    if !screening::advise(profile).open.is_empty() {
        told.push(word("missing_screening").to_owned());
    }
    match kept.map(|kept| &kept.plan) {
        None => told.push(word("missing_plan").to_owned()),
        Some(Err(_)) => told.push(word("missing_broken").to_owned()),
        Some(Ok(plan)) if !goes_back_to(plan, profile) => {
            told.push(word("missing_older").to_owned());
        }
        Some(Ok(_)) => {}
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
        return plan.weeks.last().and_then(first_day).map(|_| word("block_is_over").to_owned());
    };
    let at = session.at.as_deref().map_or_else(String::new, |at| format!(", {at}"));
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
        return Some(word_of("weeks_in_all", &count.to_string()));
    }
    let text = word_of("week_of", &week.week.to_string());
    Some(text.replace("{count}", &count.to_string()).replace("{kind}", week.kind.id()))
}
