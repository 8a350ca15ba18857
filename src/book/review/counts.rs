//! Sessions, sets and work, counted.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::{About, name};
use crate::book::done::{DoneItem, DoneSession, kilograms};
use crate::book::slot;
use crate::input::catalog::Entry;
use crate::words::{Measure, Muscle, Pattern, Weekday};

/// Sessions done of those planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SessionCount {
    /// Planned in the span.
    pub planned: usize,
    /// Of these, done.
    pub done: usize,
    /// Done beside the plan.
    pub extra: usize,
}

/// How often a weekday's session was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct DayCount {
    /// The weekday.
    pub day: Weekday,
    /// Its sessions in the span.
    pub planned: usize,
    /// Of these, done.
    pub done: usize,
}

impl DayCount {
    /// Whether it was missed more often than not, and not just once or twice. Common practice.
    #[must_use]
    pub const fn is_missed(self) -> bool {
        const TIMES: usize = 3;
        let missed = self.planned - self.done;
        missed >= TIMES && missed * 2 > self.planned
    }
}

/// A muscle's weekly sets.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MuscleDone {
    /// The muscle.
    pub muscle: Muscle,
    /// Fractional sets a week, direct 1 and indirect a half.
    pub sets: f64,
    /// Low end of its range.
    pub low: Option<f64>,
    /// High end of its range.
    pub high: Option<f64>,
}

/// A week's work.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeekWork {
    /// Its first day.
    pub from: String,
    /// Sessions.
    pub sessions: usize,
    /// Sets.
    pub sets: usize,
    /// Load times repetitions, as written, in kilograms.
    pub kilograms: f64,
}

impl Skipped {
    /// Whether it was left out more often than not, and not just once or twice. Common practice.
    #[must_use]
    pub const fn is_shunned(&self) -> bool {
        const TIMES: usize = 3;
        self.times >= TIMES && self.times * 2 > self.of
    }
}

/// An exercise that was left out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Skipped {
    /// Its id.
    pub exercise: String,
    /// Its name.
    pub name: String,
    /// How often it was left out of a session that was done.
    pub times: usize,
    /// How often it was planned in one.
    pub of: usize,
}

/// A session as planned: its day, and its exercises.
pub(super) struct PlannedSession {
    pub(super) date: Date,
    pub(super) week: u32,
    pub(super) day: Weekday,
    pub(super) at: Option<String>,
    pub(super) exercises: Vec<String>,
}

/// The sessions that were planned in the span; of two plans for one day the later one holds.
pub(super) struct Planned {
    pub(super) sessions: Vec<PlannedSession>,
}

impl Planned {
    pub(super) fn of(about: &About<'_>) -> Planned {
        let mut by_date: BTreeMap<(Date, usize), (usize, PlannedSession)> = BTreeMap::new();
        for (place, plan) in about.plans.iter().enumerate() {
            if let Some((first, last)) = slot::span(plan) {
                by_date.retain(|(date, _), _| !(first..=last).contains(date));
            }
            for (number, slot) in slot::slots(plan).into_iter().enumerate() {
                let Some(date) = slot.date.filter(|date| (about.from..=about.to).contains(date))
                else {
                    continue;
                };
                let items = slot::work(slot.session);
                let exercises = items.iter().map(|item| item.exercise.clone());
                let planned = PlannedSession {
                    date,
                    week: slot.week,
                    day: slot.session.day,
                    at: slot.session.at.clone(),
                    exercises: exercises.collect(),
                };
                by_date.insert((date, number), (place, planned));
            }
        }
        Planned { sessions: by_date.into_values().map(|(_, session)| session).collect() }
    }

    /// The planned session that a done one was.
    pub(super) fn meant(&self, done: &DoneSession) -> Option<&PlannedSession> {
        self.sessions.iter().find(|planned| {
            Some(planned.week) == done.week
                && Some(planned.day) == done.day
                && planned.at == done.at
                && (planned.date - done.date).get_days().abs() < 7
        })
    }

    pub(super) fn is_done(&self, planned: &PlannedSession, done: &[DoneSession]) -> bool {
        done.iter().any(|one| self.meant(one).is_some_and(|meant| std::ptr::eq(meant, planned)))
    }

    pub(super) fn count(&self, done: &[DoneSession]) -> SessionCount {
        let of_plan = self.sessions.iter().filter(|planned| self.is_done(planned, done)).count();
        let extra = done.iter().filter(|one| self.meant(one).is_none()).count();
        SessionCount { planned: self.sessions.len(), done: of_plan, extra }
    }

