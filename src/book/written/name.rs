//! Which exercise a written name means: one of the day first, then one of the catalog.

use std::collections::BTreeMap;

use crate::input::catalog::Entry;
use crate::input::suggest;

/// Why a name means no exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoName {
    /// Nothing is called so; what to write instead.
    Unknown(String),
    /// More than one could be meant.
    Several(Vec<String>),
}

/// Exercises that a fault names as what could be meant.
const MOST_NAMED: usize = 6;

/// The exercise of a name: its id or the trade's name, or words that fit only one of the day, or where the day has none
/// only one that there is.
///
/// # Errors
/// Why there is none.
pub fn exercise<'a>(
    typed: &str,
    day: &[&'a str],
    entries: &'a BTreeMap<String, Entry>,
) -> Result<&'a Entry, NoName> {
    let id = kebab(typed);
    if let Some(entry) = entries.get(&id) {
        return Ok(entry);
    }
    if let Some(entry) = entries.values().find(|entry| kebab(&entry.name) == id) {
        return Ok(entry);
    }
    let words: Vec<&str> = id.split('-').filter(|word| !word.is_empty()).collect();
    let has = |entry: &Entry, is_word: fn(&str, &str) -> bool| {
        let name = kebab(&entry.name);
        let own: Vec<&str> = entry.id.split('-').chain(name.split('-')).collect();
        !words.is_empty() && words.iter().all(|word| own.iter().any(|one| is_word(one, word)))
    };
    let mut meant: Vec<&Entry> = day
        .iter()
        .filter_map(|id| entries.get(*id))
        .filter(|entry| has(entry, |one, word| one.starts_with(word)))
        .collect();
    meant.dedup_by(|one, other| one.id == other.id);
    if meant.is_empty() {
        meant = entries.values().filter(|entry| has(entry, |one, word| one == word)).collect();
    }
    match meant.as_slice() {
        [entry] => Ok(entry),
        [] => Err(NoName::Unknown(help(&id, day, entries))),
        several => {
            let named = several.iter().take(MOST_NAMED);
            Err(NoName::Several(named.map(|entry| entry.id.clone()).collect()))
        }
    }
}

fn help(id: &str, day: &[&str], entries: &BTreeMap<String, Entry>) -> String {
    let near = suggest::nearest(id, day.iter().copied())
        .or_else(|| suggest::nearest(id, entries.keys().map(String::as_str)));
    match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write the name as the card does; `catalog list` shows all exercises".to_owned(),
    }
}

/// A name as an id: small letters and digits, anything else a hyphen.
#[must_use]
pub fn kebab(text: &str) -> String {
    let plain = text.trim().to_lowercase();
    let parts = plain.split(|letter: char| !letter.is_alphanumeric());
    let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
    parts.join("-")
}
