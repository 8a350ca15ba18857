//! What the subjects of rows name: parts with `_` between them, of which one may be a day.

use crate::request::Request;

/// The place of the day that a subject names.
pub(super) fn day_of(request: &Request, subject: &str) -> Option<usize> {
    request.days.iter().position(|day| subject.split('_').any(|part| part == day.label()))
}

/// The place in the profile of the session that a subject names.
pub(super) fn slot_of(request: &Request, subject: &str) -> Option<usize> {
    let day = &request.days[day_of(request, subject)?];
    request.profile.sessions.iter().position(|slot| slot.day == day.weekday && slot.at == day.at)
}
