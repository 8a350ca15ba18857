//! Which session of a plan is written down.

use jiff::Span;
use jiff::civil::Date;

use crate::book::slot::{self, Slot};
use crate::book::{DoneSession, slot::Taken};
use crate::input::plan::{Plan, Session};
use crate::page::fields::Fields;
use crate::sheets::{head, phrase};

/// How far back the next session to write down is looked for.
const LATE_DAYS: i64 = 6;

/// A session of a plan.
pub(super) struct Which<'a> {
    pub(super) week: u32,
    pub(super) session: &'a Session,
    /// What it is called.
    pub(super) name: String,
    /// The day that it was most likely done.
    pub(super) date: Date,
    /// Every session that could be meant.
    pub(super) all: Vec<Choice>,
}

/// A session that could be meant.
pub(super) struct Choice {
    pub(super) week: u32,
    pub(super) name: String,
    pub(super) label: String,
    pub(super) date: Option<Date>,
    pub(super) is_written: bool,
}

impl<'a> Which<'a> {
    /// The session that an address or a form names; without one that of today, else the last one that was not written
    /// down, else the first. None where the plan has no such session.
    pub(super) fn asked(
        plan: &'a Plan,
        done: &[DoneSession],
        today: Date,
        fields: &Fields,
    ) -> Option<Which<'a>> {
        let taken = slot::taken(done, plan);
        let slots = slots(plan, &taken);
        let slot = match (fields.get("week"), fields.get("day")) {
            (Some(week), Some(day)) => {
                let week: u32 = week.parse().ok()?;
                let of_week = || slots.iter().filter(|slot| slot.week == week);
                let named = of_week().find(|slot| label(slot.session) == day);
                named.or_else(|| of_week().find(|slot| slot.session.day.id() == day))?
            }
            _ => usual(&slots, &taken, today)?,
        };
        let is_running =
            slot::span(plan).is_some_and(|(first, last)| (first..=last).contains(&today));
        let planned = slot.date.unwrap_or(today);
        let (week, session) = (slot.week, slot.session);
        let choice = |slot: &Slot<'_>| Choice {
            week: slot.week,
            name: name(plan, slot.session),
            label: label(slot.session),
            date: slot.date,
            is_written: is_taken(slot, &taken),
        };
        let all = slots.iter().map(choice).collect();
        // Nobody trains tomorrow.
        Some(Which {
            week,
            session,
            name: name(plan, session),
            date: if is_running { planned.min(today) } else { planned },
            all,
        })
    }

    /// `mon`, or `mon@18:30`.
    pub(super) fn label(&self) -> String {
        label(self.session)
    }

    /// Whether a session that was done is this one.
    pub(super) fn is_of(&self, done: &DoneSession) -> bool {
        done.week == Some(self.week)
            && done.day == Some(self.session.day)
            && done.at == self.session.at
    }
}

/// `Monday`, with its hour where that day has another session too.
fn name(plan: &Plan, session: &Session) -> String {
    let same = plan.sessions.iter().filter(|one| one.day == session.day).count();
    let at = session.at.as_deref().and_then(phrase::clock).filter(|_| same > 1);
    let at = at.map(|at| format!(" {}", phrase::clock_text(at, head::clock(plan))));
    format!("{}{}", session.day.name(), at.unwrap_or_default())
}

fn label(session: &Session) -> String {
    match &session.at {
        Some(at) => format!("{}@{at}", session.day.id()),
        None => session.day.id().to_owned(),
    }
}

/// Every session of a plan; one without weeks comes again, once more than it is written down.
fn slots<'a>(plan: &'a Plan, taken: &Taken) -> Vec<Slot<'a>> {
    let slots = slot::slots(plan);
    if !plan.weeks.is_empty() {
        return slots;
    }
    let last = taken.iter().map(|(week, ..)| *week).max().unwrap_or(0) + 1;
    (1..=last).flat_map(|week| slots.iter().map(move |slot| Slot { week, ..*slot })).collect()
}

fn is_taken(slot: &Slot<'_>, taken: &Taken) -> bool {
    taken.contains(&(slot.week, slot.session.day, slot.session.at.clone()))
}

fn usual<'b, 'a>(slots: &'b [Slot<'a>], taken: &Taken, today: Date) -> Option<&'b Slot<'a>> {
    let open = || slots.iter().filter(|slot| !is_taken(slot, taken));
    let late = today.checked_sub(Span::new().days(LATE_DAYS)).unwrap_or(today);
    let lately = open().rfind(|slot| slot.date.is_some_and(|date| (late..today).contains(&date)));
    slots
        .iter()
        .find(|slot| slot.date == Some(today))
        .or(lately)
        .or_else(|| open().next())
        .or(slots.last())
}
