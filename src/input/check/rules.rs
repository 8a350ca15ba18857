//! Changed defaults of rules.

use super::Case;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::suggest;
use crate::path;

/// E1322: only a rule that exists can be changed.
pub(super) fn e1322_ids_are_known(case: &Case<'_>) -> Vec<Diagnostic> {
    let known = case.known.rules;
    let ids = case.profile.rules.keys();
    let unknown = ids.filter(|id| !known.contains(&id.as_str()));
    unknown
        .map(|id| {
            Diagnostic::error("E1322", format!("there is no rule {}", quoted(id)))
                .at(case.marks.at_key(path!["rules", id], "unknown"))
                .help(suggest::help(
                    id,
                    known,
                    "the README's rule table lists every rule with its id",
                ))
        })
        .collect()
}
