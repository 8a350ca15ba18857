//! Bytes of a file into a text that is worth parsing.

use crate::diagnostic::{Diagnostic, Label, Source};

/// The largest profile, place or list of exercises that is read, in bytes.
pub const MOST_BYTES: usize = 1_000_000;

/// The largest plan: one of 52 weeks and seven days has 1.5 MB.
pub const MOST_PLAN_BYTES: usize = 4_000_000;

/// Takes the bytes of a file.
///
/// # Errors
/// More bytes than may be (E1001), not UTF-8 (E1002), or with characters that no text file has (E1003).
pub fn source(name: &str, bytes: Vec<u8>, most: usize) -> Result<Source, Diagnostic> {
    if bytes.len() > most {
        return Err(too_large(name, most));
    }
    let text = String::from_utf8(bytes).map_err(|error| not_utf8(name, &error))?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
    let source = Source::new(name, text);
    match text.find(is_foreign) {
        Some(at) => Err(foreign_character(&source, at)),
        None => Ok(source),
    }
}

fn is_foreign(letter: char) -> bool {
    letter.is_control() && !matches!(letter, '\n' | '\r' | '\t' | '\u{85}')
}

/// E1001: a profile has a few kilobytes, so a huge file is a mistake.
#[must_use]
pub fn too_large(name: &str, most: usize) -> Diagnostic {
    Diagnostic::error("E1001", format!("the file is larger than {} MB", most / 1_000_000))
        .at(Label::whole(name))
        .help("check that it is the right file: profiles have a few kilobytes, and plans of many weeks a few hundred")
}

/// E1002: the place is told in lines of what could be read.
fn not_utf8(name: &str, error: &std::string::FromUtf8Error) -> Diagnostic {
    let good = error.utf8_error().valid_up_to();
    let readable = String::from_utf8_lossy(&error.as_bytes()[..good]);
    let label = Source::new(name, &readable).label(good..good, "the first byte that is not UTF-8");
    Diagnostic::error("E1002", "the file is not UTF-8 text")
        .at(label)
        .help("save it again as UTF-8; most editors offer it under \"Save with encoding\"")
}

/// E1003: a NUL or another control character comes from a binary or damaged file.
fn foreign_character(source: &Source, at: usize) -> Diagnostic {
    Diagnostic::error("E1003", "the file holds a character that no text file has")
        .at(source.label(at..at, "a control character"))
        .help(
            "open it in a text editor and delete the character, or check that it is the right file",
        )
}
