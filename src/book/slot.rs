//! The session of a plan that a date or a day means.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::Date;

use super::done::DoneSession;
use crate::input::clock;
use crate::input::plan::{Item, Plan, Session, Week};
use crate::words::{WeekKind, Weekday};

/// A session of a plan, with its week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slot<'a> {
    /// The week's number, from 1.
    pub week: u32,
    /// Whether nothing is raised from it.
    pub is_light: bool,
    /// Its day on the calendar, where the plan has dates.
    pub date: Option<Date>,
    /// What is planned.
    pub session: &'a Session,
}

/// What is written down of a plan: week, day and hour of each session.
pub type Taken = BTreeSet<(u32, Weekday, Option<String>)>;

/// Why no session of a plan is meant.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoSlot {
    /// The plan has no such week.
    #[error("the plan has no week {0}")]
    Week(u32),
    /// The plan has no session on that day.
    #[error("the plan has no session on {0}")]
    Day(String),
}

/// Every session of a plan in its order. A plan without weeks has one, at its fullest.
#[must_use]
pub fn slots(plan: &Plan) -> Vec<Slot<'_>> {
    if plan.weeks.is_empty() {
        let slot = |session| Slot { week: 1, is_light: false, date: None, session };
        return plan.sessions.iter().map(slot).collect();
    }
    plan.weeks.iter().flat_map(slots_of_week).collect()
}

fn slots_of_week(week: &Week) -> impl Iterator<Item = Slot<'_>> {
    let first = week.date.as_deref().and_then(clock::date);
    let is_light = is_light(week);
    week.sessions.iter().map(move |session| Slot {
        week: week.week,
        is_light,
        date: first.and_then(|first| day_in_week(first, session.day)),
        session,
    })
}

/// The sessions that could be meant by a date, or by a week and a day of the plan. None where the date lies outside the
/// plan, several where the plan has none on that weekday.
///
/// # Errors
/// A week or a day that the plan does not have.
pub fn candidates<'a>(
    plan: &'a Plan,
    date: Date,
    week: Option<u32>,
    day: Option<(Weekday, Option<&str>)>,
    taken: &Taken,
) -> Result<Vec<Slot<'a>>, NoSlot> {
    let mut slots = slots(plan);
    let is_taken =
        |slot: &Slot<'_>| taken.contains(&(slot.week, slot.session.day, slot.session.at.clone()));
    if plan.weeks.is_empty() {
        slots.iter_mut().for_each(|slot| slot.week = week.unwrap_or_else(|| nth(slot, taken)));
    } else if let Some(week) = week {
        slots.retain(|slot| slot.week == week);
        if slots.is_empty() {
            return Err(NoSlot::Week(week));
        }
    } else if span(plan).is_some() {
        let week = week_of(plan, date).map(|week| week.week);
        slots.retain(|slot| Some(slot.week) == week);
    } else {
        slots.retain(|slot| !is_taken(slot));
        let first = |slot: &Slot<'_>| (slot.session.day, slot.session.at.clone());
        let mut seen = BTreeSet::new();
        slots.retain(|slot| seen.insert(first(slot)));
    }
    if let Some((day, at)) = day {
        let is_meant = |slot: &Slot<'_>| {
            slot.session.day == day && at.is_none_or(|at| slot.session.at.as_deref() == Some(at))
        };
        let none = slots.is_empty();
        slots.retain(is_meant);
        return if slots.is_empty() && !none {
            Err(NoSlot::Day(day.name().to_owned()))
        } else {
            Ok(slots)
        };
    }
    let today: Vec<Slot<'a>> =
        slots.iter().copied().filter(|slot| slot.session.day == weekday(date)).collect();
    if !today.is_empty() {
        return Ok(today);
    }
    slots.retain(|slot| !is_taken(slot));
    Ok(slots)
}

/// Which time a session of a plan without weeks comes next.
fn nth(slot: &Slot<'_>, taken: &Taken) -> u32 {
    let same = |(_, day, at): &&(u32, Weekday, Option<String>)| {
        *day == slot.session.day && *at == slot.session.at
    };
    taken.iter().filter(same).map(|(week, ..)| *week).max().unwrap_or(0) + 1
}

/// The candidate that has most of the exercises; of equals the first. None where none has any.
#[must_use]
pub fn best<'a>(candidates: &[Slot<'a>], exercises: &[&str]) -> Option<Slot<'a>> {
    let shared = |slot: &Slot<'_>| {
        let items = work(slot.session);
        items.iter().filter(|item| exercises.contains(&item.exercise.as_str())).count()
    };
    let most = candidates.iter().map(shared).max().filter(|most| *most > 0)?;
    candidates.iter().copied().find(|slot| shared(slot) == most)
}

/// What plans of one course share: those that `next` makes come from the same profile and seed as the first.
#[must_use]
pub fn course(plan: &Plan) -> String {
    if let Some(inputs) = &plan.inputs {
        return format!("{}/{}", inputs.profile_sha256, plan.seed);
    }
    let line = |session: &Session| {
        let ids: Vec<&str> = work(session).iter().map(|item| item.exercise.as_str()).collect();
        format!("{} {}\n", session.day, ids.join(" "))
    };
    crate::catalog::sha256(plan.sessions.iter().map(line).collect::<String>().as_bytes())
}

/// Whether a session belongs to a plan: by its date, or where the plan has no dates by the course.
#[must_use]
pub fn belongs(session: &DoneSession, plan: &Plan) -> bool {
    match span(plan) {
        Some((first, last)) => (first..=last).contains(&session.date),
        None => session.course == course(plan),
    }
}

/// What is written down of a plan.
#[must_use]
pub fn taken(done: &[DoneSession], plan: &Plan) -> Taken {
    let of_plan = done.iter().filter(|session| belongs(session, plan));
    of_plan.filter_map(|session| Some((session.week?, session.day?, session.at.clone()))).collect()
}

/// Whether a week is an easier one, from which nothing is raised. A beginner's first week is not: its sets are few, and its
/// loads are being found.
#[must_use]
pub fn is_light(week: &Week) -> bool {
    week.kind == WeekKind::Easy
}

/// The weekday's date in the seven days from `first` on.
#[must_use]
pub fn day_in_week(first: Date, day: Weekday) -> Option<Date> {
    (0..7)
        .filter_map(|ahead: i64| first.checked_add(ahead.days()).ok())
        .find(|date| weekday(*date) == day)
}

/// The weekday of a date.
#[must_use]
pub fn weekday(date: Date) -> Weekday {
    let place = usize::try_from(date.weekday().to_monday_zero_offset()).unwrap_or(0);
    Weekday::ALL[place]
}

/// The working items of a session, in the order they are done.
#[must_use]
pub fn work(session: &Session) -> Vec<&Item> {
    session.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items).collect()
}

/// The week that a date lies in, by the dates of a plan.
#[must_use]
pub fn week_of(plan: &Plan, date: Date) -> Option<&Week> {
    plan.weeks.iter().find(|week| {
        let first = week.date.as_deref().and_then(clock::date);
        first.is_some_and(|first| {
            let last = first.checked_add(6.days()).unwrap_or(first);
            (first..=last).contains(&date)
        })
    })
}

/// The first and the last day of a plan, where it has dates.
#[must_use]
pub fn span(plan: &Plan) -> Option<(Date, Date)> {
    let dates = plan.weeks.iter().filter_map(|week| week.date.as_deref().and_then(clock::date));
    let first = dates.clone().min()?;
    Some((first, dates.max()?.checked_add(6.days()).ok()?))
}
