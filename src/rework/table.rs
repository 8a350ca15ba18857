//! What a rework kept, swapped, moved and left out.

use std::collections::BTreeMap;

use serde::Serialize;

use super::profile_of;
use crate::input::plan::{Item, Plan, Session};
use crate::input::profile::SessionSlot;
use crate::request::{Barred, Request};
use crate::words::Muscle;

/// What became of one exercise on one day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "what")]
pub enum Fate {
    /// As before.
    Kept,
    /// Another number of sets.
    Sets {
        /// Sets before.
        from: u32,
        /// Sets now.
        to: u32,
    },
    /// Another exercise in its place.
    Swapped {
        /// The new exercise.
        by: String,
        /// Why it went.
        why: String,
    },
    /// On another day now.
    Moved {
        /// That day.
        to: String,
    },
    /// No longer done.
    Dropped {
        /// Why it went.
        why: String,
    },
    /// New, with nothing in whose place it stands.
    Added,
}

/// One line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// The day.
    pub day: String,
    /// The exercise.
    pub exercise: String,
    /// What became of it.
    #[serde(flatten)]
    pub fate: Fate,
}

/// Weekly sets of a muscle before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Volume {
    /// The muscle.
    pub muscle: Muscle,
    /// Sets before.
    pub before: f64,
    /// Sets after.
    pub after: f64,
}

/// The whole table.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Table {
    /// Every exercise of the plan before, then new ones.
    pub lines: Vec<Line>,
    /// Every muscle with sets before or after.
    pub volume: Vec<Volume>,
}

impl Table {
    /// Compares a plan with its rework.
    #[must_use]
    pub fn new(
        old: &Plan,
        new: &Plan,
        request: &Request,
        barred: &BTreeMap<String, Barred>,
    ) -> Table {
        let mut added: Vec<(String, String)> = Vec::new();
        for session in &new.sessions {
            let before = of_day(old, session);
            let is_new = |item: &&Item| !before.iter().any(|was| was.exercise == item.exercise);
            let items = work(session).into_iter().filter(is_new);
            added.extend(items.map(|item| (label(session), item.exercise.clone())));
        }
        let mut lines = Vec::new();
        for session in &old.sessions {
            let after = of_day(new, session);
            for item in work(session) {
                let same = after.iter().find(|now| now.exercise == item.exercise);
                let fate = match same {
                    Some(now) if now.sets == item.sets => Fate::Kept,
                    Some(now) => Fate::Sets { from: item.sets, to: now.sets },
                    None => gone(item, session, &mut added, &Change { old, new, request, barred }),
                };
                lines.push(Line { day: label(session), exercise: item.exercise.clone(), fate });
            }
        }
        lines.extend(added.into_iter().map(|(day, exercise)| Line {
            day,
            exercise,
            fate: Fate::Added,
        }));
        Table { lines, volume: volume(old, new, request) }
    }

    /// How many lines are not as before.
    #[must_use]
    pub fn changes(&self) -> usize {
        self.lines.iter().filter(|line| line.fate != Fate::Kept).count()
    }
}

/// What became of an exercise that left its day: moved, swapped for the likest new one of the day, or dropped.
fn gone(
    item: &Item,
    session: &Session,
    added: &mut Vec<(String, String)>,
    change: &Change,
) -> Fate {
    if let Some(place) = added.iter().position(|(_, id)| *id == item.exercise) {
        return Fate::Moved { to: added.remove(place).0 };
    }
    let why = why(item, session, change);
    let day = label(session);
    let likest = added
        .iter()
        .enumerate()
        .filter(|(_, (there, _))| *there == day)
        .map(|(place, (_, id))| (likeness(change.request, &item.exercise, id), place))
        .filter(|(likeness, _)| *likeness > 0)
        .max_by_key(|(likeness, place)| (*likeness, std::cmp::Reverse(*place)));
    match likest {
        Some((_, place)) => Fate::Swapped { by: added.remove(place).1, why },
        None => Fate::Dropped { why },
    }
}

/// A plan and its rework.
struct Change<'a> {
    old: &'a Plan,
    new: &'a Plan,
    request: &'a Request,
    /// What is out on the days that changed, and why.
    barred: &'a BTreeMap<String, Barred>,
}

fn why(item: &Item, session: &Session, change: &Change) -> String {
    let day = label(session);
    let is_it = |now: &&Session| label(now) == day;
    if !change.new.sessions.iter().any(|now| is_it(&now)) {
        return "its day is gone".to_owned();
    }
    if let Some(reason) = change.barred.get(&item.exercise) {
        return reason.to_string();
    }
    let minutes = |plan: &Plan| {
        let profile = profile_of(plan).ok()?;
        let is_it = |slot: &&SessionSlot| slot.day == session.day && slot.at == session.at;
        profile.sessions.iter().find(is_it).map(|slot| slot.minutes)
    };
    match (minutes(change.old), minutes(change.new)) {
        (Some(before), Some(now)) if now < before => {
            format!("{day} has {now} minutes, not {before}")
        }
        _ => "it makes room for what the week needs more".to_owned(),
    }
}

/// How alike two exercises are: pattern, prime mover, shared muscles, kind, sides, level.
#[must_use]
pub fn likeness(request: &Request, one: &str, other: &str) -> u32 {
    let (Some(one), Some(other)) = (request.entries.get(one), request.entries.get(other)) else {
        return 0;
    };
    let shared = one.direct.iter().filter(|muscle| other.direct.contains(muscle)).count();
    let points = [
        (one.pattern == other.pattern, 8),
        (one.direct.first() == other.direct.first(), 6),
        (shared > 0, 2),
        (one.kind == other.kind, 1),
        (one.sides == other.sides, 1),
        (one.level == other.level, 1),
    ];
    let same = u32::from(one.pattern == other.pattern) + u32::try_from(shared).unwrap_or(0);
    if same == 0 {
        return 0;
    }
    points.iter().filter(|(is_so, _)| *is_so).map(|(_, points)| points).sum()
}

fn volume(old: &Plan, new: &Plan, request: &Request) -> Vec<Volume> {
    let sets = |plan: &Plan, muscle: Muscle| -> f64 {
        let items = plan.sessions.iter().flat_map(work);
        let halves: u32 = items
            .filter_map(|item| Some((item.sets, request.entries.get(&item.exercise)?)))
            .map(|(sets, entry)| sets * crate::request::candidate::halves(entry, muscle))
            .sum();
        f64::from(halves) / 2.0
    };
    Muscle::ALL
        .iter()
        .map(|muscle| Volume {
            muscle: *muscle,
            before: sets(old, *muscle),
            after: sets(new, *muscle),
        })
        .filter(|line| line.before > 0.0 || line.after > 0.0)
        .collect()
}

/// The working items of a session.
pub(crate) fn work(session: &Session) -> Vec<&Item> {
    session.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items).collect()
}

/// The working items of the same day of another plan.
fn of_day<'a>(plan: &'a Plan, session: &Session) -> Vec<&'a Item> {
    let same = |other: &&Session| other.day == session.day && other.at == session.at;
    plan.sessions.iter().find(same).map(work).unwrap_or_default()
}

/// `tue`, or `tue@07:30`.
#[must_use]
pub fn label(session: &Session) -> String {
    match &session.at {
        Some(at) => format!("{}@{at}", session.day),
        None => session.day.to_string(),
    }
}
