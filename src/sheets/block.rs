//! Weeks side by side: up to four of them on one card, as a printed sheet shows them.
//!
//! A block is a run of weeks with the same exercises. Its cards have a row per exercise and a column
//! per week; what changes from week to week stands in the columns, the rest once.

mod by_week;
mod row;
mod runs;

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::card::{Card, EASE, Line, Part, loads, next};
use super::wording::say;
use super::{Names, clean, head, phrase};
use crate::plan::file::{Plan, Session, Week};
use crate::words::{GroupKind, WeekKind, Weekday};

use by_week::by_week;
use row::row;
pub(crate) use row::{Cell, NEXT, Row};

/// The most weeks that a card has columns for.
pub(crate) const COLUMNS: usize = 4;

/// A run of weeks with its cards.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Block {
    /// `Week 1` or `Weeks 1 to 4`.
    pub title: String,
    /// One card per session.
    pub cards: Vec<BlockCard>,
}

/// A column of a card.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Column {
    /// From 1.
    pub week: u32,
    /// `4 January`, where the plan has dates.
    pub date: String,
    /// The same as a program reads it.
    pub from: String,
    /// `base`, `build`, `easy` or `test`; empty where the plan has no weeks.
    pub kind: &'static str,
}

/// A session over the weeks of its block.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct BlockCard {
    /// The columns, in order.
    pub columns: Vec<Column>,
    /// What is the same in every week, from the fullest one.
    pub head: Card,
    /// `36 of 40 min`, from the shortest week to the longest.
    pub minutes: String,
    /// What holds for every lift, with the weeks where it differs.
    pub every: String,
    /// How to find a load, and how to raise one that was found, where some lift asks for it.
    pub loads: String,
    /// What to do when a last set left room, where most lifts say the same.
    pub next: String,
    /// What may stand in for whom, where a sheet says it once.
    pub instead: String,
    /// Why the time is not filled, with the weeks.
    pub note: String,
    /// The rows, group by group.
    pub groups: Vec<BlockPart>,
}

/// A group of rows.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct BlockPart {
    /// What it is.
    pub kind: GroupKind,
    /// `Pair`, `Finisher`, `Conditioning`, or empty.
    pub title: &'static str,
    /// Its exercises.
    pub rows: Vec<Row>,
}

/// The plan's weeks as blocks; a plan without weeks becomes one block of four like weeks.
pub(crate) fn blocks(plan: &Plan, names: &Names<'_>) -> Vec<Block> {
    let weeks = weeks(plan);
    runs::of(&weeks).into_iter().map(|run| block(plan, run, names)).collect()
}

fn weeks(plan: &Plan) -> Vec<Week> {
    let count = if plan.weeks.is_empty() { blank_weeks(plan) } else { 1 };
    let weeks = weeks_or_one(plan).into_iter().flat_map(|week| vec![week; count]);
    let numbered = |(place, week): (u32, Week)| {
        if !plan.weeks.is_empty() {
            return week;
        }
        let first = crate::sheets::phrase::date(week.date.as_ref());
        let ahead = jiff::Span::new().days(7 * (i64::from(place) - 1));
        let date = first.and_then(|first| first.checked_add(ahead).ok());
        Week { week: place, date: date.map(|date| date.to_string()), ..week }
    };
    (1..).zip(weeks).map(numbered).collect()
}

/// Columns of a plan without weeks: as many as the profile wants, up to one card's.
fn blank_weeks(plan: &Plan) -> usize {
    head::profile(plan).map_or(COLUMNS, |_| head::weeks(plan).clamp(1, COLUMNS))
}

/// The plan's weeks; a plan without any is one week of its sessions.
pub(crate) fn weeks_or_one(plan: &Plan) -> Vec<Week> {
    if !plan.weeks.is_empty() {
        return plan.weeks.clone();
    }
    let date = head::start(plan).map(|date| date.to_string());
    let sessions = plan.sessions.clone();
    vec![Week { week: 1, date, kind: WeekKind::Base, repeats: None, note: None, sessions }]
}

/// What tells a session from the others of its week: day, hour, and its place among equals.
type Slot = (Weekday, Option<String>, usize);

fn slots(sessions: &[Session]) -> BTreeMap<Slot, &Session> {
    let mut slots = BTreeMap::new();
    for session in sessions {
        let mut slot = (session.day, session.at.clone(), 0);
        while slots.contains_key(&slot) {
            slot.2 += 1;
        }
        slots.insert(slot, session);
    }
    slots
}

fn block(plan: &Plan, weeks: &[Week], names: &Names<'_>) -> Block {
    let mut cards: BTreeMap<Slot, Vec<Option<Card>>> = BTreeMap::new();
    for (place, week) in weeks.iter().enumerate() {
        for (slot, session) in slots(&week.sessions) {
            let by_week = cards.entry(slot).or_insert_with(|| vec![None; weeks.len()]);
            by_week[place] = Some(Card::new(plan, session, names));
        }
    }
    let columns: Vec<Column> = weeks.iter().map(|week| column(plan, week)).collect();
    Block {
        title: title(weeks),
        cards: cards.into_values().filter_map(|mut cards| card(&columns, &mut cards)).collect(),
    }
}

fn title(weeks: &[Week]) -> String {
    match (weeks.first(), weeks.last()) {
        (Some(first), Some(last)) if first.week != last.week => {
            say!(week_to, first = first.week, last = last.week)
        }
        (Some(only), _) => say!(week_only, week = only.week),
        _ => String::new(),
    }
}

fn column(plan: &Plan, week: &Week) -> Column {
    let kind = if plan.weeks.is_empty() { "" } else { week.kind.id() };
    let from = week.date.clone().unwrap_or_default();
    Column { week: week.week, date: head::week_date(week), from, kind }
}

