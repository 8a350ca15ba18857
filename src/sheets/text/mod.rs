//! The plan for a terminal: a coach's note that can be read across the room.

mod basis;
mod count;
mod page;
mod session;

use std::io;

pub use self::basis::basis_text;
use self::page::Page;
use super::card::Card;
use super::wording::say;
use super::{Audience, Lookup, Names, Options, Sheet, SheetError, head};
use crate::plan::file::{Plan, Session};
use crate::words::Status;

/// The plan for a terminal of 80 columns, with or without color.
pub struct Text;

impl Sheet for Text {
    fn format(&self) -> &'static str {
        "text"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let sessions = sessions(plan, options.week)?;
        let mut page = Page::new(options);
        header(&mut page, plan, options);
        if options.audience.client() {
            for session in sessions {
                session::write(&mut page, &Card::alone(plan, session, &names));
            }
            legend(&mut page, plan);
        }
        if options.audience.coach() {
            count::whys(&mut page, plan, &names);
            count::volume(&mut page, plan);
            count::balance(&mut page, plan, &names);
            let conditioning = head::conditioning(plan, &names);
            count::minutes(&mut page, sessions, conditioning.as_deref());
            count::shortfalls(&mut page, plan);
        }
        weeks(&mut page, plan);
        cautions(&mut page, plan, options.audience);
        out.write_all(page.text().as_bytes())?;
        Ok(())
    }
}

/// The sessions to show: those of one week, or the week at its fullest.
fn sessions(plan: &Plan, week: Option<u32>) -> Result<&[Session], SheetError> {
    let Some(wanted) = week else {
        return Ok(&plan.sessions);
    };
    plan.weeks
        .iter()
        .find(|week| week.week == wanted)
        .map(|week| week.sessions.as_slice())
        .ok_or(SheetError::NoSuchWeek { wanted, weeks: plan.weeks.len() })
}

fn header(page: &mut Page, plan: &Plan, options: &Options) {
    page.title(&head::client(plan));
    if let Some(about) = head::about(plan) {
        page.line(&about);
    }
    page.line(&head::span(plan));
    match options.week {
        Some(week) => page.line(&say!(shown_week, week)),
        None if plan.weeks.len() > 1 => {
            page.quiet(say!(shown_fullest));
        }
        None => {}
    }
    if options.audience.coach() {
        alerts(page, plan);
    }
}

/// What was reported before training, before anything else is read.
fn alerts(page: &mut Page, plan: &Plan) {
    let alerts = head::alerts(plan);
    if !alerts.is_empty() {
        page.gap();
        page.line(say!(section_before));
    }
    for alert in alerts {
        page.hanging("  - ", &alert);
    }
}

/// What the signs of the sessions mean, once.
fn legend(page: &mut Page, plan: &Plan) {
    page.gap();
    if head::status(plan).is_some_and(|status| status != Status::Novice) {
        page.quiet(say!(legend_reserve));
    }
    page.quiet(say!(legend_tempo));
}

fn weeks(page: &mut Page, plan: &Plan) {
    if plan.weeks.len() < 2 {
        return;
    }
    page.heading(say!(weeks_head));
    for week in super::block::week_lines(plan) {
        let start = format!(
            "  {:>2}  {:<13}{:<6}{:>3} {}   ",
            week.column.week,
            week.column.date,
            week.column.kind,
            week.sets,
            say!(count_sets)
        );
        page.hanging(&start, &week.note);
    }
}

fn cautions(page: &mut Page, plan: &Plan, audience: Audience) {
    page.heading(say!(with_care));
    for caution in head::cautions(plan, audience) {
        page.hanging("  - ", &caution);
    }
    page.hanging("  - ", head::convention());
    page.gap();
    for line in head::made(plan) {
        page.quiet(&line);
    }
}
