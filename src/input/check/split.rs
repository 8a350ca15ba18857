//! The client's own split.

use super::Case;
use crate::diagnostic::{Diagnostic, counted};
use crate::input::profile::SplitChoice;
use crate::path;

/// E1305: an own split says for each session what it is for.
pub(super) fn e1305_one_entry_per_session(case: &Case<'_>) -> Vec<Diagnostic> {
    let SplitChoice::Own(days) = &case.profile.split else {
        return Vec::new();
    };
    let sessions = case.profile.sessions.len();
    if days.len() == sessions {
        return Vec::new();
    }
    let entries = counted(days.len(), "entry", "entries");
    let sessions = counted(sessions, "session", "sessions");
    let message = format!("the split has {entries} for {sessions}");
    let fault = Diagnostic::error("E1305", message)
        .at(case.marks.at_key(path!["split"], entries))
        .at(case.marks.at_key(path!["sessions"], sessions))
        .help("write one list of muscles per session, in the same order, or `split: auto`");
    vec![fault]
}

/// E1306: a day without muscles is no training day.
pub(super) fn e1306_entries_name_muscles(case: &Case<'_>) -> Vec<Diagnostic> {
    let SplitChoice::Own(days) = &case.profile.split else {
        return Vec::new();
    };
    let empty = days.iter().enumerate().filter(|(_, muscles)| muscles.is_empty());
    empty
        .map(|(index, _)| {
            Diagnostic::error("E1306", format!("entry {} of the split is empty", index + 1))
                .at(case.marks.at(path!["split", index], "no muscle"))
                .help("name the muscles of that session, as in `[quads, glutes, chest]`")
        })
        .collect()
}
