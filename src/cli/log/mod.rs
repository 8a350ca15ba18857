//! `weekwright log`: what was done, into the book.

mod from;
mod talk;
pub(super) mod target;

use std::io::{self, IsTerminal as _};
use std::path::Path;

use jiff::civil::Date;

use super::args::book::LogArgs;
use super::book::{Book, Written, sessions};
use super::output::Console;
use super::render::paragraph;
use super::terminal::Terminal;
use super::{Exit, Failure, Faults, files, today};
use crate::book::slot::{self, Slot, Taken};
use crate::book::written::{self, Context};
use crate::book::{Asked, DoneItem, DoneSession, remarks, table};
use crate::diagnostic::{Diagnostic, Source, counted, quoted};
use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::words::Weekday;
use target::Target;

pub(super) fn run(arguments: &LogArgs, console: &Console) -> Result<Exit, Failure> {
    let today = today::today();
    let date = arguments.date.as_deref().map(|text| today::typed("--date", text)).transpose()?;
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let (target, mut book) =
        Target::of(&arguments.target, catalog, date, &arguments.book, console)?;
    let done = target.done(&book)?;
    let taken = target.plan.as_ref().map(|plan| slot::taken(&done, &plan.plan)).unwrap_or_default();
    let written = match (&arguments.lines, &arguments.from) {
        (Some(text), _) => vec![of_lines(&target, &taken, &Meant::by(arguments, date), text)?],
        (None, Some(path)) => of_table(&target, &taken, path, arguments, console)?,
        (None, None) => {
            let day = Day::of(&target, &taken, &Meant::by(arguments, date))?;
            return by_talk(&target, &mut book, &day, &done, console);
        }
    };
    for session in &written {
        tell(&oddities(session, &target, today), console);
    }
    let stood = write(&mut book, &target, &written, today)?;
    book.announce(console);
    for (session, stood) in written.iter().zip(&stood) {
        console.print(&told(&target, &book, session, stood))?;
    }
    Ok(Exit::Done)
}

/// Which session is meant.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meant<'a> {
    /// The day it was done; where none is told, that of the plan's week and day, else today.
    pub(super) date: Option<Date>,
    /// The plan's week.
    pub(super) week: Option<u32>,
    /// The plan's day: `mon`, or `mon@18:30`.
    pub(super) day: Option<&'a str>,
    /// A note on the session.
    pub(super) note: Option<&'a str>,
}

impl Meant<'_> {
    fn by(arguments: &LogArgs, date: Option<Date>) -> Meant<'_> {
        let (day, note) = (arguments.day.as_deref(), arguments.note.as_deref());
        Meant { date, week: arguments.week, day, note }
    }
}

/// A session from a line of text.
pub(super) fn of_lines(
    target: &Target,
    taken: &Taken,
    meant: &Meant<'_>,
    text: &str,
) -> Result<DoneSession, Failure> {
    let day = Day::of(target, taken, meant)?;
    let items: Vec<&Item> =
        day.candidates.iter().flat_map(|slot| slot::work(slot.session)).collect();
    let items = lines(target, &items, text)?;
    Ok(day.of_items(target, items, meant.note))
}

/// The exercises of a text, as far as the day's items are known.
fn lines(target: &Target, items: &[&Item], text: &str) -> Result<Vec<DoneItem>, Faults> {
    let source = Source::new("what was written", text);
    let lightest = |entry: &Entry| target.ladder(entry).map(|ladder| ladder.lightest());
    let context =
        Context { items, entries: target.entries(), units: target.units(), lightest_kg: &lightest };
    written::lines(&source, &context).map_err(|found| Faults::new(found, vec![source.clone()]))
}

