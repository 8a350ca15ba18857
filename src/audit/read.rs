//! A plan's sessions as a week, or what keeps them from being counted.

use crate::input::plan::{Amounts, Item, Session};
use crate::input::suggest;
use crate::request::Request;
use crate::week::{self, Week};
use crate::words::Measure;

/// Why a session cannot be counted.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Misread {
    /// No session of the profile is on that day and hour.
    #[error("{day}: the profile has no session then; its sessions are {have}")]
    NoSuchDay {
        /// The day in the plan.
        day: String,
        /// The sessions of the profile.
        have: String,
    },
    /// The catalog has no such exercise.
    #[error("{day}: there is no exercise `{id}`{}", .nearest.as_ref().map(|near| format!("; did you mean `{near}`?")).unwrap_or_default())]
    NoSuchExercise {
        /// The day in the plan.
        day: String,
        /// The id in the plan.
        id: String,
        /// The nearest id there is.
        nearest: Option<String>,
    },
    /// Not one list of numbers, or not as many as sets.
    #[error("{day}, {id}: {what}")]
    Numbers {
        /// The day in the plan.
        day: String,
        /// The exercise.
        id: String,
        /// What is wrong and what to write.
        what: String,
    },
}

/// Turns a plan's sessions into a week of the request's days.
///
/// # Errors
/// Everything that cannot be counted.
pub fn week_of(sessions: &[Session], request: &Request) -> Result<Week, Vec<Misread>> {
    let mut faults = Vec::new();
    let mut week = Week::default();
    let mut taken = Vec::new();
    for session in sessions {
        let label = label(session);
        let Some(day) = day_of(session, request, &taken) else {
            let have: Vec<String> = request.days.iter().map(crate::request::Day::label).collect();
            faults.push(Misread::NoSuchDay { day: label, have: have.join(", ") });
            continue;
        };
        taken.push(day);
        let groups = session
            .groups
            .iter()
            .map(|group| week::Group {
                kind: group.kind,
                seconds: group.seconds,
                items: group
                    .items
                    .iter()
                    .filter_map(|item| read_item(item, &label, request, &mut faults))
                    .collect(),
            })
            .collect();
        week.sessions.push(week::Session { day, label, focus: session.focus.clone(), groups });
    }
    if faults.is_empty() { Ok(week) } else { Err(faults) }
}

fn label(session: &Session) -> String {
    match &session.at {
        Some(at) => format!("{}@{at}", session.day),
        None => session.day.to_string(),
    }
}

/// The request's day of a session: the same weekday and hour, or the only session of that weekday.
fn day_of(session: &Session, request: &Request, taken: &[usize]) -> Option<usize> {
    let free = |place: &usize| !taken.contains(place);
    let same_day: Vec<usize> = (0..request.days.len())
        .filter(|place| request.days[*place].weekday == session.day)
        .filter(free)
        .collect();
    let same_hour = same_day.iter().copied().find(|place| request.days[*place].at == session.at);
    same_hour.or_else(|| same_day.first().copied().filter(|_| session.at.is_none()))
}

fn read_item(
    item: &Item,
    day: &str,
    request: &Request,
    faults: &mut Vec<Misread>,
) -> Option<week::Item> {
    let Some(entry) = request.entries.get(&item.exercise) else {
        let ids = request.entries.keys().map(String::as_str);
        faults.push(Misread::NoSuchExercise {
            day: day.to_owned(),
            id: item.exercise.clone(),
            nearest: suggest::nearest(&item.exercise, ids).map(str::to_owned),
        });
        return None;
    };
    if let Some(what) = wrong_numbers(item, entry.measure) {
        faults.push(Misread::Numbers { day: day.to_owned(), id: item.exercise.clone(), what });
    }
    Some(week::Item::of(item, entry))
}

/// What is wrong with an item's numbers. A hand-written plan may leave them out.
fn wrong_numbers(item: &Item, measure: Measure) -> Option<String> {
    let given = [&item.reps, &item.seconds, &item.meters, &item.calories];
    match given.iter().filter(|list| list.is_some()).count() {
        0 => None,
        1 => {
            let (list, unit) = match item.amounts()? {
                Amounts::Reps(list) => (list, Measure::Reps),
                Amounts::Seconds(list) => (list, Measure::Seconds),
                Amounts::Meters(list) => (list, Measure::Meters),
                Amounts::Calories(list) => (list, Measure::Calories),
            };
            if list.len() != item.sets as usize {
                Some(format!(
                    "{} sets but {} numbers; write one number per set",
                    item.sets,
                    list.len()
                ))
            } else if unit != measure {
                Some(format!("it is counted in {measure}, not in {unit}"))
            } else {
                None
            }
        }
        _ => Some("give one of `reps`, `seconds`, `meters` and `calories`".to_owned()),
    }
}
