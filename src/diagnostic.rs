//! What is wrong, where, and what to do about it.
//!
//! Every stage reports faults as [`Diagnostic`]s: `E1xxx` for files, `W1xxx` for remarks about
//! them. Only `cli` turns them into text for people.

mod faults;

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

pub use faults::Faults;
use serde::Serialize;

/// A text with the name under which people know it. Clones share the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// The path as typed, or `<stdin>`.
    pub name: Arc<str>,
    /// The whole text, UTF-8 without a byte order mark.
    pub text: Arc<str>,
}

impl Source {
    /// Names a text that is known to be good.
    #[must_use]
    pub fn new(name: &str, text: &str) -> Source {
        Source { name: name.into(), text: text.into() }
    }

    /// The place of a byte range; a range over several lines is cut at the end of the first.
    #[must_use]
    pub fn span(&self, bytes: Range<usize>) -> Span {
        let start = self.boundary(bytes.start);
        let line_start = self.text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end =
            self.text[start..].find(['\n', '\r']).map_or(self.text.len(), |at| start + at);
        let end = self.boundary(bytes.end.clamp(start, line_end));
        let end = start + self.text[start..end].trim_end().len();
        Span {
            line: 1 + self.text[..start].matches('\n').count(),
            column: 1 + self.text[line_start..start].chars().count(),
            start,
            end,
        }
    }

    /// The nearest character border at or before a byte.
    fn boundary(&self, byte: usize) -> usize {
        let mut byte = byte.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        byte
    }

    /// A label at a byte range of this text.
    #[must_use]
    pub fn label(&self, bytes: Range<usize>, text: impl Into<String>) -> Label {
        Label { source: self.name.to_string(), span: Some(self.span(bytes)), text: text.into() }
    }
}

/// A place in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Span {
    /// From 1.
    pub line: usize,
    /// From 1, in characters.
    pub column: usize,
    /// First byte, from 0.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
}

/// A place with a few words about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// The name of the source.
    pub source: String,
    /// Where in it; absent where the whole file is meant.
    #[serde(flatten, skip_serializing_if = "Option::is_none")]
    pub span: Option<Span>,
    /// What is there.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub text: String,
}

impl Label {
    /// A label for a whole file.
    #[must_use]
    pub fn whole(source: impl Into<String>) -> Label {
        Label { source: source.into(), span: None, text: String::new() }
    }
}

/// Whether the work can go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// It cannot.
    Error,
    /// It can, and this was done about it.
    Warning,
}

/// One fault: its code, what is wrong, where, and what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Diagnostic {
    /// `E1201` and the like: stable, listed in [`crate::input::check::CODES`].
    pub code: &'static str,
    /// Error or warning.
    pub severity: Severity,
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// The place first, then other places that matter.
    pub labels: Vec<Label>,
    /// What to do about it.
    pub help: String,
}

impl Diagnostic {
    /// A fault that stops the work.
    #[must_use]
    pub fn error(code: &'static str, message: impl Into<String>) -> Diagnostic {
        Diagnostic {
            code,
            severity: Severity::Error,
            message: message.into(),
            labels: Vec::new(),
            help: String::new(),
        }
    }

    /// A remark that lets the work go on.
    #[must_use]
    pub fn warning(code: &'static str, message: impl Into<String>) -> Diagnostic {
        Diagnostic { severity: Severity::Warning, ..Diagnostic::error(code, message) }
    }

    /// Adds a place.
    #[must_use]
    pub fn at(mut self, label: Label) -> Diagnostic {
        self.labels.push(label);
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Diagnostic {
        self.help = help.into();
        self
    }

    /// Whether the work must stop.
    #[must_use]
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }
}

/// Where, what, and what to do, on one line.
impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(Label { source, span, .. }) = self.labels.first() {
            match span {
                Some(Span { line, column, .. }) => write!(f, "{source}:{line}:{column}: ")?,
                None => write!(f, "{source}: ")?,
            }
        }
        write!(f, "{} [{}]", self.message, self.code)?;
        if self.help.is_empty() { Ok(()) } else { write!(f, "; {}", self.help) }
    }
}

/// Sorts faults by file and place, so that they read like the file.
pub fn sort(diagnostics: &mut [Diagnostic]) {
    diagnostics.sort_by(|a, b| place_of(a).cmp(&place_of(b)).then(a.code.cmp(b.code)));
}

fn place_of(diagnostic: &Diagnostic) -> Option<(&str, Option<Span>)> {
    let label = diagnostic.labels.first()?;
    Some((&label.source, label.span))
}

/// A count with its noun: `1 entry`, `2 entries`.
#[must_use]
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// A text from a file as a message may show it: short, on one line, without control characters.
#[must_use]
pub fn quoted(text: &str) -> String {
    const LONGEST: usize = 40;
    let mut shown: String = text.chars().take(LONGEST).flat_map(visible).collect();
    if text.chars().count() > LONGEST {
        shown.push_str("...");
    }
    format!("`{shown}`")
}

fn visible(letter: char) -> impl Iterator<Item = char> {
    let hidden = letter.is_control() || is_direction_mark(letter);
    let escaped = hidden.then(|| letter.escape_unicode());
    escaped.into_iter().flatten().chain((!hidden).then_some(letter))
}

/// Marks that turn the direction of writing could make a message read as something else.
const fn is_direction_mark(letter: char) -> bool {
    matches!(letter, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