    /// Each weekday that has sessions.
    pub(super) fn days(&self, done: &[DoneSession]) -> Vec<DayCount> {
        let of = |day: &Weekday| {
            let of_day = || self.sessions.iter().filter(|one| one.day == *day);
            let done = of_day().filter(|one| self.is_done(one, done)).count();
            DayCount { day: *day, planned: of_day().count(), done }
        };
        Weekday::ALL.iter().map(of).filter(|one| one.planned > 0).collect()
    }

    /// What was left out of sessions that were done, most often first.
    pub(super) fn skipped(
        &self,
        done: &[DoneSession],
        entries: &BTreeMap<String, Entry>,
    ) -> Vec<Skipped> {
        let mut counts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
        for (session, planned) in done.iter().filter_map(|one| Some((one, self.meant(one)?))) {
            for id in &planned.exercises {
                let is_done = |item: &DoneItem| item.exercise == *id && !item.sets.is_empty();
                let count = counts.entry(id).or_default();
                count.0 += usize::from(!session.items.iter().any(is_done));
                count.1 += 1;
            }
        }
        let mut skipped: Vec<Skipped> = counts
            .into_iter()
            .filter(|(_, (times, _))| *times > 0)
            .map(|(id, (times, of))| Skipped {
                exercise: id.to_owned(),
                name: name(entries, id),
                times,
                of,
            })
            .collect();
        skipped.sort_by(|one, other| {
            other.times.cmp(&one.times).then(one.exercise.cmp(&other.exercise))
        });
        skipped
    }
}

/// Weeks of the span, at least one.
pub(super) fn weeks(about: &About<'_>) -> i32 {
    ((about.to - about.from).get_days() / 7 + 1).max(1)
}

/// Weekly sets of every muscle that has some or a range.
pub(super) fn muscles(about: &About<'_>, sessions: &[DoneSession]) -> Vec<MuscleDone> {
    let mut halves: BTreeMap<Muscle, u32> = BTreeMap::new();
    for item in sessions.iter().flat_map(|session| &session.items) {
        let Some(entry) = about.entries.get(&item.exercise) else { continue };
        if !entry.pattern.is_some_and(Pattern::gives_volume) {
            continue;
        }
        let sets = item.sets.iter().filter(|set| set.amount > 0).count();
        let sets = u32::try_from(sets).unwrap_or(0);
        for (muscles, share) in [(&entry.direct, 2), (&entry.indirect, 1)] {
            for muscle in muscles {
                *halves.entry(*muscle).or_default() += sets * share;
            }
        }
    }
    let ranges = about.plans.last().map(|plan| plan.volume.as_slice()).unwrap_or_default();
    let weeks = f64::from(weeks(about));
    Muscle::ALL
        .iter()
        .filter_map(|muscle| {
            let range = ranges.iter().find(|line| line.muscle == *muscle);
            let (low, high) = range.map_or((None, None), |line| (line.low, line.high));
            let sets = halves.get(muscle).copied();
            (sets.is_some() || low.is_some()).then(|| MuscleDone {
                muscle: *muscle,
                sets: (f64::from(sets.unwrap_or(0)) / 2.0 / weeks * 10.0).round() / 10.0,
                low,
                high,
            })
        })
        .collect()
}

/// Sessions, sets and kilograms of every week of the span.
pub(super) fn work(about: &About<'_>, sessions: &[DoneSession]) -> Vec<WeekWork> {
    (0..weeks(about))
        .filter_map(|week| {
            let from = about.from.checked_add((7 * i64::from(week)).days()).ok()?;
            let to = from.checked_add(7.days()).ok()?;
            let of_week = || sessions.iter().filter(|one| one.date >= from && one.date < to);
            let sets = || of_week().flat_map(|one| &one.items).flat_map(|item| &item.sets);
            let kilograms = sets()
                .filter(|set| set.measure == Measure::Reps)
                .map(|set| kilograms(set.load.grams().unwrap_or(0)) * f64::from(set.amount))
                .sum::<f64>();
            Some(WeekWork {
                from: from.to_string(),
                sessions: of_week().count(),
                sets: sets().count(),
                // The sum of nothing is -0.
                kilograms: kilograms.round().abs(),
            })
        })
        .collect()
}
