//! Up to five changes that the figures speak for, each with the command that makes it. Nothing is changed by itself.

use jiff::civil::Date;
use serde::Serialize;

use super::{About, Review, Trend, text};
use crate::book::done::DoneSession;
use crate::book::slot;
use crate::input::plan::Plan;
use crate::words::{Muscle, Units, WeekKind, Weekday};

/// The most that are made.
const MOST: usize = 5;
/// Weeks after which coaches plan an easier one (VO-13: every four to six; VO-14: every 5.6).
const WEEKS_TO_EASE: i32 = 6;
/// Lifts that fall or get harder before an easier week is proposed. Common practice.
const LIFTS_TO_EASE: usize = 2;
/// Sets a week that a muscle is under its range by before it is told. Common practice.
const SETS_UNDER: f64 = 1.0;
/// Days before the end of a plan in which the next block is proposed.
const DAYS_TO_END: i32 = 10;

/// A change that could be made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Proposal {
    /// What.
    pub what: String,
    /// The figures that speak for it.
    pub because: String,
    /// The command that makes it.
    pub command: String,
    /// The same as a wish for the week, where it is one.
    #[serde(skip)]
    pub wish: Option<Wish>,
}

/// What could be tried on the week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wish {
    /// Without the sessions of a weekday.
    Without(Weekday),
    /// Without an exercise.
    Never(String),
    /// More for a muscle.
    More(Muscle),
    /// An easier week next.
    Easier,
    /// The block after this one.
    NextBlock,
}

pub(super) fn proposals(
    about: &About<'_>,
    review: &Review,
    sessions: &[DoneSession],
) -> Vec<Proposal> {
    let mut found = Vec::new();
    found.extend(next_block(about));
    found.extend(easier_week(about, review, sessions));
    found.extend(another_day(about, review));
    found.extend(swap(about, review));
    found.extend(stalled(about, review));
    found.extend(more_sets(about, review));
    found.truncate(MOST);
    found
}

/// The plan ends: the next block, with what the book knows.
fn next_block(about: &About<'_>) -> Option<Proposal> {
    let (_, last) = about.plans.last().and_then(slot::span)?;
    let left = (last - about.to).get_days();
    (left <= DAYS_TO_END).then(|| Proposal {
        what: "the next block".to_owned(),
        because: match left {
            ..=0 => format!("the plan ended on {last}"),
            _ => format!("the plan ends on {last}, in {left} days"),
        },
        command: format!(
            "weekwright plan {} --book {} -o {}.next.plan.yaml",
            about.files.profile, about.files.book, about.client
        ),
        wish: Some(Wish::NextBlock),
    })
}

fn easier_week(about: &About<'_>, review: &Review, sessions: &[DoneSession]) -> Option<Proposal> {
    let falling: Vec<&str> = review
        .lifts
        .iter()
        .filter(|lift| lift.trend == Trend::Falls)
        .map(|lift| lift.exercise.as_str())
        .chain(review.effort.iter().map(|drift| drift.exercise.as_str()))
        .collect();
    let mut lifts = falling.clone();
    lifts.sort_unstable();
    lifts.dedup();
    let since = weeks_since_easier(about, sessions);
    let because = if lifts.len() >= LIFTS_TO_EASE {
        format!("{} lifts fall or get harder at the same load: {}", lifts.len(), lifts.join(", "))
    } else if since >= WEEKS_TO_EASE && !lifts.is_empty() {
        format!(
            "{since} weeks since an easier one, and {} gets harder (coaches plan one every four to six)",
            lifts[0]
        )
    } else {
        return None;
    };
    let command = format!(
        "weekwright next {} --easier -o {}.easier.plan.yaml",
        about.files.plan, about.client
    );
    Some(Proposal { what: "an easier week".to_owned(), because, command, wish: Some(Wish::Easier) })
}

