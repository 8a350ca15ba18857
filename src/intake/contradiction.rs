//! What of the answers so far does not go together, told as soon as it is known.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::around::Around;
use crate::input::check::Known;
use crate::input::profile::Profile;
use crate::load::resolve_place;
use crate::request::{Entries, resolve, screening};

/// Each contradiction in a sentence without its full stop.
pub(super) fn contradictions(profile: &Profile, around: &Around, known: Known<'_>) -> Vec<String> {
    let mut told: Vec<String> =
        screening::advise(profile).withheld.iter().map(ToString::to_string).collect();
    if profile.exercises.must.is_empty() {
        return told;
    }
    let room = match &profile.place {
        Some(name) => match around.rooms.get(name) {
            Some(room) => Some(room),
            // What it has is not known, so nothing is missing.
            None => return told,
        },
        None => None,
    };
    let entries: Entries =
        known.entries.iter().map(|(id, entry)| (id.clone(), Arc::new(entry.clone()))).collect();
    let profile = crate::input::naming::with_ids(resolve_place(profile, room), known.entries);
    let musts = profile.exercises.must.clone();
    let request = resolve::resolve(profile, entries, BTreeSet::new(), 0);
    let barred: BTreeMap<&String, String> =
        request.barred.iter().map(|(id, reason)| (id, reason.to_string())).collect();
    told.extend(musts.iter().filter_map(|id| {
        let name = &known.entries.get(id)?.name;
        let reason = barred.get(id)?;
        Some(format!("{name} must be in, but {reason}"))
    }));
    told
}
