//! The plan of one day, for the cards of all who train on it.

use jiff::civil::Date;

use super::phrase;
use crate::plan::file::{Plan, Week};

/// A plan with nothing but the sessions of a date; `None` where the client does not train then.
#[must_use]
pub fn of_day(plan: &Plan, date: Date) -> Option<Plan> {
    let in_week = |week: &&Week| {
        let first = phrase::date(week.date.as_ref());
        first.is_some_and(|first| {
            week.sessions
                .iter()
                .any(|session| phrase::day_in_week(first, session.day) == Some(date))
        })
    };
    let week = plan.weeks.iter().find(in_week)?;
    let first = phrase::date(week.date.as_ref())?;
    let mut week = week.clone();
    week.sessions.retain(|session| phrase::day_in_week(first, session.day) == Some(date));
    for session in &mut week.sessions {
        session.at = plan.start_of(week.week, session).map(str::to_owned);
    }
    let sessions = week.sessions.clone();
    Some(Plan { sessions, weeks: vec![week], ..plan.clone() })
}
