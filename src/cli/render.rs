//! Diagnostics for people and for programs.

use anstyle::Style;
use serde_json::{Map, Value, json};

use crate::diagnostic::{Diagnostic, Label, Severity, Source, Span, counted};

/// The width that is kept to.
pub const WIDTH: usize = 80;

/// Faults that are told in full; the others are only counted.
const MOST: usize = 50;

const STRONG: Style = Style::new().bold();
const QUIET: Style = Style::new().dimmed();

/// Diagnostics in sentences, each with its place and the line that is meant, colored for terminals. Errors come before
/// remarks where not all are told. With `codes`, each ends with its code.
#[must_use]
pub fn text(diagnostics: &[Diagnostic], sources: &[Source], codes: bool) -> String {
    let errors = diagnostics.iter().filter(|found| found.is_error());
    let remarks = diagnostics.iter().filter(|found| !found.is_error());
    let told: Vec<&Diagnostic> = if diagnostics.len() > MOST {
        errors.chain(remarks).take(MOST).collect()
    } else {
        diagnostics.iter().collect()
    };
    let mut text = String::new();
    for diagnostic in &told {
        text.push_str(&one(diagnostic, sources, codes));
        text.push('\n');
    }
    let left = diagnostics.len() - told.len();
    if left > 0 {
        text.push_str(&format!("and {} more\n", counted(left, "like these", "like these")));
    }
    text.push_str(&count(diagnostics));
    text
}

/// Diagnostics as one JSON document, with more keys beside them.
#[must_use]
pub fn document(diagnostics: &[Diagnostic], details: &Map<String, Value>) -> Value {
    let mut whole = Map::new();
    whole.insert("diagnostics".to_owned(), json!(diagnostics));
    whole.extend(details.clone());
    Value::Object(whole)
}

/// The same as text on several lines.
#[must_use]
pub fn json(diagnostics: &[Diagnostic], details: &Map<String, Value>) -> String {
    format!("{:#}\n", document(diagnostics, details))
}

/// `tide-01.yaml, line 5, column 1: such and such. Do this instead.`, and the line under it.
fn one(diagnostic: &Diagnostic, sources: &[Source], codes: bool) -> String {
    let place = diagnostic.labels.first().map(place).unwrap_or_default();
    let lead = match (diagnostic.severity, place.as_str()) {
        (Severity::Error, "") => String::new(),
        (Severity::Error, place) => format!("{place}: "),
        (Severity::Warning, "") => "note: ".to_owned(),
        (Severity::Warning, place) => format!("{place}, note: "),
    };
    let (help, more) = diagnostic.help.split_once('\n').unwrap_or((&diagnostic.help, ""));
    let code = if codes { format!(" [{}]", diagnostic.code) } else { String::new() };
    let help = sentence(help);
    let said =
        format!("{}.{}{help}{code}", diagnostic.message, if help.is_empty() { "" } else { " " });
    let mut text = String::new();
    let whole = paragraph(&format!("{lead}{said}"), WIDTH);
    // The place stands out; it is no longer than the first line in almost every file.
    match whole.strip_prefix(&place).filter(|_| !place.is_empty()) {
        Some(rest) => text.push_str(&format!("{STRONG}{place}{STRONG:#}{rest}\n")),
        None => text.push_str(&format!("{whole}\n")),
    }
    for (at, label) in diagnostic.labels.iter().enumerate() {
        let source = sources.iter().find(|source| *source.name == label.source);
        text.push_str(&shown(label, source, at == 0));
    }
    if !more.is_empty() {
        text.push_str(&paragraph(more, WIDTH));
        text.push('\n');
    }
    text
}

/// The file, and where in it.
fn place(label: &Label) -> String {
    // `command line` and the like are no files.
    let is_file = label.source.contains(['.', '/', '\\']);
    let name = if is_file { format!("`{}`", label.source) } else { label.source.clone() };
    match label.span {
        Some(Span { line, column, .. }) => format!("{name}, line {line}, column {column}"),
        None => name,
    }
}