/// The sessions of a table: all of it, or what is good of it.
fn of_table(
    target: &Target,
    taken: &Taken,
    path: &Path,
    arguments: &LogArgs,
    console: &Console,
) -> Result<Vec<DoneSession>, Failure> {
    let rows = from::rows(path)?;
    let context = table::Context {
        plan: target.plan.as_ref().map(|plan| &plan.plan),
        entries: target.entries(),
        units: target.units(),
        taken,
    };
    let (sessions, bad) = table::sessions(&rows, &context);
    if !bad.is_empty() && !arguments.what_is_good {
        console.remark("nothing was written; `--what-is-good` takes the good rows");
        return Err(from::faults(path, &bad, true).into());
    }
    console.report(&from::faults(path, &bad, false));
    if sessions.is_empty() {
        let fault = Diagnostic::error("E6010", "no row of the table is filled in")
            .help("fill in `load_done`, `done` and `rir_done`, such as 42.5, 8 8 7 and 2");
        return Err(Failure::Faults(fault.into()));
    }
    Ok(sessions)
}

/// A session from the answers in a terminal.
fn by_talk(
    target: &Target,
    book: &mut Book,
    day: &Day<'_>,
    done: &[DoneSession],
    console: &Console,
) -> Result<Exit, Failure> {
    if !io::stdin().is_terminal() || !io::stderr().is_terminal() {
        let fault = Diagnostic::error("E5001", "the card is gone through in a terminal").help(
            "write what was done behind the plan, as in `\"back-squat 42.5 8 8 7 r2; plank 45s\"`, or read a table with `--from`",
        );
        return Err(Failure::Faults(fault.into()));
    }
    let [slot] = day.candidates.as_slice() else {
        let fault = Diagnostic::error("E6008", "it is not clear which session is meant")
            .help(format!("name it with `--week` and `--day`: {}", days_of(target)));
        return Err(Failure::Faults(fault.into()));
    };
    let session = slot.session;
    let is_it = |one: &&DoneSession| {
        one.date == day.date
            && (one.week, one.day, &one.at) == (Some(slot.week), Some(session.day), &session.at)
    };
    let stood = done.iter().find(is_it).cloned();
    let today = today::today();
    let mut terminal = Terminal { console, draft: None };
    let mut keep = |session: &DoneSession| {
        write(book, target, std::slice::from_ref(session), today).map(|_| ())
    };
    let session = talk::down_the_card(&mut terminal, day, target, slot, stood, &mut keep)?;
    tell(&oddities(&session, target, today), console);
    book.announce(console);
    console.print(&told(target, book, &session, &Written::New))?;
    Ok(Exit::Done)
}

/// A day, and the sessions of the plan that could be meant by it.
struct Day<'a> {
    date: Date,
    candidates: Vec<Slot<'a>>,
    /// The calendar's week of the plan.
    week: Option<u32>,
}

impl<'a> Day<'a> {
    fn of(target: &'a Target, taken: &Taken, meant: &Meant<'_>) -> Result<Day<'a>, Failure> {
        let date = meant.date.unwrap_or_else(today::today);
        let day = meant.day.map(weekday).transpose()?;
        let Some(plan) = &target.plan else {
            return Ok(Day { date, candidates: Vec::new(), week: None });
        };
        let plan = &plan.plan;
        let day = day.as_ref().map(|(day, at)| (*day, at.as_deref()));
        let candidates = slot::candidates(plan, date, meant.week, day, taken).map_err(|none| {
            let fault = Diagnostic::error("E6008", none.to_string()).help(days_of(target));
            Failure::Faults(fault.into())
        })?;
        let week = meant.week.or_else(|| slot::week_of(plan, date).map(|week| week.week));
        let as_planned = match candidates.as_slice() {
            [slot] if meant.date.is_none() && meant.week.is_some() => slot.date,
            _ => None,
        };
        Ok(Day { date: as_planned.unwrap_or(date), candidates, week })
    }

    /// Items as a session of the plan: of several sessions that could be meant, the one that shares most.
    fn of_items(
        &self,
        target: &Target,
        mut items: Vec<DoneItem>,
        note: Option<&str>,
    ) -> DoneSession {
        let ids: Vec<&str> = items.iter().map(|item| item.exercise.as_str()).collect();
        let only = (self.candidates.len() == 1).then(|| self.candidates[0]);
        let slot = slot::best(&self.candidates, &ids).or(only);
        let planned = slot.map(|slot| slot::work(slot.session)).unwrap_or_default();
        for item in &mut items {
            let asked = planned.iter().find(|planned| planned.exercise == item.exercise);
            item.asked = asked.map(|asked| Asked::of(asked));
        }
        DoneSession {
            date: self.date,
            at: slot.and_then(|slot| slot.session.at.clone()),
            week: slot.map(|slot| slot.week).or(self.week),
            day: slot.map(|slot| slot.session.day),
            is_light: slot.is_some_and(|slot| slot.is_light),
            course: target.plan.as_ref().map(|plan| slot::course(&plan.plan)).unwrap_or_default(),
            items,
            note: note.unwrap_or_default().to_owned(),
        }
    }
}

