//! Missed weeks: what was missed comes next, on the days of the coming week, and the course ends so much later.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::book::done::DoneSession;
use crate::input::clock;
use crate::input::plan::{Plan, Week};

/// The weeks of a plan as the calendar now has them, and what is to say about it.
pub(super) fn weeks(
    plan: &Plan,
    done: &[DoneSession],
    as_of: Date,
    remarks: &mut Vec<String>,
) -> Vec<Week> {
    let Some(first) = plan.weeks.first().and_then(date) else { return plan.weeks.clone() };
    let begun = done.iter().filter_map(|session| session.week).min();
    let mut weeks = Vec::new();
    let mut missed: Vec<u32> = Vec::new();
    for place in 0_usize.. {
        let Some(brought) = place.checked_sub(missed.len()).and_then(|at| plan.weeks.get(at))
        else {
            break;
        };
        let number = u32::try_from(place + 1).unwrap_or(u32::MAX);
        let begins = first.checked_add((7 * i64::from(number - 1)).days()).unwrap_or(Date::MAX);
        let is_past = begins.checked_add(7.days()).is_ok_and(|end| end <= as_of);
        let own = plan.weeks.get(place).filter(|own| is_past || is_begun(own, done));
        let Some(own) = own else {
            weeks.push(brought_to(brought, number, begins, missed.last().copied(), weeks.last()));
            continue;
        };
        weeks.push(own.clone());
        let next = plan.weeks.get(place + 1);
        let has_moved = next.is_some_and(|next| origin(next) == origin(own));
        let after_the_start = begun.is_some_and(|begun| own.week >= begun);
        if is_past && after_the_start && !has_moved && is_missed(own, done) {
            missed.push(own.week);
        }
    }
    if !missed.is_empty() {
        remarks.push(told(&missed));
    }
    weeks
}

fn date(week: &Week) -> Option<Date> {
    week.date.as_deref().and_then(clock::date)
}

/// The week of the course that a week brings.
fn origin(week: &Week) -> u32 {
    week.repeats.unwrap_or(week.week)
}

fn done_of(week: &Week, done: &[DoneSession]) -> usize {
    done.iter().filter(|session| session.week == Some(week.week)).count()
}

fn is_begun(week: &Week, done: &[DoneSession]) -> bool {
    done_of(week, done) > 0
}

/// A week with fewer than half of its sessions is done again; else what was missed in it stays out. Common practice.
fn is_missed(week: &Week, done: &[DoneSession]) -> bool {
    done_of(week, done) * 2 < week.sessions.len()
}

/// A week of the course on another week of the calendar.
fn brought_to(
    brought: &Week,
    number: u32,
    begins: Date,
    missed: Option<u32>,
    before: Option<&Week>,
) -> Week {
    if brought.week == number {
        return brought.clone();
    }
    let origin = origin(brought);
    let is_first = before.is_none_or(|before| before.week == missed.unwrap_or(0));
    let note = match (missed.filter(|_| is_first), &brought.note) {
        (Some(missed), note) => {
            let was = format!("Week {missed} was missed: its sessions come now.");
            Some(note.as_ref().map_or(was.clone(), |note| format!("{was} {note}")))
        }
        (None, note) => note.clone(),
    };
    Week {
        week: number,
        date: Some(begins.to_string()),
        repeats: Some(origin),
        note,
        ..brought.clone()
    }
}

fn told(missed: &[u32]) -> String {
    let count = missed.len();
    let which: Vec<String> = missed.iter().map(u32::to_string).collect();
    let (weeks, later) = match count {
        1 => ("week", "a week".to_owned()),
        _ => ("weeks", format!("{count} weeks")),
    };
    format!(
        "fewer than half of the sessions of {weeks} {} were done: what was missed comes next, on the days of the coming \
         week, and the course ends {later} later",
        which.join(", ")
    )
}
