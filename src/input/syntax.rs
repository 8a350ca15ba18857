//! Faults of the YAML itself, before anyone asks what it says.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, Source, quoted};

/// Deepest nesting that is read; a plan needs nine levels.
pub const DEEPEST: usize = 32;

/// E1101 for what the parser stops at, E1102 where a tab is behind it, E1103 for a lost alias.
#[must_use]
pub fn broken(source: &Source, at: usize, info: &str) -> Diagnostic {
    if info.contains("unknown anchor") {
        return alias(source, at..at + 1);
    }
    if let Some(tab) = tab_before(source, at) {
        return Diagnostic::error("E1102", "a line is indented with a tab")
            .at(source.label(tab..tab + 1, "this is a tab"))
            .help("YAML indents with spaces only: replace the tab by two spaces");
    }
    let info = info.trim_end_matches('.');
    Diagnostic::error("E1101", format!("this is not YAML: {info}"))
        .at(source.label(at..at + 1, "the reader stopped here"))
        .help(
            "look at this line and the one above it: a missing `:` or space after it, a quote or \
             bracket that is not closed, or a line that is indented differently from its neighbors",
        )
}

/// The tab in the indentation of a byte's line or of the line before it.
fn tab_before(source: &Source, at: usize) -> Option<usize> {
    let at = (at..source.text.len())
        .find(|byte| source.text.is_char_boundary(*byte))
        .unwrap_or(source.text.len());
    let (before, after) = source.text.split_at(at);
    let line = before.rfind('\n').map_or(0, |end| end + 1);
    let previous = before[..line.saturating_sub(1)].rfind('\n').map_or(0, |end| end + 1);
    let end = at + after.find('\n').unwrap_or(after.len());
    [line..end, previous..line].into_iter().find_map(|lines| {
        let text = &source.text[lines.clone()];
        let indent = text.len() - text.trim_start_matches([' ', '\t', '-']).len();
        text[..indent].find('\t').map(|tab| lines.start + tab)
    })
}

/// E1103: an alias stands for text elsewhere.
#[must_use]
pub fn alias(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1103", "aliases (`*name`) are not read")
        .at(source.label(bytes, "an alias"))
        .help("write the value out here; if a `*` was meant as text, put it in quotes")
}

/// E1103: an anchor names a value for aliases.
#[must_use]
pub fn anchor(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1103", "anchors (`&name`) are not read")
        .at(source.label(bytes, "this value has an anchor"))
        .help("delete the `&name`; if a `&` was meant as text, put it in quotes")
}

/// E1104: a tag changes how a value is read.
#[must_use]
pub fn tag(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1104", "tags (`!name`) are not read")
        .at(source.label(bytes, "this value has a tag"))
        .help("delete the `!name`; if a `!` was meant as text, put it in quotes")
}

/// E1105: a second document would be overlooked.
#[must_use]
pub fn second_document(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1105", "the file holds more than one document")
        .at(source.label(bytes, "a second document starts here"))
        .help("put each client, place or plan into a file of its own, and delete this `---`")
}

/// E1106: no file of ours is this deep.
#[must_use]
pub fn too_deep(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1106", format!("lists and maps are nested more than {DEEPEST} deep"))
        .at(source.label(bytes, "too deep"))
        .help("check the brackets: no key needs more than nine levels")
}

/// E1107: of two values for one key, one would be lost.
#[must_use]
pub fn duplicate_key(source: &Source, key: &str, [first, second]: [Range<usize>; 2]) -> Diagnostic {
    Diagnostic::error("E1107", format!("the key {} stands here twice", quoted(key)))
        .at(source.label(second, "the second"))
        .at(source.label(first, "the first"))
        .help("keep one of the two, or join their values")
}

/// E1108: there is nothing to read.
#[must_use]
pub fn empty(source: &Source) -> Diagnostic {
    Diagnostic::error("E1108", "the file is empty")
        .at(source.label(0..0, "nothing here but comments or blank lines"))
        .help("write at least the keys that are required; `weekwright schema profile` lists them")
}

/// E1109: a key that is a list or a map.
#[must_use]
pub fn key_not_text(source: &Source, bytes: Range<usize>) -> Diagnostic {
    Diagnostic::error("E1109", "a key is a list or a map")
        .at(source.label(bytes, "this stands where a key belongs"))
        .help("a key is one word before a `:`; put brackets only after the `:`")
}