/// The line that a label means with a stroke under the words, after where it stands unless that was just told.
fn shown(label: &Label, source: Option<&Source>, is_told: bool) -> String {
    let said = if label.text.is_empty() { String::new() } else { format!("  {}", label.text) };
    let head = match (is_told, label.text.is_empty()) {
        (true, _) => String::new(),
        (false, true) => format!("see {}\n", place(label)),
        (false, false) => format!("{}: {}\n", place(label), label.text),
    };
    let Some((source, span)) = source.zip(label.span) else { return head };
    let (line, before, width) = excerpt(source, span);
    let said = if is_told { said } else { String::new() };
    let stroke = "-".repeat(width.max(1));
    format!("{head}    {line}\n{QUIET}    {}{stroke}{said}{QUIET:#}\n", " ".repeat(before))
}

/// The part of a line that is shown: all of it, or what stands around the place where it is long. With the columns before
/// the place, and the place's own.
fn excerpt(source: &Source, span: Span) -> (String, usize, usize) {
    const ROOM: usize = WIDTH - 6;
    const BEFORE: usize = 30;
    let line = source.text.lines().nth(span.line - 1).unwrap_or_default();
    let length = source.text.get(span.start..span.end).map_or(1, |text| text.chars().count());
    let at = span.column - 1;
    let total = line.chars().count();
    let from = if total <= ROOM { 0 } else { at.saturating_sub(BEFORE) };
    let visible = |letter: char| if letter.is_control() { ' ' } else { letter };
    let mut part: String = line.chars().skip(from).take(ROOM).map(visible).collect();
    let mut before = at - from;
    if from > 0 {
        part = format!("... {part}");
        before += 4;
    }
    let part: String = part.chars().take(ROOM).collect();
    let room = part.chars().count().saturating_sub(before);
    (part.trim_end().to_owned(), before, length.min(room.max(1)))
}

/// A help text as a sentence of its own.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let Some(first) = letters.next() else { return String::new() };
    let end = if text.ends_with(['.', '?', '!', ':']) { "" } else { "." };
    format!("{}{}{end}", first.to_uppercase(), letters.as_str())
}

/// Breaks a text at spaces so that no line is longer than a width, where words allow it. What
/// stands in back quotes is to be typed as it is, so it stays on one line.
#[must_use]
pub fn wrapped(text: &str, width: usize) -> String {
    let mut lines: Vec<String> = Vec::new();
    for word in words(text, width) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines.join("\n")
}

/// Lines for people: each is wrapped with the indent that it starts with.
#[must_use]
pub fn paragraph(text: &str, width: usize) -> String {
    let line = |line: &str| {
        let indent = " ".repeat(line.len() - line.trim_start().len());
        let wrapped = wrapped(line.trim_start(), width.max(40) - indent.len());
        format!("{indent}{}", wrapped.replace('\n', &format!("\n{indent}")))
    };
    text.split('\n').map(line).collect::<Vec<_>>().join("\n")
}

/// Words of a text; a back-quoted part counts as one word where it fits a line.
fn words(text: &str, width: usize) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut is_open = false;
    for word in text.split(' ') {
        match words.last_mut() {
            Some(last) if is_open && last.chars().count() + word.chars().count() < width => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
        is_open ^= word.matches('`').count() % 2 == 1;
    }
    words
}

fn count(diagnostics: &[Diagnostic]) -> String {
    let errors = diagnostics.iter().filter(|found| found.is_error()).count();
    let remarks = diagnostics.len() - errors;
    let told = (counted(errors, "fault", "faults"), counted(remarks, "note", "notes"));
    match (errors, remarks) {
        (1, 0) | (0, 1) => String::new(),
        (0, _) => told.1,
        (_, 0) => told.0,
        _ => format!("{}, {}", told.0, told.1),
    }
}
