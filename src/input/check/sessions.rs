//! Training days: clock times, the first day, no two at once.

use itertools::Itertools as _;

use super::Case;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::clock::{date, minutes_of_day};
use crate::input::profile::SessionSlot;
use crate::path;

/// E1301: nobody trains twice at the same hour; a session without `at` may be at any.
pub(super) fn e1301_one_session_an_hour(case: &Case<'_>) -> Vec<Diagnostic> {
    let same_hour =
        |a: &SessionSlot, b: &SessionSlot| a.at.is_none() || b.at.is_none() || a.at == b.at;
    pairs(case, same_hour, |first, second, slot| {
        Diagnostic::error(
            "E1301",
            format!("two sessions are on {} at the same hour", slot.day.name()),
        )
        .at(case.marks.at(path!["sessions", second], "the second"))
        .at(case.marks.at(path!["sessions", first], "the first"))
        .help("give each of the two its own `at: \"07:30\"`, or keep one")
    })
}

/// E1304: a session ends before the next one of the day begins.
pub(super) fn e1304_sessions_do_not_overlap(case: &Case<'_>) -> Vec<Diagnostic> {
    let start = |slot: &SessionSlot| slot.at.as_deref().and_then(minutes_of_day);
    let overlap = |a: &SessionSlot, b: &SessionSlot| {
        let (Some(first), Some(second)) = (start(a), start(b)) else {
            return false;
        };
        first != second && first < second + b.minutes && second < first + a.minutes
    };
    pairs(case, overlap, |first, second, slot| {
        Diagnostic::error("E1304", format!("two sessions on {} overlap", slot.day.name()))
            .at(case.marks.at(path!["sessions", second], "this one"))
            .at(case.marks.at(path!["sessions", first], "and this one"))
            .help("move one of the two, or cut its `minutes`")
    })
}

/// A fault for each two sessions of a day that collide.
fn pairs(
    case: &Case<'_>,
    collide: impl Fn(&SessionSlot, &SessionSlot) -> bool,
    fault: impl Fn(usize, usize, &SessionSlot) -> Diagnostic,
) -> Vec<Diagnostic> {
    let slots = case.profile.sessions.iter().enumerate();
    slots
        .array_combinations()
        .filter(|[(_, a), (_, b)]| a.day == b.day && collide(a, b))
        .map(|[(first, _), (second, slot)]| fault(first, second, slot))
        .collect()
}

/// E1302: `at` is a time of day.
pub(super) fn e1302_clock_is_a_time(case: &Case<'_>) -> Vec<Diagnostic> {
    let sessions = case.profile.sessions.iter().map(|slot| &slot.at);
    let sports = case.profile.other_training.iter().map(|sport| &sport.at);
    let told = sessions
        .enumerate()
        .map(|(index, at)| ("sessions", index, at))
        .chain(sports.enumerate().map(|(index, at)| ("other_training", index, at)));
    let wrong = told.filter_map(|(list, index, at)| {
        let at = at.as_deref()?;
        minutes_of_day(at).is_none().then_some((list, index, at))
    });
    wrong
        .map(|(list, index, at)| {
            Diagnostic::error("E1302", format!("{} is no time of day", quoted(at)))
                .at(case.marks.at(path![list, index, "at"], "hours and minutes belong here"))
                .help("write it with two digits each, from 00:00 to 23:59, as in `at: \"18:30\"`")
        })
        .collect()
}

/// E1303: days are in the calendar.
pub(super) fn e1303_days_are_in_the_calendar(case: &Case<'_>) -> Vec<Diagnostic> {
    let start = case.profile.start.as_deref();
    let answers = case.profile.screening.as_ref();
    let agreed = answers.and_then(|answers| answers.clinician_agreed.as_deref());
    let told = [
        start.map(|day| (day, case.marks.at(path!["start"], "not in the calendar"))),
        agreed.map(|day| {
            let place = path!["screening", "clinician_agreed"];
            (day, case.marks.at(place, "not in the calendar"))
        }),
    ];
    let wrong = told.into_iter().flatten().filter(|(day, _)| date(day).is_none());
    wrong
        .map(|(day, label)| {
            Diagnostic::error("E1303", format!("there is no day {}", quoted(day)))
                .at(label)
                .help("write year, month and day of this century, as in `2027-01-04`")
        })
        .collect()
}
