//! A look back: what was done of what was planned, where the main lifts go, and what could be changed.

mod bests;
mod body;
mod counts;
mod effort;
mod lifts;
mod proposals;
pub mod text;

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use super::body::Measured;
use super::done::DoneSession;
use crate::input::catalog::Entry;
use crate::input::plan::Plan;
use crate::input::profile::Profile;

pub use bests::BestSet;
pub use body::BodyTrend;
pub use counts::{DayCount, MuscleDone, SessionCount, Skipped, WeekWork};
pub use effort::Drift;
pub use lifts::{LiftTrend, Point, Trend};
pub use proposals::{Proposal, Wish};

/// What a review is made from.
pub struct About<'a> {
    /// The client.
    pub client: &'a str,
    /// The first day.
    pub from: Date,
    /// The last day.
    pub to: Date,
    /// All sessions, oldest first.
    pub sessions: &'a [DoneSession],
    /// All measures, oldest first.
    pub measured: &'a [Measured],
    /// The plans with a day in the span, in the order that they were filed: of two for one day the later one holds.
    pub plans: &'a [Plan],
    /// The client's profile, where a plan has it.
    pub profile: Option<&'a Profile>,
    /// Every exercise that there is.
    pub entries: &'a BTreeMap<String, Entry>,
    /// What the files are called that the commands are about.
    pub files: &'a Files,
}

/// Files as a command names them; a word in capitals where one is not known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Files {
    /// The current plan.
    pub plan: String,
    /// The client's profile.
    pub profile: String,
    /// The book.
    pub book: String,
}

/// What the look back shows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Review {
    /// The client.
    pub client: String,
    /// The first day.
    pub from: String,
    /// The last day.
    pub to: String,
    /// Sessions done of those planned.
    pub sessions: SessionCount,
    /// The same by weekday.
    pub days: Vec<DayCount>,
    /// Weekly sets of each muscle against its range.
    pub muscles: Vec<MuscleDone>,
    /// The main lifts, those done most often first.
    pub lifts: Vec<LiftTrend>,
    /// The best set of each exercise.
    pub bests: Vec<BestSet>,
    /// Work week by week.
    pub work: Vec<WeekWork>,
    /// Body measures.
    pub body: Vec<BodyTrend>,
    /// Lifts whose effort rises at the same load.
    pub effort: Vec<Drift>,
    /// What was left out most.
    pub skipped: Vec<Skipped>,
    /// What could be changed: up to five, none applied.
    pub proposals: Vec<Proposal>,
    /// What else there is to say.
    pub remarks: Vec<String>,
}

/// The review of a span.
#[must_use]
pub fn review(about: &About<'_>) -> Review {
    let within = |date: Date| (about.from..=about.to).contains(&date);
    let sessions: Vec<DoneSession> =
        about.sessions.iter().filter(|session| within(session.date)).cloned().collect();
    let planned = counts::Planned::of(about);
    let mut review = Review {
        client: about.client.to_owned(),
        from: about.from.to_string(),
        to: about.to.to_string(),
        sessions: planned.count(&sessions),
        days: planned.days(&sessions),
        muscles: counts::muscles(about, &sessions),
        lifts: lifts::lifts(about, &sessions),
        bests: bests::bests(about),
        work: counts::work(about, &sessions),
        body: body::trends(about),
        effort: effort::drifts(about, &sessions),
        skipped: planned.skipped(&sessions, about.entries),
        proposals: Vec::new(),
        remarks: body::remarks(about),
    };
    review.proposals = proposals::proposals(about, &review, &sessions);
    review
}

/// The name of an exercise.
fn name(entries: &BTreeMap<String, Entry>, id: &str) -> String {
    entries.get(id).map_or_else(|| id.to_owned(), |entry| entry.name.clone())
}

#[cfg(test)]
mod tests;
