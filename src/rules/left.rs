//! What kit, limits, level and the never list leave of the catalog. Recounts ask here and not the candidates, since
//! those also depend on what the planner has a use for.

use crate::input::catalog::Entry;
use crate::request::Request;
use crate::request::resolve::{kit_for, limited};
use crate::words::Role;

/// The working exercises that a client may do.
pub(super) fn left(request: &Request) -> impl Iterator<Item = &Entry> {
    request.entries.values().map(AsRef::as_ref).filter(move |entry| {
        entry.role == Role::Work
            && kit_for(&request.profile, entry).is_ok()
            && limited(&request.profile, entry).is_none()
            && !request.profile.exercises.never.contains(&entry.id)
            && entry.level <= most_level(request, entry)
    })
}

/// The highest level that an entry may have: the client's, or one above where it is asked for by name.
pub(super) fn most_level(request: &Request, entry: &Entry) -> u8 {
    let lists = &request.profile.exercises;
    let asked = lists.must.contains(&entry.id) || lists.prefer.contains(&entry.id);
    request.figures.level + u8::from(asked)
}
