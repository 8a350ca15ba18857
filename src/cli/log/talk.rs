//! Down the card: each line of the plan is asked for, and what was answered is kept at once.

use super::Day;
use super::target::Target;
use crate::book::done::DoneSession;
use crate::book::done::measure_of;
use crate::book::slot::{self, Slot};
use crate::book::written::{self, About, Sets};
use crate::book::{Asked, DoneItem};
use crate::cli::Failure;
use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::intake::Talk;
use crate::strength::ladder::mass_text;
use crate::words::Units;

const HELP: &str = "Enter: as planned, or as it stands. `42.5 8 8 7 r2`: load, each set, two left in reserve. `-`: left out. \
                    `<`: back one. `q`: stop here; what is there is kept and can be continued.";

/// What an answer says.
enum Answer {
    Keep,
    Back,
    Quit,
    Line(DoneItem),
}

/// Goes down the card of a session. `keep` writes what there is so far. Gives the session as it stands at the end.
pub(super) fn down_the_card(
    talk: &mut dyn Talk,
    day: &Day<'_>,
    target: &Target,
    slot: &Slot<'_>,
    before: Option<DoneSession>,
    keep: &mut dyn FnMut(&DoneSession) -> Result<(), Failure>,
) -> Result<DoneSession, Failure> {
    let note = before.as_ref().map(|before| before.note.clone());
    let mut session = day.of_items(target, Vec::new(), note.as_deref());
    session.items = before.map(|before| before.items).unwrap_or_default();
    talk.say(HELP);
    let planned = slot::work(slot.session);
    let mut at = 0;
    while let Some(item) = planned.get(at) {
        let Some(entry) = target.entries().get(&item.exercise) else {
            at += 1;
            continue;
        };
        let stands = session.items.iter().position(|done| done.exercise == item.exercise);
        let written = stands.map(|place| &session.items[place]);
        let answer = ask(talk, item, entry, written, target)?;
        match answer {
            Answer::Quit => return Ok(session),
            Answer::Back => at = at.saturating_sub(1),
            Answer::Keep => at += 1,
            Answer::Line(done) => {
                match stands {
                    Some(place) => session.items[place] = done,
                    None => session.items.push(done),
                }
                keep(&session)?;
                at += 1;
            }
        }
    }
    extras(talk, target, &planned, &mut session, keep)?;
    Ok(session)
}

fn ask(
    talk: &mut dyn Talk,
    item: &Item,
    entry: &Entry,
    written: Option<&DoneItem>,
    target: &Target,
) -> Result<Answer, Failure> {
    let units = target.units();
    let about = About {
        entry,
        planned: Some(item),
        units,
        lightest_kg: target.ladder(entry).map(|ladder| ladder.lightest()),
    };
    let usual = written
        .map_or_else(|| planned_text(item, units), |done| written::sets_text(done, entry, units));
    loop {
        let Some(typed) = talk.hear(&format!("{}  [{usual}]: ", entry.name)) else {
            return Ok(Answer::Quit);
        };
        let typed = typed.trim();
        match typed {
            "" if written.is_some() => return Ok(Answer::Keep),
            "q" => return Ok(Answer::Quit),
            "<" => return Ok(Answer::Back),
            "?" => {
                talk.say(HELP);
                continue;
            }
            _ => {}
        }
        let typed = if typed.is_empty() { "ok" } else { typed };
        match line(typed, &about) {
            Ok(done) => return Ok(Answer::Line(done)),
            Err(why) => talk.say(&format!("  {why}.")),
        }
    }
}

/// An answer as an item: its sets, and a note in brackets.
fn line(typed: &str, about: &About<'_>) -> Result<DoneItem, String> {
    let (typed, note) = match typed.strip_suffix(')').and_then(|rest| rest.split_once('(')) {
        Some((typed, note)) => (typed, note.trim().to_owned()),
        None => (typed, String::new()),
    };
    let words: Vec<&str> =
        typed.split_whitespace().map(|word| word.trim_end_matches(',')).collect();
    let words = if words.is_empty() { vec!["ok"] } else { words };
    let sets = match written::sets(&words, about) {
        Ok(Sets::Done(sets)) => sets,
        Ok(Sets::Skipped) => Vec::new(),
        Err(fault) => return Err(format!("{}: {}", fault.message, fault.help)),
    };
    let asked = about.planned.map(Asked::of);
    Ok(DoneItem { exercise: about.entry.id.clone(), asked, sets, note })
}

/// What was done beside the card.
fn extras(
    talk: &mut dyn Talk,
    target: &Target,
    planned: &[&Item],
    session: &mut DoneSession,
    keep: &mut dyn FnMut(&DoneSession) -> Result<(), Failure>,
) -> Result<(), Failure> {
    while let Some(typed) = talk.hear("Anything else that was done  [nothing]: ") {
        let typed = typed.trim();
        if typed.is_empty() || typed == "q" {
            return Ok(());
        }
        match super::lines(target, planned, typed) {
            Ok(items) => {
                for item in items {
                    let stands =
                        session.items.iter_mut().find(|done| done.exercise == item.exercise);
                    match stands {
                        // More sets of what was done before.
                        Some(done) => done.sets.extend(item.sets),
                        None => session.items.push(item),
                    }
                }
                keep(session)?;
            }
            Err(faults) => {
                for fault in faults.diagnostics {
                    talk.say(&format!("  {}: {}.", fault.message, fault.help));
                }
            }
        }
    }
    Ok(())
}

/// What the card asks for: `3 × 8 at 42.5 kg, 2 left`.
fn planned_text(item: &Item, units: Units) -> String {
    let asked = Asked::of(item);
    let load = item.load_kg.map_or(String::new(), |load| format!(" at {}", mass_text(load, units)));
    let left = asked.rir.map_or(String::new(), |rir| format!(", {rir} left"));
    let unit = match measure_of(item) {
        crate::words::Measure::Reps => "",
        crate::words::Measure::Seconds => " s",
        crate::words::Measure::Meters => " m",
        crate::words::Measure::Calories => " cal",
    };
    format!("{} × {}{unit}{load}{left}", asked.sets, asked.amount)
}