/// One session over its weeks; the fullest week gives order, labels and the clock.
fn card(columns: &[Column], cards: &mut [Option<Card>]) -> Option<BlockCard> {
    let weeks = columns.iter().zip(cards.iter_mut());
    let mut weeks: Vec<(u32, &mut Card)> =
        weeks.filter_map(|(column, card)| Some((column.week, card.as_mut()?))).collect();
    numbers_alone(&mut weeks);
    let next = next::hoist(&mut weeks);
    let cards = &*cards;
    let count = |card: &Card| card.groups.iter().map(|part| part.lines.len()).sum::<usize>();
    let size = |card: &&Card| (count(card), card.planned_min);
    let fullest = cards.iter().flatten().max_by_key(size)?.clone();
    let said = |text: fn(&Card) -> String| {
        let texts = columns.iter().zip(cards);
        by_week(
            &texts.filter_map(|(column, card)| Some((column.week, text(card.as_ref()?)))).collect(),
        )
    };
    let note = phrase::sentence(&said(|card| card.note.clone().unwrap_or_default()))
        .replace(": About", ": about");
    let all: Vec<Part> = cards.iter().flatten().flat_map(|card| card.groups.clone()).collect();
    let mut groups = groups(columns, &fullest, cards);
    let next = [next, hoist_next(&mut groups)].into_iter().filter(|text| !text.is_empty());
    Some(BlockCard {
        next: next.collect::<Vec<_>>().join(" "),
        loads: loads(&all),
        columns: columns.to_vec(),
        minutes: minutes(&fullest, cards),
        every: super::card::every(
            &said(|card| card.effort.clone()),
            &said(|card| card.tempo.clone()),
        ),
        note,
        instead: String::new(),
        groups,
        head: fullest,
    })
}

/// Where each week has its own number, that is the progression, and no rule beside it is told: nobody follows two at once.
fn numbers_alone(weeks: &mut [(u32, &mut Card)]) {
    let mut numbers: BTreeMap<String, BTreeSet<(String, String)>> = BTreeMap::new();
    for line in weeks.iter().flat_map(|(_, card)| &card.groups).flat_map(|part| &part.lines) {
        numbers.entry(line.id.clone()).or_default().insert((line.load.clone(), line.count.clone()));
    }
    for line in
        weeks.iter_mut().flat_map(|(_, card)| &mut card.groups).flat_map(|part| &mut part.lines)
    {
        let has_own = numbers.get(&line.id).is_some_and(|numbers| numbers.len() > 1);
        if has_own && !line.next.starts_with(EASE) {
            line.next.clear();
        }
    }
}

/// Takes the sentence about the next load that most lifts share off their rows, and says it once.
fn hoist_next(groups: &mut [BlockPart]) -> String {
    let mut rows: Vec<&mut Row> = groups.iter_mut().flat_map(|group| &mut group.rows).collect();
    let shared = super::card::shared(rows.iter().map(|row| row.line.next.as_str()));
    for row in &mut rows {
        if row.line.next == shared {
            row.line.next.clear();
        }
    }
    shared
}

/// `36 of 40 min`, or `29 to 36 of 40 min` over the weeks.
fn minutes(fullest: &Card, cards: &[Option<Card>]) -> String {
    let Some(said) = &fullest.minutes else {
        return String::new();
    };
    let planned = || cards.iter().flatten().filter_map(|card| card.planned_min);
    match (planned().min(), planned().max()) {
        (Some(low), Some(high)) if low < high => {
            say!(minutes_from_to_of, low, high, limit = fullest.limit_min.unwrap_or(0))
        }
        _ => said.clone(),
    }
}

fn groups(columns: &[Column], fullest: &Card, cards: &[Option<Card>]) -> Vec<BlockPart> {
    let mut left: Vec<Vec<Line>> = cards
        .iter()
        .map(|card| {
            card.iter().flat_map(|card| &card.groups).flat_map(|part| part.lines.clone()).collect()
        })
        .collect();
    let mut groups: Vec<BlockPart> = fullest
        .groups
        .iter()
        .map(|part| BlockPart {
            kind: part.kind,
            title: part.title,
            rows: part.lines.iter().map(|line| row(columns, line, &mut left)).collect(),
        })
        .collect();
    while let Some(extra) = left.iter().find_map(|lines| lines.first().cloned()) {
        let label = super::card::letter(groups.len());
        let rest = if extra.rest_s == 0 { String::new() } else { Line::rest_text(extra.rest_s) };
        let line = Line { label, rest, ..extra };
        let rows = vec![row(columns, &line, &mut left)];
        groups.push(BlockPart { kind: GroupKind::Single, title: "", rows });
    }
    groups
}

/// A week's line in an overview: number, date, what it is for, sets, and what changes.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct WeekLine {
    /// Number, date and kind.
    pub column: Column,
    /// Working sets.
    pub sets: u32,
    /// What changes.
    pub note: String,
}

/// Every week of the plan for an overview.
pub(crate) fn week_lines(plan: &Plan) -> Vec<WeekLine> {
    let note = |week: &Week| week.note.as_deref().map(clean::line).unwrap_or_default();
    // The first week with a note says it for the others.
    let mut told: BTreeMap<String, u32> = BTreeMap::new();
    let mut lines = Vec::new();
    for week in &plan.weeks {
        let note = note(week);
        let first = *told.entry(note.clone()).or_insert(week.week);
        let is_told = first != week.week && !note.is_empty();
        let shown = if is_told { say!(as_in_week, week = first) } else { note };
        let sets = head::working_sets(&week.sessions);
        lines.push(WeekLine { column: column(plan, week), sets, note: shown });
    }
    lines
}
