//! The roster for terminal, spreadsheet and browser.

use minijinja::{Value, value::Serde};
use serde::Serialize;

use crate::room::roster::{Line, Load, Roster};
use crate::sheets::wording::say;
use crate::sheets::{SheetError, csv, phrase, wording};
use crate::words::Weekday;

const TEMPLATE: &str = include_str!("roster.html");
const STYLE: &str = include_str!("../progress/style.css");

/// `block 2, week 6 of 8, build`.
fn course(line: &Line) -> String {
    match (line.block, line.week) {
        (Some(block), Some(week)) => {
            say!(roster_course, block, week, weeks = line.weeks, kind = line.kind)
        }
        _ => String::new(),
    }
}

/// The table, and how full each room is.
#[must_use]
pub fn roster_text(roster: &Roster) -> String {
    let count =
        crate::diagnostic::counted(roster.lines.len(), say!(one_client), say!(many_clients));
    let mut text =
        format!("{}: {count}\n\n", say!(week_of_day, day = phrase::long_date(roster.monday)));
    for line in &roster.lines {
        let about: Vec<String> = [line.place.clone(), course(line)]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect();
        text.push_str(&format!("{}  {}\n", line.client, about.join("; ")));
        if !line.sessions.is_empty() {
            text.push_str(&format!("    {}\n", line.sessions.join(", ")));
        }
        if !line.open.is_empty() {
            text.push_str(&format!("    {}\n", say!(roster_open, open = line.open.join(", "))));
        }
    }
    for load in &roster.rooms {
        text.push_str(&format!("\n{}, {}\n", named(load), say!(most_at_once)));
        let days: Vec<&str> = Weekday::ALL.iter().map(|day| day.id()).collect();
        text.push_str(&format!("  {:<7}{}\n", say!(roster_hour), days.join("  ")));
        for (hour, most) in &load.hours {
            let cells: Vec<String> = most
                .iter()
                .map(|most| if *most == 0 { "  ·".to_owned() } else { format!("{most:>3}") })
                .collect();
            text.push_str(&format!("  {hour:02}:00  {}\n", cells.join("  ")));
        }
    }
    text
}

fn named(load: &Load) -> &str {
    if load.place.is_empty() { say!(own_kit) } else { &load.place }
}

/// One row for each client, as RFC 4180 writes it.
#[must_use]
pub fn roster_csv(roster: &Roster) -> String {
    let head = ["client", "place", "block", "week", "weeks", "kind", "sessions", "open"]
        .map(str::to_owned);
    let number = |number: Option<u32>| number.map(|one| one.to_string()).unwrap_or_default();
    let rows = roster.lines.iter().map(|line| {
        [
            csv::text(&line.client),
            csv::text(&line.place),
            number(line.block),
            number(line.week),
            line.weeks.to_string(),
            line.kind.clone(),
            line.sessions.join("; "),
            csv::text(&line.open.join("; ")),
        ]
    });
    let mut writer =
        ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
    for row in std::iter::once(head).chain(rows) {
        writer.write_record(row).expect("a vector takes every byte");
    }
    let bytes = writer.into_inner().expect("a vector takes every byte");
    String::from_utf8(bytes).expect("the cells are text")
}

#[derive(Serialize)]
struct View<'a> {
    week: String,
    style: Value,
    lines: Vec<[&'a str; 5]>,
    rooms: Vec<Full<'a>>,
    /// `Mon`.
    weekdays: Vec<&'static str>,
}

#[derive(Serialize)]
struct Full<'a> {
    name: &'a str,
    hours: Vec<(String, [u32; 7])>,
}

fn full(load: &Load) -> Full<'_> {
    let hours = load.hours.iter().map(|(hour, most)| (format!("{hour:02}:00"), *most)).collect();
    Full { name: named(load), hours }
}

/// The page.
///
/// # Errors
/// A template that failed, which is a fault of ours.
pub fn roster_page(roster: &Roster) -> Result<String, SheetError> {
    let told: Vec<[String; 3]> = roster
        .lines
        .iter()
        .map(|line| [course(line), line.sessions.join(", "), line.open.join(", ")])
        .collect();
    let lines = roster.lines.iter().zip(&told);
    let view = View {
        week: phrase::long_date(roster.monday),
        style: Value::from_safe_string(STYLE.to_owned()),
        lines: lines
            .map(|(line, [course, sessions, open])| {
                [line.client.as_str(), line.place.as_str(), course, sessions, open]
            })
            .collect(),
        rooms: roster.rooms.iter().map(full).collect(),
        weekdays: Weekday::ALL.iter().map(|day| &day.name()[..3]).collect(),
    };
    Ok(wording::environment().render_str(TEMPLATE, Serde(view))?)
}
