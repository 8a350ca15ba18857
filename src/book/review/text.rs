//! The review for a terminal: plain lines, with small charts where there is a course.

use std::fmt::Write as _;

use super::{LiftTrend, Review, Trend, WeekWork};
use crate::diagnostic::counted;
use crate::strength::ladder::{KG_PER_LB, mass_text};
use crate::words::Units;

/// Columns of a small chart.
const COLUMNS: usize = 24;

/// The whole review, at most so many columns wide where words allow it.
#[must_use]
pub fn text(review: &Review, units: Units, wrap: &dyn Fn(&str) -> String) -> String {
    let mut text = format!("{}, {} to {}\n", review.client, review.from, review.to);
    let mut part = |heading: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            write!(text, "\n{heading}\n").expect("a string takes every write");
            for line in lines {
                writeln!(text, "{}", wrap(&format!("  {line}")))
                    .expect("a string takes every write");
            }
        }
    };
    part("Sessions", sessions(review));
    part("Weekly sets done (direct 1, indirect ½)", muscles(review));
    part("Main lifts: estimated most for one", lifts(review, units));
    part("Work by week", work(review, units));
    part("Body measures", body(review));
    part("Harder at the same load", effort(review, units));
    part("Left out most", skipped(review));
    part("With care", review.remarks.clone());
    part("What could be changed", proposals(review));
    text
}

fn sessions(review: &Review) -> Vec<String> {
    let counts = review.sessions;
    let mut lines = vec![format!("{} of {} planned were done", counts.done, counts.planned)];
    if counts.extra > 0 {
        lines.push(format!("{} more beside the plan", counts.extra));
    }
    lines
}

fn muscles(review: &Review) -> Vec<String> {
    let lines = review.muscles.iter().map(|one| {
        let range = match (one.low, one.high) {
            (Some(low), Some(high)) => {
                let place = match one.sets {
                    sets if sets < low => "under",
                    sets if sets > high => "over",
                    _ => "in",
                };
                format!("  {place} {low} to {high}")
            }
            _ => String::new(),
        };
        format!("{:<16} {:>5}{range}", one.muscle.name(), one.sets)
    });
    lines.collect()
}

fn lifts(review: &Review, units: Units) -> Vec<String> {
    let mut lines = Vec::new();
    for lift in &review.lifts {
        let values: Vec<f64> = lift.points.iter().map(|point| point.kilograms).collect();
        let last = lift.points.last();
        let now = last.map_or("no estimate".to_owned(), |point| {
            let rough = if point.rough { ", rough" } else { "" };
            format!(
                "about {} ({} to {}{rough})",
                mass_text(point.kilograms, units),
                mass_text(point.range[0], units),
                mass_text(point.range[1], units)
            )
        });
        lines.push(format!("{:<28} {}  {now}", lift.name, spark(&values)));
        lines.push(format!("  {}", trend(lift, units)));
    }
    lines
}

/// A slope and the span that holds it: `+0.5 kg a week`, `+0.2 to +0.8`.
pub(super) fn a_week(slope: [f64; 3], units: Units) -> [String; 2] {
    let in_units = |kilograms: f64| match units {
        Units::Kg => kilograms,
        Units::Lb => (kilograms / KG_PER_LB * 100.0).round() / 100.0,
    };
    let [slope, low, high] = slope.map(in_units);
    [format!("{slope:+} {} a week", units.id()), format!("{low:+} to {high:+}")]
}

/// Where a lift goes, in words with its figures.
#[must_use]
pub fn trend(lift: &LiftTrend, units: Units) -> String {
    let figures = lift.slope.map(|slope| {
        let [rate, span] = a_week(slope, units);
        format!("{rate} ({span} with 95 %)")
    });
    let figures = figures.unwrap_or_default();
    match lift.trend {
        Trend::Rises => format!("rises: {figures}"),
        Trend::Falls => format!("falls: {figures}"),
        Trend::Holds => format!("holds within its noise: {figures}"),
        Trend::TooFew => "too few sessions, or too near one another, to tell".to_owned(),
    }
}

/// Weeks in a row without anything, beyond which they are told in one line.
const WEEKS_APART: usize = 2;

fn work(review: &Review, units: Units) -> Vec<String> {
    let runs = review.work.chunk_by(|one, next| one.sessions == 0 && next.sessions == 0);
    let lines = runs.flat_map(|run| match run {
        [first, .., last] if first.sessions == 0 && run.len() > WEEKS_APART => {
            vec![format!("{} to {}  nothing in {} weeks", first.from, last.from, run.len())]
        }
        run => run.iter().map(|week| week_of_work(week, units)).collect(),
    });
    lines.collect()
}

fn week_of_work(week: &WeekWork, units: Units) -> String {
    let sessions = counted(week.sessions, "session", "sessions");
    let sets = counted(week.sets, "set", "sets");
    let lifted = mass_text(week.kilograms, units);
    format!("{}  {sessions}, {sets}, {lifted} lifted in all", week.from)
}

fn body(review: &Review) -> Vec<String> {
    let lines = review.body.iter().map(|one| {
        let values: Vec<f64> = one.smoothed.iter().map(|(_, value)| *value).collect();
        let site = if one.site.is_empty() { String::new() } else { format!(" ({})", one.site) };
        format!(
            "{:<20} {}  {}, {}",
            format!("{}{site}", one.name),
            spark(&values),
            one.last,
            one.told
        )
    });
    lines.collect()
}

fn effort(review: &Review, units: Units) -> Vec<String> {
    let lines = review.effort.iter().map(|one| {
        format!(
            "{}, {} × {}: {} left at first, {} at last, over {} sessions",
            one.name,
            mass_text(one.load_kg, units),
            one.reps,
            one.reserve[0],
            one.reserve[1],
            one.sessions
        )
    });
    lines.collect()
}

fn skipped(review: &Review) -> Vec<String> {
    const SHOWN: usize = 5;
    let lines = review.skipped.iter().take(SHOWN);
    lines.map(|one| format!("{}: {} of {} times", one.name, one.times, one.of)).collect()
}

fn proposals(review: &Review) -> Vec<String> {
    let lines = review.proposals.iter().zip(1..).flat_map(|(one, number)| {
        [format!("{number}. {}: {}", one.what, one.because), format!("   `{}`", one.command)]
    });
    lines.collect()
}

/// Numbers as a row of small bars, the last ones where there are many.
#[must_use]
pub fn spark(values: &[f64]) -> String {
    const BARS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let shown = &values[values.len().saturating_sub(COLUMNS)..];
    let low = shown.iter().copied().fold(f64::INFINITY, f64::min);
    let high = shown.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let bar = |value: &f64| {
        let steps = BARS.iter().enumerate().skip(1);
        let share = if high > low { (value - low) / (high - low) * 7.0 } else { 3.0 };
        let place =
            steps.filter(|(step, _)| f64::from(u8::try_from(*step).unwrap_or(0)) <= share + 0.5);
        BARS[place.map(|(step, _)| step).max().unwrap_or(0)]
    };
    shown.iter().map(bar).collect()
}