/// Weeks since the last session of an easier week, or since the first session.
fn weeks_since_easier(about: &About<'_>, sessions: &[DoneSession]) -> i32 {
    let last: Option<Date> = sessions.iter().filter(|one| one.is_light).map(|one| one.date).max();
    let from = last.or_else(|| sessions.first().map(|one| one.date));
    from.map_or(0, |from| (about.to - from).get_days() / 7)
}

/// A weekday that is missed more often than not.
fn another_day(about: &About<'_>, review: &Review) -> Option<Proposal> {
    let found = review.days.iter().filter(|one| one.is_missed());
    let one = found.max_by_key(|one| one.planned - one.done)?;
    let (day, missed) = (one.day, one.planned - one.done);
    Some(Proposal {
        what: format!("another day than {}", day.name()),
        because: format!("{missed} of {} sessions on a {} were missed", one.planned, day.name()),
        command: format!(
            "weekwright rework {} --drop-day {day} -o {}.new.plan.yaml",
            about.files.plan, about.client
        ),
        wish: Some(Wish::Without(day)),
    })
}

fn swap(about: &About<'_>, review: &Review) -> Option<Proposal> {
    let most = review.skipped.iter().find(|one| one.is_shunned())?;
    Some(Proposal {
        what: format!("something else for {}", most.name),
        because: format!("left out {} of {} times", most.times, most.of),
        command: format!(
            "weekwright rework {} --never {} -o {}.new.plan.yaml",
            about.files.plan, most.exercise, about.client
        ),
        wish: Some(Wish::Never(most.exercise.clone())),
    })
}

/// A lift that has held for weeks.
fn stalled(about: &About<'_>, review: &Review) -> Option<Proposal> {
    let held = |lift: &&super::LiftTrend| {
        let days = lift
            .points
            .first()
            .zip(lift.points.last())
            .map_or(0, |(one, last)| last.days - one.days);
        lift.trend == Trend::Holds && days >= WEEKS_TO_EASE * 7
    };
    let lift = review.lifts.iter().find(held)?;
    let units = about.profile.map_or(Units::Kg, |profile| profile.units);
    let [rate, span] = text::a_week(lift.slope?, units);
    Some(Proposal {
        what: format!("an easier week, then {} from a tenth lower", lift.name),
        because: format!(
            "it has held for {WEEKS_TO_EASE} weeks or more: {rate} ({span}); common practice"
        ),
        command: format!(
            "weekwright next {} --easier -o {}.easier.plan.yaml",
            about.files.plan, about.client
        ),
        wish: Some(Wish::Easier),
    })
}

/// The muscle that is furthest under its range although its sessions were done.
fn more_sets(about: &About<'_>, review: &Review) -> Option<Proposal> {
    let counts = review.sessions;
    if counts.planned == 0 || counts.done * 10 < counts.planned * 8 || is_mostly_light(about.plans)
    {
        return None;
    }
    let under = |one: &super::MuscleDone| one.low.map_or(0.0, |low| low - one.sets);
    let muscle = review.muscles.iter().max_by(|one, other| under(one).total_cmp(&under(other)))?;
    (under(muscle) > SETS_UNDER).then(|| Proposal {
        what: format!("more sets for {}", muscle.muscle.name()),
        because: format!(
            "{} sets a week were done, {} to {} are planned for",
            muscle.sets,
            muscle.low.unwrap_or(0.0),
            muscle.high.unwrap_or(0.0)
        ),
        command: format!(
            "write `emphasis: {{{}: more}}` into the profile, then weekwright rework {} --profile {} -o {}.new.plan.yaml",
            muscle.muscle, about.files.plan, about.files.profile, about.client
        ),
        wish: Some(Wish::More(muscle.muscle)),
    })
}

/// A short plan whose weeks are mostly easier ones says little about sets.
fn is_mostly_light(plans: &[Plan]) -> bool {
    let Some(plan) = plans.last() else { return true };
    let full = plan.weeks.iter().filter(|week| week.kind == WeekKind::Build).count();
    full * 2 < plan.weeks.len()
}
