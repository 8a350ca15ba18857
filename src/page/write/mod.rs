//! Writing a session down: the card of one day with a box for each set, filled in as planned.

mod lines;
mod sheet;
mod which;

use axum::http::StatusCode;
use axum::response::Response;
use jiff::civil::Date;

use super::answer;
use super::collision::Told;
use super::desk::Desk;
use super::fields::Fields;
use super::records::{Records, Stands, ToWrite};
use super::template::say;
use crate::book::done::Load;
use crate::book::history::{self, Performance};
use crate::book::{DoneSession, slot};
use crate::catalog;
use crate::diagnostic::{Diagnostic, counted};
use crate::input::clock;
use crate::input::plan::Plan;
use crate::sheets::head;
use crate::words::Units;
use lines::Lines;
use sheet::{Sheet, Source};
use which::Which;

/// What a session is written down with.
struct At<'a> {
    desk: &'a Desk,
    records: &'a dyn Records,
    key: &'a str,
    plan: &'a Plan,
    /// Of the plan's text.
    plan_sha256: String,
    done: Vec<DoneSession>,
}

impl At<'_> {
    fn units(&self) -> Units {
        head::units(self.plan)
    }

    /// How an exercise was done last, up to the day of a session: what its load is where the plan names none.
    fn known(&self, exercise: &str, which: &Which<'_>) -> Option<Performance> {
        let done = history::of(exercise, &self.done);
        let is_known = |one: &Performance| one.date <= which.date && one.load != Load::Body;
        done.into_iter().rfind(is_known)
    }

    /// What is written down of a session already.
    fn stands(&self, which: &Which) -> Option<&DoneSession> {
        let mut done = self.done.iter().rev().filter(|one| slot::belongs(one, self.plan));
        done.find(|one| which.is_of(one))
    }
}

/// The card of a session, to be filled in.
pub(super) fn show(desk: &Desk, key: &str, query: &Fields) -> Response {
    with(desk, key, |at| {
        let Some(which) = Which::asked(at.plan, &at.done, desk.cabinet.today(), query) else {
            return answer::not_found();
        };
        let source = match at.stands(&which) {
            Some(done) => Source::Book(done),
            None => Source::Plan,
        };
        let mut sheet = Sheet::new(at, &which, &source);
        sheet.notice = desk.seat(key).swap_notice(String::new());
        answer::page(desk, "write.html", &sheet)
    })
}

/// Writes the session down. What was typed is shown again where it is refused.
pub(super) fn save(desk: &Desk, key: &str, fields: &Fields) -> Response {
    with(desk, key, |at| {
        let Some(which) = Which::asked(at.plan, &at.done, desk.cabinet.today(), fields) else {
            return answer::not_found();
        };
        let lines = Lines::of(at, &which, fields);
        let refused = |faults: &[Diagnostic], notice: &str| {
            let mut sheet = Sheet::new(at, &which, &Source::Form(fields));
            sheet.take_faults(&lines, faults);
            notice.clone_into(&mut sheet.notice);
            answer::page(desk, "write.html", &sheet)
        };
        if fields.get("plan") != Some(at.plan_sha256.as_str()) {
            return refused(&[], say!(write_plan_changed));
        }
        let stands = at.stands(&which).map(fingerprint).unwrap_or_default();
        if fields.get("stood").unwrap_or_default() != stands {
            return refused(&[], say!(write_changed));
        }
        let date = match date(fields, which.date) {
            Ok(date) => date,
            Err(fault) => return refused(&[fault], ""),
        };
        if !lines.faults.is_empty() {
            return refused(&lines.faults, "");
        }
        let text = lines.text();
        let day = which.label();
        let note = fields.get("note").unwrap_or_default();
        let told = ToWrite { date, week: which.week, day: &day, note, lines: &text };
        match at.records.write(key, &told) {
            Ok(stands) => {
                desk.seat(key).swap_notice(sentence(&stands));
                let key = answer::encoded(key);
                let day = answer::encoded(&day);
                answer::go_to(&format!("/client/{key}/write?week={}&day={day}", which.week))
            }
            Err(faults) => refused(&faults, ""),
        }
    })
}

/// Does something with the kept plan of a client; a sentence where there is none.
fn with(desk: &Desk, key: &str, work: impl FnOnce(&At<'_>) -> Response) -> Response {
    let Some(records) = desk.cabinet.records() else { return answer::not_found() };
    if desk.cabinet.profile(key).is_none() {
        return answer::not_found();
    }
    let Some(kept) = desk.cabinet.plan(key) else {
        return answer::refused(StatusCode::CONFLICT, "write_no_plan");
    };
    let Ok(plan) = &kept.plan else {
        return answer::refused(StatusCode::CONFLICT, "missing_broken");
    };
    match records.sessions(&plan.client) {
        Ok(done) => work(&At { desk, records, key, plan, plan_sha256: kept.sha256, done }),
        Err(faults) => answer::faults(desk, key, &Told::all(&faults)),
    }
}

/// The day as it was typed.
fn date(fields: &Fields, usual: Date) -> Result<Date, Diagnostic> {
    let Some(text) = fields.get("date") else { return Ok(usual) };
    let days = clock::readings(text);
    let message = match days.as_slice() {
        [day] => return Ok(*day),
        [] => say!(write_no_day, typed = text),
        several => say!(write_two_days, typed = text, days = clock::either(several)),
    };
    Err(Diagnostic::error("E2002", message).help(say!(write_no_day_help)))
}

/// What tells whether a session is still what it was when the page was made.
fn fingerprint(session: &DoneSession) -> String {
    catalog::sha256(format!("{session:?}").as_bytes())
}

/// What came of it, for the page that comes next.
fn sentence(stands: &Stands) -> String {
    let done = stands.session.items.iter().filter(|item| !item.sets.is_empty()).count();
    let sets: usize = stands.session.items.iter().map(|item| item.sets.len()).sum();
    let told = say!(
        written,
        exercises = counted(done, say!(one_exercise), say!(many_exercises)),
        sets = counted(sets, say!(one_set), say!(count_sets)),
    );
    let instead = (!stands.instead_of.is_empty())
        .then(|| say!(written_instead, names = stands.instead_of.join(", ")));
    let remarks = stands.remarks.iter().map(|remark| format!("{remark}."));
    std::iter::once(told).chain(instead).chain(remarks).collect::<Vec<_>>().join(" ")
}
