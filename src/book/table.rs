//! A table that a coach filled in: one row per exercise, as `sheet --as csv` lays it out or with the same headings.

mod cell;

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::done::{Asked, DoneItem, DoneSession, DoneSet};
use super::slot::{self, Slot};
use super::written::{self, About, Sets, name};
use crate::input::catalog::Entry;
use crate::input::plan::{Item, Plan};
use crate::words::{Units, Weekday};
use cell::{Column, Decides, Order};

/// What a table is read with.
pub struct Context<'a> {
    /// The client's plan, where there is one.
    pub plan: Option<&'a Plan>,
    /// Every exercise that there is.
    pub entries: &'a BTreeMap<String, Entry>,
    /// In which loads are written.
    pub units: Units,
    /// What is written down already.
    pub taken: &'a slot::Taken,
}

/// A cell that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bad {
    /// The row, from 1, the headings counted.
    pub row: usize,
    /// The column's heading; empty where the whole row is meant.
    pub column: String,
    /// Its letter as a spreadsheet has it.
    pub letter: String,
    /// What is wrong.
    pub message: String,
    /// What to write.
    pub help: String,
}

/// The good rows as sessions, oldest first, and every bad cell.
#[must_use]
pub fn sessions(rows: &[Vec<String>], context: &Context<'_>) -> (Vec<DoneSession>, Vec<Bad>) {
    let mut bad = Vec::new();
    let Some((head, body)) = rows.split_first() else {
        return (
            Vec::new(),
            vec![whole(1, "the table is empty", "its first row holds the headings")],
        );
    };
    let columns = match Column::all(head) {
        Ok(columns) => columns,
        Err(missing) => {
            let message = format!("there is no column `{missing}`");
            let help =
                "the first row holds the headings: exercise, date, load_done, done, rir_done";
            return (Vec::new(), vec![whole(1, &message, help)]);
        }
    };
    let at = columns.iter().find(|(one, ..)| *one == Column::Date).map(|(_, at, _)| *at);
    let dates = body.iter().filter_map(|cells| cells.get(at?)).map(String::as_str);
    let order = Order::of(dates);
    let mut sessions: BTreeMap<Key, DoneSession> = BTreeMap::new();
    for (place, cells) in body.iter().enumerate() {
        let row = Row { number: place + 2, cells, columns: &columns, order, context };
        match row.read() {
            Ok(Some((key, session, item))) => {
                sessions.entry(key).or_insert(session).items.push(item);
            }
            Ok(None) => {}
            Err(found) => bad.extend(found),
        }
    }
    (sessions.into_values().collect(), bad)
}

fn whole(row: usize, message: &str, help: &str) -> Bad {
    Bad {
        row,
        column: String::new(),
        letter: String::new(),
        message: message.to_owned(),
        help: help.to_owned(),
    }
}

/// What tells sessions apart, in the order that they were done.
type Key = (Date, Option<u32>, Option<Weekday>, Option<String>);

struct Row<'a> {
    number: usize,
    cells: &'a [String],
    columns: &'a [(Column, usize, String)],
    order: Option<Order>,
    context: &'a Context<'a>,
}