/// `mon`, or `mon@18:30`.
fn weekday(text: &str) -> Result<(Weekday, Option<String>), Failure> {
    let (day, at) = text.split_once('@').map_or((text, None), |(day, at)| (day, Some(at)));
    let day = day.to_lowercase().parse().map_err(|_| {
        let fault = Diagnostic::error("E2002", format!("there is no day {}", quoted(text)))
            .help("write it like `--day mon`, or `--day mon@18:30` where a day has two sessions");
        Failure::Faults(fault.into())
    })?;
    Ok((day, at.map(str::to_owned)))
}

fn days_of(target: &Target) -> String {
    let Some(plan) = &target.plan else { return "name a plan".to_owned() };
    let mut days: Vec<String> = plan.plan.sessions.iter().map(|one| one.day.to_string()).collect();
    days.dedup();
    let weeks = plan.plan.weeks.len().max(1);
    format!("the plan has {} and {}", counted(weeks, "week", "weeks"), days.join(", "))
}

/// What is odd about a session and kept as it was written.
pub(super) fn oddities(session: &DoneSession, target: &Target, today: Date) -> Vec<String> {
    let ladder = |entry: &Entry| target.ladder(entry);
    let mut told = remarks::remarks(session, target.entries(), &ladder, target.units());
    let date = session.date;
    let span = target.plan.as_ref().and_then(|plan| slot::span(&plan.plan));
    let outside = span.filter(|(first, last)| !(*first..=*last).contains(&date));
    if let Some((first, last)) = outside {
        told.insert(
            0,
            format!("{date} lies outside the plan, {first} to {last}: taken without it"),
        );
    } else if let Some(day) = session.day.filter(|day| *day != slot::weekday(date)) {
        told.insert(0, format!("taken as the session of {}, done on {date}", day.name()));
    }
    if date > today {
        told.insert(0, format!("{date} lies in the future: taken as written"));
    }
    told
}

fn tell(remarks: &[String], console: &Console) {
    for remark in remarks {
        console.remark(&paragraph(remark, console.width()));
    }
}

/// Files the plan and writes the sessions, in one change.
pub(super) fn write(
    book: &mut Book,
    target: &Target,
    sessions: &[DoneSession],
    today: Date,
) -> Result<Vec<Written>, Failure> {
    let plan = target.plan.as_ref();
    let plan = plan.map(|plan| (&plan.plan, plan.name.as_str(), plan.text.as_str()));
    book.change(|transaction| {
        let (client, plan) = target::file_plan(transaction, &target.client, plan, today)?;
        sessions.iter().map(|session| sessions::write(transaction, client, plan, session)).collect()
    })
}

/// What was written, in two lines.
fn told(target: &Target, book: &Book, session: &DoneSession, written: &Written) -> String {
    let sets: usize = session.items.iter().map(|item| item.sets.len()).sum();
    let done = session.items.iter().filter(|item| !item.sets.is_empty()).count();
    let week = session.week.map_or(String::new(), |week| format!(", week {week}"));
    let day = slot::weekday(session.date).name();
    let head = format!(
        "{}, {day} {}{week}: {} with {} written to {}\n",
        target.client,
        session.date,
        counted(done, "exercise", "exercises"),
        counted(sets, "set", "sets"),
        book.path().display()
    );
    match written {
        Written::New => head,
        Written::Instead(before) => {
            format!("{head}It takes the place of what stood there: {}\n", before.join(", "))
        }
    }
}
