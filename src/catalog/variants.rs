//! Faults in what an exercise is a variant of.

use std::collections::BTreeMap;

use super::entry::{Placed, placed};
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::Read;
use crate::input::catalog::Entry;
use crate::input::suggest;

/// Every fault: a parent that is not there, a circle, a parent that does not fit.
pub(super) fn faults(
    files: &[Read<Vec<Entry>>],
    known: &BTreeMap<String, Entry>,
) -> Vec<Diagnostic> {
    placed(files).filter_map(|placed| fault(&placed, known)).collect()
}

fn fault(placed: &Placed<'_>, known: &BTreeMap<String, Entry>) -> Option<Diagnostic> {
    let id = placed.entry.variant_of.as_deref()?;
    let Some(parent) = known.get(id) else { return Some(e1402_unknown(placed, id, known)) };
    if is_its_own_parent(placed.entry, known) {
        return Some(e1404_circle(placed));
    }
    e1414_misfit(placed, parent)
}

/// E1402: the exercise is there.
fn e1402_unknown(placed: &Placed<'_>, id: &str, known: &BTreeMap<String, Entry>) -> Diagnostic {
    let help = suggest::nearest(id, known.keys().map(String::as_str)).map_or_else(
        || "delete the line, or add an exercise of this id".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    Diagnostic::error("E1402", format!("there is no exercise {}", quoted(id)))
        .at(placed.at("variant_of", "named as what it is a variant of"))
        .help(help)
}

/// Whether the parents of an entry lead back to it.
fn is_its_own_parent(entry: &Entry, known: &BTreeMap<String, Entry>) -> bool {
    let parent = |entry: &Entry| entry.variant_of.as_ref().and_then(|id| known.get(id));
    let mut at = parent(entry);
    for _ in 0..known.len() {
        match at {
            None => return false,
            Some(other) if other.id == entry.id => return true,
            Some(other) => at = parent(other),
        }
    }
    false
}

/// E1404: nothing is a variant of itself, not even by way of others.
fn e1404_circle(placed: &Placed<'_>) -> Diagnostic {
    let message = format!("{} is a variant of itself", quoted(&placed.entry.id));
    Diagnostic::error("E1404", message)
        .at(placed.at("variant_of", "leads back here"))
        .help("delete `variant_of` of the one that a client would learn first")
}

/// E1414: a variant does the movement of its exercise and comes after it.
fn e1414_misfit(placed: &Placed<'_>, parent: &Entry) -> Option<Diagnostic> {
    let entry = placed.entry;
    let (what, help) = if entry.pattern != parent.pattern {
        ("does another movement", "name an exercise of the same `pattern`")
    } else if entry.standing < parent.standing {
        ("stands before it", "name an exercise that a coach takes sooner, or delete the line")
    } else {
        return None;
    };
    let message =
        format!("{} is a variant of {} and {what}", quoted(&entry.id), quoted(&parent.id));
    Some(Diagnostic::error("E1414", message).at(placed.at("variant_of", what)).help(help))
}
