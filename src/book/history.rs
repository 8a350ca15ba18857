//! What was done of one exercise, session by session.

use jiff::civil::Date;

use super::done::{Asked, DoneItem, DoneSession, Load};
use crate::words::{Measure, Weekday};

/// One exercise in one session, at the load of most of its sets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Performance {
    /// The day.
    pub date: Date,
    /// The plan's week.
    pub week: Option<u32>,
    /// The plan's day.
    pub day: Option<Weekday>,
    /// Whether the plan's week was an easier one.
    pub is_light: bool,
    /// What was lifted.
    pub load: Load,
    /// What the sets count.
    pub measure: Measure,
    /// Each set at that load.
    pub amounts: Vec<u32>,
    /// Repetitions left in reserve after the last of them, where it was told.
    pub reserve: Option<u32>,
    /// What the plan asked for.
    pub asked: Option<Asked>,
}

impl Performance {
    /// The last set at the load.
    #[must_use]
    pub fn last(&self) -> u32 {
        self.amounts.last().copied().unwrap_or(0)
    }

    /// The least of the sets at the load.
    #[must_use]
    pub fn least(&self) -> u32 {
        self.amounts.iter().copied().min().unwrap_or(0)
    }

    /// The most of the sets at the load.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.amounts.iter().copied().max().unwrap_or(0)
    }

    /// Of a done item; `None` where it has no sets.
    #[must_use]
    pub fn of(session: &DoneSession, item: &DoneItem) -> Option<Performance> {
        let load = working_load(item)?;
        let at_load = || item.sets.iter().filter(|set| set.load == load);
        Some(Performance {
            date: session.date,
            week: session.week,
            day: session.day,
            is_light: session.is_light,
            measure: at_load().next()?.measure,
            amounts: at_load().map(super::DoneSet::both).collect(),
            reserve: at_load().next_back()?.effort.and_then(super::Effort::reserve),
            load,
            asked: item.asked,
        })
    }
}

/// The load of most sets, of equals the heavier one.
fn working_load(item: &DoneItem) -> Option<Load> {
    let count = |load: &Load| item.sets.iter().filter(|set| set.load == *load).count();
    item.sets.iter().map(|set| &set.load).max_by_key(|load| (count(load), *load)).cloned()
}

/// Every performance of an exercise, oldest first.
#[must_use]
pub fn of(exercise: &str, sessions: &[DoneSession]) -> Vec<Performance> {
    let of_session = |session: &DoneSession| -> Option<Performance> {
        let item = session.items.iter().find(|item| item.exercise == exercise)?;
        Performance::of(session, item)
    };
    let mut found: Vec<Performance> = sessions.iter().filter_map(of_session).collect();
    found.sort_by_key(|performance| performance.date);
    found
}
