//! The plan as a calendar: one event per session and week, as RFC 5545 writes it.

mod lines;

use std::io;

use jiff::civil::Date;
use sha2::{Digest, Sha256};

use self::lines::Lines;
use super::card::{Card, Line};
use super::wording::say;
use super::{Lookup, Names, Options, Sheet, SheetError, clean, head, phrase};
use crate::plan::file::{Plan, Session, Week};

/// The plan as an iCalendar file.
///
/// Times are floating: 18:30 stays 18:30 wherever the phone is. A session without an hour becomes an
/// event of the whole day.
pub struct Calendar;

impl Sheet for Calendar {
    fn format(&self) -> &'static str {
        "ics"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        _options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let start = head::start(plan).ok_or(SheetError::NoStart)?;
        let mut lines = Lines::default();
        lines.plain("BEGIN", "VCALENDAR");
        lines.plain("VERSION", "2.0");
        lines.plain("PRODID", "-//Weekwright//Training weeks//EN");
        lines.plain("CALSCALE", "GREGORIAN");
        lines.text("NAME", &say!(calendar_name, client = head::client(plan)));
        for week in super::block::weeks_or_one(plan) {
            let first = phrase::date(week.date.as_ref()).unwrap_or(start);
            let mut taken: Vec<String> = Vec::new();
            for session in &week.sessions {
                let uid = uid(plan, week.week, session, &mut taken);
                let Some(date) = phrase::day_in_week(first, session.day) else {
                    continue;
                };
                // The event is known by its usual hour, and takes place at that of its date.
                let at = plan.start_of(week.week, session).map(str::to_owned);
                let dated = Session { at, ..session.clone() };
                let card = Card::alone(plan, &dated, &names);
                let hour = dated.at.as_deref().and_then(phrase::clock);
                event(&mut lines, plan, &week, (&card, hour), &uid, (start, date));
            }
        }
        lines.plain("END", "VCALENDAR");
        out.write_all(lines.finish().as_bytes())?;
        Ok(())
    }
}

/// The name by which a calendar knows an event again, from client, week, day and hour alone, so that
/// a changed plan updates its events. Codes that are not plain go in as a hash.
fn uid(plan: &Plan, week: u32, session: &Session, taken: &mut Vec<String>) -> String {
    let client = head::client(plan);
    let is_plain =
        client.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    let client = if is_plain && client.len() <= 40 { client } else { hash(&client) };
    let hour = session.at.as_deref().and_then(phrase::clock);
    let hour = hour.map_or_else(|| "day".to_owned(), hour_text);
    let stem = format!("{client}.week{week}.{}.{hour}", session.day.id());
    let before = taken.iter().filter(|uid| **uid == stem).count();
    taken.push(stem.clone());
    if before == 0 {
        format!("{stem}@weekwright")
    } else {
        format!("{stem}.{}@weekwright", before + 1)
    }
}

/// `1830`, past midnight from the start again.
fn hour_text(minutes: u32) -> String {
    format!("{:02}{:02}", minutes / 60 % 24, minutes % 60)
}

fn hash(text: &str) -> String {
    let digest = Sha256::digest(text.as_bytes());
    let start = digest.iter().take(8).fold(0_u64, |start, byte| start << 8 | u64::from(*byte));
    format!("{start:016x}")
}

fn event(
    lines: &mut Lines,
    plan: &Plan,
    week: &Week,
    (card, hour): (&Card, Option<u32>),
    uid: &str,
    (start, date): (Date, Date),
) {
    lines.plain("BEGIN", "VEVENT");
    lines.text("UID", uid);
    // RFC 5545 wants a stamp on every event. The plan holds no clock value, so that the same plan
    // gives the same file; the first day of week 1 is the one date that is always at hand.
    lines.plain("DTSTAMP", &format!("{}T000000Z", compact(start)));
    times(lines, hour, card.planned_min, date);
    let focus = if card.focus.is_empty() { card.day.clone() } else { card.focus.clone() };
    lines.text("SUMMARY", &say!(calendar_event, focus));
    if let Some(place) = head::profile(plan).and_then(|profile| profile.place.as_deref()) {
        lines.text("LOCATION", &clean::line(place));
    }
    lines.text("DESCRIPTION", &description(plan, week, card));
    lines.plain("END", "VEVENT");
}

/// From the start to the expected end, or the whole day; an end is never part of the event, so a
/// whole day ends on the next one.
fn times(lines: &mut Lines, start: Option<u32>, planned_min: Option<u32>, date: Date) {
    let next = date.tomorrow().unwrap_or(date);
    let Some(start) = start else {
        lines.plain("DTSTART;VALUE=DATE", &compact(date));
        lines.plain("DTEND;VALUE=DATE", &compact(next));
        return;
    };
    lines.plain("DTSTART", &format!("{}T{}00", compact(date), hour_text(start)));
    if let Some(planned) = planned_min {
        let end = start + planned;
        let day = if end < 24 * 60 { date } else { next };
        lines.plain("DTEND", &format!("{}T{}00", compact(day), hour_text(end)));
    }
}

/// `20270104`.
fn compact(date: Date) -> String {
    date.to_string().replace('-', "")
}

/// The card as short lines.
fn description(plan: &Plan, week: &Week, card: &Card) -> String {
    let mut said = vec![say!(
        calendar_week,
        client = head::client(plan),
        week = week.week,
        weeks = head::weeks(plan)
    )];
    let facts = [
        (say!(kit), card.kit.join(", ")),
        (say!(prep_short), card.preparation()),
        (say!(lifts), card.every()),
        (say!(loads), card.loads.clone()),
        (say!(next), card.next.clone()),
        (say!(note), card.note.clone().unwrap_or_default()),
    ];
    said.extend(
        facts
            .iter()
            .filter(|(_, fact)| !fact.is_empty())
            .map(|(name, fact)| format!("{name}: {fact}")),
    );
    for line in card.groups.iter().flat_map(|part| &part.lines) {
        said.push(String::new());
        said.extend(exercise(line));
    }
    said.push(String::new());
    said.push(head::stop().to_owned());
    said.join("\n")
}

fn exercise(line: &Line) -> Vec<String> {
    let load = if line.load.is_empty() { String::new() } else { format!(", {}", line.load) };
    let mut said = vec![format!("{} {}: {}{load}", line.label, line.name, line.dose)];
    if !line.ramp.is_empty() {
        said.push(say!(ramp_is, ramp = line.ramp));
    }
    let how = [&line.effort, &line.rest, &line.tempo];
    let how: Vec<&str> =
        how.into_iter().map(String::as_str).filter(|text| !text.is_empty()).collect();
    let step = if line.step.is_empty() { String::new() } else { format!("▸ {}", line.step) };
    let more = [line.plates.clone(), line.load_note.clone(), line.next.clone(), step];
    said.push(how.join(" · "));
    said.extend(more);
    said.retain(|text| !text.is_empty());
    said
}
