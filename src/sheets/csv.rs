//! The plan as a table for a spreadsheet: one row per item and week, as RFC 4180 writes it.

use std::io;

use super::{Lookup, Names, Options, Sheet, SheetError, card, clean, head, phrase};
use crate::plan::file::{Amounts, Group, Item, Plan, Session};
use crate::words::{GroupKind, Units};

/// The plan as comma-separated values.
pub struct Csv;

/// The head row. Masses are in `load_unit`, times in seconds. The last four are empty: what was done is written into them,
/// and `log --from` reads them.
const COLUMNS: [&str; 28] = [
    "client",
    "week",
    "week_kind",
    "date",
    "day",
    "start",
    "group",
    "label",
    "exercise",
    "name",
    "sets",
    "amounts",
    "amount_unit",
    "each_side",
    "load",
    "load_unit",
    "load_kind",
    "rest_s",
    "tempo",
    "rir",
    "effort",
    "ramp",
    "how_to_load",
    "next",
    "load_done",
    "done",
    "rir_done",
    "note",
];

impl Sheet for Csv {
    fn format(&self) -> &'static str {
        "csv"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        _options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let mut table =
            csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
        table.write_record(COLUMNS).map_err(io::Error::from)?;
        for week in super::block::weeks_or_one(plan) {
            for session in &week.sessions {
                let date = phrase::date(week.date.as_ref())
                    .and_then(|first| phrase::day_in_week(first, session.day));
                let about = [
                    text(&head::client(plan)),
                    week.week.to_string(),
                    week.kind.id().to_owned(),
                    date.map(|date| date.to_string()).unwrap_or_default(),
                ];
                for row in rows(plan, session, &names) {
                    table.write_record(about.iter().chain(&row)).map_err(io::Error::from)?;
                }
            }
        }
        let bytes = table.into_inner().map_err(|error| io::Error::other(error.to_string()))?;
        out.write_all(&bytes)?;
        Ok(())
    }
}

/// A text cell that no spreadsheet takes for a formula: one that would start with a sign that does
/// is led by an apostrophe. Numbers never come this way, so `-2.5` stays a number.
pub(super) fn text(cell: &str) -> String {
    let cell = clean::line(cell);
    if cell.starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell
    }
}

fn rows(plan: &Plan, session: &Session, names: &Names<'_>) -> Vec<Vec<String>> {
    let mut place = 0;
    let mut rows = Vec::new();
    for group in &session.groups {
        let letter = if group.kind == GroupKind::Prep {
            String::new()
        } else {
            place += 1;
            card::letter(place - 1)
        };
        for (item, label) in group.items.iter().zip(labels(group, &letter)) {
            let mut row = vec![
                session.day.id().to_owned(),
                text(session.at.as_deref().unwrap_or_default()),
                group.kind.id().to_owned(),
                label,
            ];
            row.extend(cells(plan, item, names));
            rows.push(row);
        }
    }
    rows
}

fn labels(group: &Group, letter: &str) -> Vec<String> {
    let count = group.items.len();
    (1..=count)
        .map(|number| match (letter, count) {
            ("", _) => String::new(),
            (letter, 1) => letter.to_owned(),
            (letter, _) => format!("{letter}{number}"),
        })
        .collect()
}

fn cells(plan: &Plan, item: &Item, names: &Names<'_>) -> Vec<String> {
    let units = head::units(plan);
    let entry = names.entry(&item.exercise);
    let (amounts, unit) = amounts(item);
    let load = item.load_kg.map(|kilograms| phrase::mass_number(kilograms, units));
    let load_unit = if load.is_some() { Units::id(units) } else { "" };
    let given = |cell: &Option<String>| cell.as_deref().map(text).unwrap_or_default();
    vec![
        text(&item.exercise),
        text(&names.name(&item.exercise)),
        item.sets.to_string(),
        amounts,
        unit.to_owned(),
        item.each_side.to_string(),
        load.unwrap_or_default(),
        load_unit.to_owned(),
        entry.map(|entry| entry.load.id()).unwrap_or_default().to_owned(),
        item.rest_s.to_string(),
        given(&item.tempo),
        item.rir.map(|rir| rir.to_string()).unwrap_or_default(),
        text(&phrase::effort(item, head::status(plan))),
        text(&phrase::ramp(&item.ramp, units)),
        given(&item.load_note),
        given(&item.next),
        String::new(),
        String::new(),
        String::new(),
        String::new(),
    ]
}

/// The sets' numbers apart by spaces, since a slash or a dash would be taken for a date.
fn amounts(item: &Item) -> (String, &'static str) {
    let (list, unit) = match item.amounts() {
        Some(Amounts::Reps(list)) => (list, "reps"),
        Some(Amounts::Seconds(list)) => (list, "seconds"),
        Some(Amounts::Meters(list)) => (list, "meters"),
        Some(Amounts::Calories(list)) => (list, "calories"),
        None => return (String::new(), ""),
    };
    let list: Vec<String> = list.iter().map(u32::to_string).collect();
    (list.join(" "), unit)
}
