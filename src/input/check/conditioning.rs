//! Conditioning wishes.

use std::collections::BTreeSet;

use super::Case;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::suggest;
use crate::path;
use crate::words::Role;

/// Ways to move that need no kit and that people name in plain words.
const ON_FOOT: [&str; 2] = ["running", "walking"];

/// E1319: a mode is kit for conditioning, a conditioning item, running or walking.
pub(super) fn e1319_modes_are_known(case: &Case<'_>) -> Vec<Diagnostic> {
    let Some(wish) = &case.profile.conditioning else {
        return Vec::new();
    };
    let entries = case.known.entries.values();
    let items: Vec<_> = entries.filter(|entry| entry.role == Role::Conditioning).collect();
    let kit = items.iter().flat_map(|entry| entry.needs.iter().flatten());
    let mut words: BTreeSet<&str> = kit.map(|kit| kit.id()).chain(ON_FOOT).collect();
    let listed = suggest::list(&words.iter().copied().collect::<Vec<_>>());
    words.extend(items.iter().map(|entry| entry.id.as_str()));
    let unknown = wish.modes.iter().enumerate().filter(|(_, mode)| !words.contains(mode.as_str()));
    unknown
        .map(|(index, mode)| {
            let near = suggest::nearest(mode, words.iter().copied());
            let help = near.map_or_else(
                || format!("write one of {listed}, or the id of a conditioning item"),
                |near| format!("did you mean `{near}`?"),
            );
            Diagnostic::error("E1319", format!("{} is no way of conditioning", quoted(mode)))
                .at(case.marks.at(path!["conditioning", "modes", index], "unknown"))
                .help(help)
        })
        .collect()
}

/// E1320: conditioning comes after strength work, so a session must be longer.
pub(super) fn e1320_minutes_leave_a_session(case: &Case<'_>) -> Vec<Diagnostic> {
    let longest = case.profile.sessions.iter().map(|slot| slot.minutes).max();
    let (Some(wish), Some(longest)) = (&case.profile.conditioning, longest) else {
        return Vec::new();
    };
    if wish.minutes < longest {
        return Vec::new();
    }
    let message = format!(
        "{} minutes of conditioning do not fit the longest session of {longest}",
        wish.minutes
    );
    let fault = Diagnostic::error("E1320", message)
        .at(case.marks.at(path!["conditioning", "minutes"], "too long"))
        .help(format!(
            "write up to a quarter of the session, here `minutes: {}` (common practice)",
            (longest / 4).max(3)
        ));
    vec![fault]
}

/// W1321: conditioning that starts after the last week is never seen.
pub(super) fn w1321_starts_within_the_plan(case: &Case<'_>) -> Vec<Diagnostic> {
    let weeks = case.profile.weeks;
    let late = case.profile.conditioning.as_ref().filter(|wish| wish.from_week > weeks);
    late.map(|wish| {
        let message = format!(
            "conditioning starts in week {}, but the plan ends with week {weeks}",
            wish.from_week
        );
        Diagnostic::warning("W1321", message)
            .at(case.marks.at(path!["conditioning", "from_week"], "after the last week"))
            .help(format!("write `from_week: {weeks}` or less, or plan more `weeks`"))
    })
    .into_iter()
    .collect()
}
