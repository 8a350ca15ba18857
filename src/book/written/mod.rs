//! The line of a set book as it is written: `back-squat 42.5 8 8 7 r2; plank 45s 40s; pull-up bw 6 5`.
//!
//! A line is a name, the load where there is one, and each set. `r2` is the reserve of the set before it, `@8` its
//! effort of ten, `8/7` left and right, `-` left out, `ok` as planned, and what stands in brackets is a note.

pub mod name;
mod sets;
mod text;
mod word;

use std::collections::BTreeMap;
use std::ops::Range;

pub use sets::{About, Sets, has_load, sets};
pub use text::{amount_text, effort_text, load_word, planned_words, sets_text};
pub use word::number;

use crate::book::done::{Asked, DoneItem};
use crate::diagnostic::{Diagnostic, Source, quoted};
use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::words::Units;
use name::NoName;

/// What a line is read with.
pub struct Context<'a> {
    /// The day's work, as planned.
    pub items: &'a [&'a Item],
    /// Every exercise that there is.
    pub entries: &'a BTreeMap<String, Entry>,
    /// In which loads are written.
    pub units: Units,
    /// The lightest load of an exercise, where the place is known.
    pub lightest_kg: &'a dyn Fn(&Entry) -> Option<f64>,
}

/// Every line of a text, apart by `;` or by lines.
///
/// # Errors
/// Every fault, with its place in the text.
pub fn lines(source: &Source, context: &Context<'_>) -> Result<Vec<DoneItem>, Vec<Diagnostic>> {
    let mut items: Vec<DoneItem> = Vec::new();
    let mut faults = Vec::new();
    for part in parts(&source.text, |letter| letter == ';' || letter == '\n') {
        match line(source, part, context) {
            Ok(item) => items.push(item),
            Err(fault) => faults.push(fault),
        }
    }
    if items.is_empty() && faults.is_empty() {
        faults.push(
            Diagnostic::error("E6010", "nothing is written down")
                .help("write it like `back-squat 42.5 8 8 7 r2; plank 45s 40s`"),
        );
    }
    if faults.is_empty() { Ok(merged(items)) } else { Err(faults) }
}

/// Lines of the same exercise are one: the later sets follow the earlier.
fn merged(items: Vec<DoneItem>) -> Vec<DoneItem> {
    let mut merged: Vec<DoneItem> = Vec::new();
    for item in items {
        match merged.iter_mut().find(|before| before.exercise == item.exercise) {
            Some(before) => before.sets.extend(item.sets),
            None => merged.push(item),
        }
    }
    merged
}

fn line(
    source: &Source,
    range: Range<usize>,
    context: &Context<'_>,
) -> Result<DoneItem, Diagnostic> {
    let (range, note) = without_note(&source.text, range);
    let words: Vec<Range<usize>> = parts(&source.text[range.clone()], char::is_whitespace)
        .into_iter()
        .map(|word| word.start + range.start..word.end + range.start)
        .collect();
    let text =
        |word: &Range<usize>| source.text[word.clone()].trim_end_matches([',', ':']).to_owned();
    let words: Vec<(String, Range<usize>)> =
        words.into_iter().map(|word| (text(&word), word)).collect();
    let (entry, used) = named(source, &words, context)?;
    let planned = context.items.iter().find(|item| item.exercise == entry.id).copied();
    let about =
        About { entry, planned, units: context.units, lightest_kg: (context.lightest_kg)(entry) };
    let typed: Vec<&str> = words[used..].iter().map(|(word, _)| word.as_str()).collect();
    let read = sets(&typed, &about).map_err(|fault| {
        let at = words[used..].get(fault.word).map_or(range.clone(), |(_, at)| at.clone());
        Diagnostic::error(fault.code, fault.message).at(source.label(at, "here")).help(fault.help)
    })?;
    let sets = match read {
        Sets::Done(sets) => sets,
        Sets::Skipped => Vec::new(),
    };
    Ok(DoneItem { exercise: entry.id.clone(), asked: planned.map(Asked::of), sets, note })
}

/// The exercise at the beginning of a line, and how many words name it.
fn named<'a>(
    source: &Source,
    words: &[(String, Range<usize>)],
    context: &Context<'a>,
) -> Result<(&'a Entry, usize), Diagnostic> {
    let day: Vec<&str> = context.items.iter().map(|item| item.exercise.as_str()).collect();
    let joined = |count: usize| {
        let words: Vec<&str> = words[..count].iter().map(|(word, _)| word.as_str()).collect();
        words.join(" ")
    };
    // A name may hold numbers, so the longest beginning that is an exercise's own name comes first.
    let has_letters = |word: &str| word.contains(char::is_alphanumeric);
    let counts = (1..=words.len()).rev().filter(|count| has_letters(&words[count - 1].0));
    for count in counts {
        let id = name::kebab(&joined(count));
        let own = |entry: &&Entry| name::kebab(&entry.name) == id;
        let found = context.entries.get(&id).or_else(|| context.entries.values().find(own));
        if let Some(entry) = found {
            return Ok((entry, count));
        }
    }
    let count = words.iter().take_while(|(word, _)| word::is_name(word)).count();
    let whole = words.first().map_or(0, |(_, at)| at.start)
        ..words.get(count.max(1) - 1).map_or(0, |(_, at)| at.end);
    let label = source.label(whole, "this name");
    if count == 0 {
        return Err(Diagnostic::error("E6010", "a line begins with the exercise")
            .at(label)
            .help("write it like `back-squat 42.5 8 8 7 r2`"));
    }
    let typed = joined(count);
    let entry = name::exercise(&typed, &day, context.entries).map_err(|none| match none {
        NoName::Unknown(help) => {
            Diagnostic::error("E6013", format!("there is no exercise {}", quoted(&typed)))
                .at(label)
                .help(help)
        }
        NoName::Several(ids) => {
            let message = format!("{} could be more than one exercise", quoted(&typed));
            let ids: Vec<String> = ids.iter().map(|id| format!("`{id}`")).collect();
            Diagnostic::error("E6011", message)
                .at(label)
                .help(format!("write {}", ids.join(" or ")))
        }
    })?;
    Ok((entry, count))
}

/// What stands in brackets at the end of a line is a note.
fn without_note(text: &str, range: Range<usize>) -> (Range<usize>, String) {
    let line = text[range.clone()].trim_end();
    let open = line.strip_suffix(')').and_then(|rest| rest.find('('));
    match open {
        Some(open) => {
            let note = line[open + 1..line.len() - 1].trim().to_owned();
            (range.start..range.start + open, note)
        }
        None => (range, String::new()),
    }
}

/// The parts of a text between separators, without those that are blank.
fn parts(text: &str, separates: impl Fn(char) -> bool) -> Vec<Range<usize>> {
    let mut parts = Vec::new();
    let mut start = 0;
    for (at, letter) in text.char_indices().chain([(text.len(), ' ')]) {
        if at == text.len() || separates(letter) {
            let part = &text[start..at];
            if !part.trim().is_empty() {
                let lead = part.len() - part.trim_start().len();
                parts.push(start + lead..start + part.trim_end().len());
            }
            start = at + letter.len_utf8();
        }
    }
    parts
}

#[cfg(test)]
mod tests;
