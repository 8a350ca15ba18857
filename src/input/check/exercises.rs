//! Wishes for exercises.

use std::collections::BTreeMap;

use super::Case;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::naming;
use crate::input::profile::Choices;
use crate::path;

/// The lists with their keys, in the order of the file format.
fn lists(choices: &Choices) -> [(&'static str, &[String]); 4] {
    [
        ("must", &choices.must),
        ("prefer", &choices.prefer),
        ("avoid", &choices.avoid),
        ("never", &choices.never),
    ]
}

/// Every place where an exercise is named, by whatever name, in the order of the lists.
fn named<'a>(case: &'a Case<'_>) -> BTreeMap<&'a str, Vec<(&'static str, usize)>> {
    let mut named: BTreeMap<&str, Vec<_>> = BTreeMap::new();
    for (key, ids) in lists(&case.profile.exercises) {
        for (index, id) in ids.iter().enumerate() {
            let id = case.known.entry(id).map_or(id.as_str(), |entry| &entry.id);
            named.entry(id).or_default().push((key, index));
        }
    }
    named
}

/// Whether a list asks for its exercises.
fn asks_for(key: &str) -> bool {
    matches!(key, "must" | "prefer")
}

/// E1312: nothing is asked for and ruled out at once.
pub(super) fn e1312_wishes_agree(case: &Case<'_>) -> Vec<Diagnostic> {
    let clash = |(id, places): (&str, Vec<(&'static str, usize)>)| {
        let (wanted, at) = *places.iter().find(|(key, _)| asks_for(key))?;
        let (refused, index) = *places.iter().find(|(key, _)| !asks_for(key))?;
        let message = format!("{} is under both `{wanted}` and `{refused}`", quoted(id));
        let fault = Diagnostic::error("E1312", message)
            .at(case.marks.at(path!["exercises", refused, index], "ruled out here"))
            .at(case.marks.at(path!["exercises", wanted, at], "asked for here"))
            .help("keep it in one of the two lists");
        Some(fault)
    };
    named(case).into_iter().filter_map(clash).collect()
}

/// W1314: a second mention changes nothing.
pub(super) fn w1314_nothing_is_said_twice(case: &Case<'_>) -> Vec<Diagnostic> {
    let again = |(id, places): (&str, Vec<(&'static str, usize)>)| {
        let mut remarks = Vec::new();
        for (place, (key, index)) in places.iter().enumerate().skip(1) {
            let Some((earlier, at)) =
                places[..place].iter().find(|(earlier, _)| asks_for(earlier) == asks_for(key))
            else {
                continue;
            };
            remarks.push(
                Diagnostic::warning("W1314", format!("{} is named twice", quoted(id)))
                    .at(case.marks.at(path!["exercises", *key, *index], "again"))
                    .at(case.marks.at(path!["exercises", *earlier, *at], "first"))
                    .help("delete one of the two; the stronger wish counts"),
            );
        }
        remarks
    };
    named(case).into_iter().flat_map(again).collect()
}

/// E1313: a wish names an exercise of the catalog.
pub(super) fn e1313_ids_are_known(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut faults = Vec::new();
    for (key, ids) in lists(&case.profile.exercises) {
        for (index, id) in ids.iter().enumerate() {
            if case.known.entry(id).is_none() {
                let label = case.marks.at(path!["exercises", key, index], "not in the catalog");
                faults.push(unknown_exercise("E1313", case, id).at(label));
            }
        }
    }
    faults
}

/// An id that is not in the catalog, with the nearest one that is.
pub(super) fn unknown_exercise(code: &'static str, case: &Case<'_>, id: &str) -> Diagnostic {
    Diagnostic::error(code, format!("there is no exercise {}", quoted(id)))
        .help(naming::help(id, case.known.entries))
}
