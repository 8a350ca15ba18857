//! The main lifts: the estimated most for one over time, and whether it rises beyond its noise.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use super::{About, name};
use crate::book::coming::maximum;
use crate::book::done::{DoneSession, kilograms};
use crate::book::history::{self, Performance};
use crate::book::slope::theil_sen;
use crate::strength::estimate::MOST_REPS;

/// Lifts that are shown.
const SHOWN: usize = 6;
/// Sessions and days that a trend needs. Common practice.
const LEAST_SESSIONS: usize = 4;
const LEAST_DAYS: i32 = 14;

/// A main lift.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LiftTrend {
    /// Its id.
    pub exercise: String,
    /// Its name.
    pub name: String,
    /// The estimate of each session.
    pub points: Vec<Point>,
    /// Whether it rises, holds or falls beyond its noise.
    pub trend: Trend,
    /// Kilograms a week, with the interval that holds it with 95 % (Theil 1950, Sen 1968).
    pub slope: Option<[f64; 3]>,
    /// The best set: load in kilograms and repetitions.
    pub best: Option<Best>,
}

/// A session's estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Point {
    /// The day.
    pub date: String,
    /// Days from the first day of the span.
    pub days: i32,
    /// The most for one in kilograms.
    pub kilograms: f64,
    /// The lowest and the highest of seven equations.
    pub range: [f64; 2],
    /// Whether it stands on more than ten repetitions (RM-10).
    pub rough: bool,
}

/// Where a lift goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trend {
    /// The interval of its slope lies above nought.
    Rises,
    /// It holds nought.
    Holds,
    /// It lies under nought.
    Falls,
    /// Too few sessions, or too near one another.
    TooFew,
}

/// A best set.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Best {
    /// The day.
    pub date: String,
    /// The load in kilograms.
    pub load_kg: f64,
    /// Repetitions.
    pub reps: u32,
}

/// The main lifts of the span, those done most often first.
pub(super) fn lifts(about: &About<'_>, sessions: &[DoneSession]) -> Vec<LiftTrend> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for item in sessions.iter().flat_map(|session| &session.items) {
        if about.entries.get(&item.exercise).is_some_and(|entry| entry.main)
            && !item.sets.is_empty()
        {
            *counts.entry(&item.exercise).or_default() += 1;
        }
    }
    let mut ids: Vec<(&str, usize)> = counts.into_iter().collect();
    ids.sort_by(|one, other| other.1.cmp(&one.1).then(one.0.cmp(other.0)));
    ids.truncate(SHOWN);
    ids.into_iter().map(|(id, _)| lift(about, sessions, id)).collect()
}

fn lift(about: &About<'_>, sessions: &[DoneSession], id: &str) -> LiftTrend {
    let done = history::of(id, sessions);
    let points: Vec<Point> = done.iter().filter_map(|one| point(one, about.from)).collect();
    let line = theil_sen(
        &points.iter().map(|point| (f64::from(point.days), point.kilograms)).collect::<Vec<_>>(),
    );
    let span = points.first().zip(points.last()).map_or(0, |(first, last)| last.days - first.days);
    let line = line.filter(|_| points.len() >= LEAST_SESSIONS && span >= LEAST_DAYS);
    let trend = match line {
        None => Trend::TooFew,
        Some(line) if line.low > 0.0 => Trend::Rises,
        Some(line) if line.high < 0.0 => Trend::Falls,
        Some(_) => Trend::Holds,
    };
    let weekly = |slope: f64| (slope * 7.0 * 100.0).round() / 100.0;
    LiftTrend {
        exercise: id.to_owned(),
        name: name(about.entries, id),
        trend,
        slope: line.map(|line| [line.slope, line.low, line.high].map(weekly)),
        best: best(&done),
        points,
    }
}

fn point(done: &Performance, from: Date) -> Option<Point> {
    let estimate = maximum(done, MOST_REPS)?;
    let tenths = |load: f64| (load * 10.0).round() / 10.0;
    Some(Point {
        date: done.date.to_string(),
        days: (done.date - from).get_days(),
        kilograms: tenths(estimate.one_rep_max),
        range: [tenths(estimate.low), tenths(estimate.high)],
        rough: estimate.is_rough(),
    })
}

/// The heaviest set, of equals the one with most repetitions, of these the first.
fn best(done: &[Performance]) -> Option<Best> {
    let mut best: Option<(u32, u32, Date)> = None;
    for one in done {
        let Some(load) = one.load.grams() else { continue };
        let set = (load, one.most(), one.date);
        if best.is_none_or(|before| (set.0, set.1) > (before.0, before.1)) {
            best = Some(set);
        }
    }
    best.map(|(load, reps, date)| Best { date: date.to_string(), load_kg: kilograms(load), reps })
}