impl Row<'_> {
    /// A row as an item of its session; `None` where nothing is filled in.
    ///
    /// # Errors
    /// Every bad cell of the row.
    fn read(&self) -> Result<Option<(Key, DoneSession, DoneItem)>, Vec<Bad>> {
        let done = self.text(Column::Done);
        let load = self.text(Column::LoadDone);
        let effort = self.text(Column::RirDone);
        if done.is_empty() && load.is_empty() && effort.is_empty() {
            return Ok(None);
        }
        let mut bad = Vec::new();
        let mut good = |found: Box<Bad>| bad.push(*found);
        let slot = self.slot().map_err(&mut good).ok();
        let entry = self.exercise().map_err(&mut good).ok();
        let planned = slot.and_then(|(_, slot)| slot).map(|slot| slot::work(slot.session));
        let item = entry.and_then(|entry| {
            let planned = planned.unwrap_or_default();
            let planned = planned.into_iter().find(|item| item.exercise == entry.id);
            self.item(entry, planned, [load, done, effort]).map_err(|found| bad.extend(found)).ok()
        });
        let Some(((date, slot), item)) = slot.zip(item) else { return Err(bad) };
        let week = slot.map(|slot| slot.week);
        let (day, at) = match slot {
            Some(slot) => (Some(slot.session.day), slot.session.at.clone()),
            None => (None, None),
        };
        let session = DoneSession {
            date,
            at: at.clone(),
            week,
            day,
            is_light: slot.is_some_and(|slot| slot.is_light),
            course: self.context.plan.map(slot::course).unwrap_or_default(),
            items: Vec::new(),
            note: String::new(),
        };
        Ok(Some(((date, week, day, at), session, item)))
    }

    /// What was done, from the cells of load, sets and effort.
    fn item(
        &self,
        entry: &Entry,
        planned: Option<&Item>,
        [load, done, effort]: [&str; 3],
    ) -> Result<DoneItem, Vec<Bad>> {
        let effort = match effort {
            told if told.bytes().next().is_some_and(|first| first.is_ascii_digit()) => {
                format!("r{told}")
            }
            told => told.to_owned(),
        };
        let mut cells = [
            (Column::LoadDone, cell::load(load, entry)),
            (Column::Done, done.to_owned()),
            (Column::RirDone, effort),
        ];
        let mut bad: Vec<Bad> = Vec::new();
        let mut is_bad = [false; 3];
        // A bad cell is read as if it said something plain, so that the others of the row are told too.
        let sets = loop {
            match self.sets(entry, planned, &cells) {
                Ok(sets) => break sets,
                Err((column, found)) => {
                    let place = cells.iter().position(|(one, _)| *one == column).unwrap_or(0);
                    if std::mem::replace(&mut is_bad[place], true) {
                        return Err(bad);
                    }
                    bad.push(*found);
                    cells[place].1 = cell::plain(column, entry).to_owned();
                }
            }
        };
        if !bad.is_empty() {
            return Err(bad);
        }
        let note = self.text(Column::Note).to_owned();
        Ok(DoneItem { exercise: entry.id.clone(), asked: planned.map(Asked::of), sets, note })
    }

    /// The sets of the cells; the first that cannot be read, by its column.
    fn sets(
        &self,
        entry: &Entry,
        planned: Option<&Item>,
        cells: &[(Column, String); 3],
    ) -> Result<Vec<DoneSet>, (Column, Box<Bad>)> {
        let words: Vec<(Column, &str)> = cells
            .iter()
            .flat_map(|(column, text)| {
                let words = text.split_whitespace();
                words.map(|word| (*column, word.trim_end_matches(',')))
            })
            .collect();
        let typed: Vec<&str> = words.iter().map(|(_, word)| *word).collect();
        let about = About { entry, planned, units: self.context.units, lightest_kg: None };
        match written::sets(&typed, &about) {
            Ok(Sets::Done(sets)) => Ok(sets),
            Ok(Sets::Skipped) => Ok(Vec::new()),
            Err(fault) => {
                let column = words.get(fault.word).map_or(Column::Done, |(column, _)| *column);
                Err((column, self.bad(column, fault.message, fault.help)))
            }
        }
    }

    fn exercise(&self) -> Result<&Entry, Box<Bad>> {
        let typed = self.text(Column::Exercise);
        let found = name::exercise(typed, &[], self.context.entries);
        found.map_err(|none| {
            let help = match none {
                name::NoName::Unknown(help) => help,
                name::NoName::Several(ids) => format!("write one of {}", ids.join(", ")),
            };
            self.bad(Column::Exercise, format!("there is no exercise `{typed}`"), help)
        })
    }

    /// The day of the row, and the plan's session that it means.
    fn slot(&self) -> Result<(Date, Option<Slot<'_>>), Box<Bad>> {
        let day = self.day()?;
        let week = self.week()?;
        let at = Some(self.text(Column::Start)).filter(|at| !at.is_empty());
        let Some(plan) = self.context.plan else { return Ok((self.date(day, None)?, None)) };
        let slots = slot::slots(plan);
        let named = |slot: &&Slot<'_>| {
            Some(slot.week) == week
                && Some(slot.session.day) == day
                && at.is_none_or(|at| slot.session.at.as_deref() == Some(at))
        };
        let planned = slots.iter().find(named).copied();
        let date = match planned.and_then(|slot| slot.date) {
            Some(planned) if self.text(Column::Date).is_empty() => planned,
            _ => self.date(day, slot::span(plan))?,
        };
        if planned.is_some() {
            return Ok((date, planned));
        }
        let day = day.map(|day| (day, at));
        let found = slot::candidates(plan, date, week, day, self.context.taken);
        let found = found.map_err(|none| {
            self.bad(
                Column::Week,
                none.to_string(),
                "write week and day as the plan has them".to_owned(),
            )
        })?;
        Ok((date, if found.len() == 1 { Some(found[0]) } else { None }))
    }

    fn day(&self) -> Result<Option<Weekday>, Box<Bad>> {
        let text = self.text(Column::Day);
        if text.is_empty() {
            return Ok(None);
        }
        cell::weekday(text).map(Some).ok_or_else(|| {
            self.bad(
                Column::Day,
                format!("`{text}` is no weekday"),
                "write `mon` to `sun`".to_owned(),
            )
        })
    }

    fn week(&self) -> Result<Option<u32>, Box<Bad>> {
        let text = self.text(Column::Week);
        if text.is_empty() {
            return Ok(None);
        }
        text.parse().map(Some).map_err(|_| {
            self.bad(Column::Week, format!("`{text}` is no week"), "write its number".to_owned())
        })
    }

    fn date(&self, day: Option<Weekday>, span: Option<(Date, Date)>) -> Result<Date, Box<Bad>> {
        let text = self.text(Column::Date);
        cell::date(text, &Decides { order: self.order, day, span }).map_err(|message| {
            self.bad(Column::Date, message, "write it like 2027-01-11 or 11.1.2027".to_owned())
        })
    }

    fn text(&self, column: Column) -> &str {
        let at = self.columns.iter().find(|(one, ..)| *one == column).map(|(_, at, _)| *at);
        at.and_then(|at| self.cells.get(at)).map_or("", |cell| cell.trim())
    }

    fn bad(&self, column: Column, message: String, help: String) -> Box<Bad> {
        let found = self.columns.iter().find(|(one, ..)| *one == column);
        let (column, letter) = match found {
            Some((_, at, heading)) => (heading.clone(), cell::letter(*at)),
            None => (column.heading().to_owned(), String::new()),
        };
        Box::new(Bad { row: self.number, column, letter, message, help })
    }
}

#[cfg(test)]
mod tests;
