//! The page of a session: each exercise with its sets as planned, as written down, or as typed.

use serde::Serialize;

use super::lines::{Lines, rows_in};
use super::which::{Choice, Which};
use super::{At, fingerprint};
use crate::book::history::Performance;
use crate::book::written::{
    amount_text, effort_text, has_load, load_word, planned_words, sets_text,
};
use crate::book::{DoneItem, DoneSession, Effort, slot};
use crate::diagnostic::Diagnostic;
use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::page::collision::Told;
use crate::page::fields::Fields;
use crate::page::template::say;
use crate::sheets::card::{Card, Line};
use crate::sheets::{Names, head, phrase};
use crate::words::{LoadKind, Units};

/// Where the numbers come from.
pub(super) enum Source<'a> {
    /// The plan: nothing is done yet.
    Plan,
    /// What is written down.
    Book(&'a DoneSession),
    /// A form that was refused.
    Form(&'a Fields),
}

/// The page.
#[derive(Serialize)]
pub(super) struct Sheet {
    key: String,
    client: String,
    week: u32,
    /// `mon`, or `mon@18:30`.
    day: String,
    title: String,
    date: String,
    note: String,
    plan: String,
    stood: String,
    is_written: bool,
    pub(super) notice: String,
    faults: Vec<Told>,
    weeks: Vec<Week>,
    loads: String,
    exercises: Vec<Exercise>,
    more: String,
    ids: Vec<[String; 2]>,
    units: &'static str,
    stop: &'static str,
}

/// The sessions of a week, to choose from.
#[derive(Serialize)]
struct Week {
    week: u32,
    days: Vec<Day>,
}

#[derive(Serialize)]
struct Day {
    label: String,
    name: String,
    is_written: bool,
    is_this: bool,
}

/// An exercise with its sets.
#[derive(Serialize)]
struct Exercise {
    place: usize,
    label: String,
    name: String,
    dose: String,
    load: String,
    load_note: String,
    /// That the load is the last one in the book, where it is.
    last_load: String,
    rest: String,
    rest_s: u32,
    effort: String,
    cue: String,
    /// What stands over the field of the load; empty where there is none.
    load_word: String,
    measure: &'static str,
    sets: Vec<Set>,
    is_skipped: bool,
    note: String,
    faults: Vec<Told>,
}

/// A set.
#[derive(Serialize, Default)]
struct Set {
    load: String,
    amount: String,
    left: String,
    is_done: bool,
    /// Whether the plan does not ask for it.
    is_more: bool,
}

impl Sheet {
    pub(super) fn new(at: &At<'_>, which: &Which<'_>, source: &Source<'_>) -> Sheet {
        let plan = at.plan;
        let planner = at.desk.planner.with_plan(plan);
        let names = Names::new(plan, planner.catalog().entries());
        let card = Card::new(plan, which.session, &names);
        let items = slot::work(which.session);
        let lines: Vec<&Line> = card.groups.iter().flat_map(|part| &part.lines).collect();
        let exercises = items.iter().enumerate().filter_map(|(place, item)| {
            let entry = planner.catalog().get(&item.exercise)?;
            let line = lines.iter().find(|line| line.id == item.exercise)?;
            let known = at.known(&item.exercise, which).filter(|_| has_load_field(entry));
            Some(exercise(place, item, entry, line, (at.units(), known), source))
        });
        let stands = at.stands(which);
        let text = |name: &str| match source {
            Source::Form(fields) => fields.get(name).unwrap_or_default().to_owned(),
            _ => String::new(),
        };
        let beside =
            |done: &DoneSession| beside(done, &items, planner.catalog().entries(), at.units());
        let date = match (source, stands) {
            (_, Some(done)) => done.date.to_string(),
            (Source::Form(_), None) => text("date"),
            _ => which.date.to_string(),
        };
        Sheet {
            key: at.key.to_owned(),
            client: head::client(plan),
            week: which.week,
            day: which.label(),
            title: which.name.clone(),
            date,
            note: match source {
                Source::Book(done) => done.note.clone(),
                _ => text("note"),
            },
            plan: at.plan_sha256.clone(),
            stood: stands.map(fingerprint).unwrap_or_default(),
            is_written: stands.is_some(),
            notice: String::new(),
            faults: Vec::new(),
            weeks: weeks(which),
            loads: card.loads.clone(),
            exercises: exercises.collect(),
            more: match source {
                Source::Book(done) => beside(done),
                _ => text("more"),
            },
            ids: planner
                .catalog()
                .entries()
                .values()
                .map(|entry| [entry.id.clone(), entry.name.clone()])
                .collect(),
            units: at.units().id(),
            stop: head::stop(),
        }
    }

    /// Faults stand at the head, and beside their exercise where they have one.
    pub(super) fn take_faults(&mut self, lines: &Lines, faults: &[Diagnostic]) {
        for fault in faults {
            let line = fault.labels.first().and_then(|label| label.span).map(|span| span.line);
            let place = line.and_then(|line| lines.exercise_of(line));
            let found = self.exercises.iter_mut().find(|one| Some(one.place) == place);
            // A place in lines that the coach never saw says nothing.
            let told = || Told { place: String::new(), ..Told::of(fault) };
            let name = found.as_ref().map(|one| one.name.clone());
            if let Some(exercise) = found {
                exercise.faults.push(told());
            }
            self.faults.push(Told { place: name.unwrap_or_default(), ..told() });
        }
    }
}

fn weeks(which: &Which<'_>) -> Vec<Week> {
    let mut weeks: Vec<Week> = Vec::new();
    for choice in &which.all {
        let Choice { week, name, label, date, is_written } = choice;
        let on = date.map_or(String::new(), |date| format!(" {}", phrase::day_month(date)));
        let day = Day {
            name: format!("{name}{on}"),
            is_written: *is_written,
            is_this: *week == which.week && *label == which.label(),
            label: label.clone(),
        };
        match weeks.last_mut().filter(|last| last.week == *week) {
            Some(last) => last.days.push(day),
            None => weeks.push(Week { week: *week, days: vec![day] }),
        }
    }
    weeks
}

/// What was done and the plan does not ask for, as lines.
fn beside(
    done: &DoneSession,
    items: &[&Item],
    entries: &std::collections::BTreeMap<String, Entry>,
    units: Units,
) -> String {
    let extra =
        done.items.iter().filter(|one| !items.iter().any(|item| item.exercise == one.exercise));
    let lines = extra.filter_map(|one| {
        let text = sets_text(one, entries.get(&one.exercise)?, units);
        let note = if one.note.is_empty() { String::new() } else { format!(" ({})", one.note) };
        Some(format!("{} {text}{note}", one.exercise))
    });
    lines.collect::<Vec<_>>().join("\n")
}

fn exercise(
    place: usize,
    item: &Item,
    entry: &Entry,
    line: &Line,
    (units, known): (Units, Option<Performance>),
    source: &Source<'_>,
) -> Exercise {
    let planned = planned(item, entry, units);
    let count = planned.len();
    let done = match source {
        Source::Book(done) => done.items.iter().find(|one| one.exercise == item.exercise),
        _ => None,
    };
    let mut sets = match (source, done) {
        (Source::Form(fields), _) => typed(fields, place),
        (_, Some(done)) => written(done, entry, units, planned),
        _ => planned,
    };
    let mut last_load = String::new();
    if !matches!(source, Source::Form(_)) {
        if let Some(known) = known.filter(|_| sets.iter().any(|set| set.load.is_empty())) {
            let load = load_word(&known.load, entry, units);
            sets.iter_mut()
                .filter(|set| set.load.is_empty())
                .for_each(|set| set.load.clone_from(&load));
            last_load = say!(write_last_load, day = phrase::day_month(known.date));
        }
        let load = sets.last().map(|set| set.load.clone()).unwrap_or_default();
        sets.push(Set { load, ..Set::default() });
    }
    sets.iter_mut().skip(count).for_each(|set| set.is_more = true);
    let (is_skipped, note) = match source {
        Source::Form(fields) => (
            fields.get(&format!("skip.{place}")).is_some(),
            fields.get(&format!("about.{place}")).unwrap_or_default().to_owned(),
        ),
        _ => (
            done.is_some_and(DoneItem::is_skipped),
            done.map(|done| done.note.clone()).unwrap_or_default(),
        ),
    };
    Exercise {
        place,
        label: line.label.clone(),
        name: line.name.clone(),
        dose: line.dose.clone(),
        load: line.load.clone(),
        load_note: line.load_note.clone(),
        last_load,
        rest: line.rest.clone(),
        rest_s: line.rest_s,
        effort: line.effort.clone(),
        cue: line.cues.first().cloned().unwrap_or_default(),
        load_word: load_head(entry, units),
        measure: entry.measure.id(),
        sets,
        is_skipped,
        note,
        faults: Vec::new(),
    }
}

/// What stands over the field of the load.
fn load_head(entry: &Entry, units: Units) -> String {
    match entry.load {
        kind if has_load(kind) => units.id().to_owned(),
        LoadKind::BodyweightPlus => format!("{} {}", say!(load_added), units.id()),
        LoadKind::Assisted => format!("{} {}", say!(load_help), units.id()),
        LoadKind::Band => say!(load_band).to_owned(),
        _ => String::new(),
    }
}

fn has_load_field(entry: &Entry) -> bool {
    has_load(entry.load)
        || matches!(entry.load, LoadKind::BodyweightPlus | LoadKind::Assisted | LoadKind::Band)
}

/// The sets of the plan. The reserve stands with the last one, as `ok` writes it down.
fn planned(item: &Item, entry: &Entry, units: Units) -> Vec<Set> {
    let (load, amounts) = planned_words(item, entry, units);
    let last = amounts.len();
    let sets = amounts.into_iter().enumerate().map(|(place, amount)| Set {
        load: load.clone(),
        amount,
        left: item.rir.filter(|_| place + 1 == last).map_or(String::new(), |rir| rir.to_string()),
        ..Set::default()
    });
    sets.collect()
}

/// The sets that are written down, and what the plan has beyond them.
fn written(done: &DoneItem, entry: &Entry, units: Units, planned: Vec<Set>) -> Vec<Set> {
    let sets = done.sets.iter().map(|set| Set {
        load: load_word(&set.load, entry, units),
        amount: amount_text(set),
        left: set.effort.map(left_text).unwrap_or_default(),
        is_done: true,
        is_more: false,
    });
    let rest = planned.into_iter().skip(done.sets.len());
    sets.chain(rest).collect()
}

/// A reserve as the plain number that the field asks for; other scales keep their sign.
fn left_text(effort: Effort) -> String {
    let text = effort_text(effort);
    text.strip_prefix('r').map(str::to_owned).unwrap_or(text)
}

/// The sets of a form.
fn typed(fields: &Fields, place: usize) -> Vec<Set> {
    let get =
        |what: &str, set: usize| fields.get(&format!("{what}.{place}.{set}")).map(str::to_owned);
    let sets = (1..=rows_in(fields, place)).map(|set| Set {
        load: get("load", set).unwrap_or_default(),
        amount: get("amount", set).unwrap_or_default(),
        left: get("left", set).unwrap_or_default(),
        is_done: get("done", set).is_some(),
        is_more: false,
    });
    sets.collect()
}
