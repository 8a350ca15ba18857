//! Diagnostics for people and for programs.

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use serde_json::{Map, Value, json};

use crate::diagnostic::{Diagnostic, Label, Severity, Source, counted};

/// The width that is kept to.
pub const WIDTH: usize = 80;

/// Diagnostics with the lines they point at, colored for terminals.
#[must_use]
pub fn text(diagnostics: &[Diagnostic], sources: &[Source]) -> String {
    let renderer = Renderer::styled().term_width(WIDTH);
    let mut text = String::new();
    for diagnostic in diagnostics {
        text.push_str(&one(diagnostic, sources, &renderer));
        text.push_str("\n\n");
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

fn one(diagnostic: &Diagnostic, sources: &[Source], renderer: &Renderer) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    // Room for the longest beginning, `warning[W1307]: `, on the first line.
    let message = wrapped(&diagnostic.message, WIDTH - 16);
    let title = level.primary_title(message).id(diagnostic.code);
    let mut group = Group::with_title(title);
    let mut rest = diagnostic.labels.as_slice();
    while let Some(first) = rest.first() {
        let same = rest.iter().take_while(|label| label.source == first.source).count();
        let (these, others) = rest.split_at(same);
        let source = sources.iter().find(|source| *source.name == first.source);
        let is_first = rest.len() == diagnostic.labels.len();
        group = match (source, first.span) {
            (Some(source), Some(_)) => group.element(snippet(source, these, is_first)),
            _ => group.element(origin(first)),
        };
        rest = others;
    }
    let help = paragraph(&diagnostic.help, WIDTH - 16);
    renderer.render(&[group.element(Level::HELP.message(help))])
}

fn snippet<'a>(
    source: &'a Source,
    labels: &'a [Label],
    is_first: bool,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    let spans = labels.iter().filter_map(|label| Some((label, label.span?)));
    let annotations = spans.enumerate().map(|(index, (label, span))| {
        let kind =
            if is_first && index == 0 { AnnotationKind::Primary } else { AnnotationKind::Context };
        let annotation = kind.span(span.start..span.end);
        if label.text.is_empty() { annotation } else { annotation.label(label.text.as_str()) }
    });
    Snippet::source(&*source.text).path(&*source.name).annotations(annotations)
}

fn origin(label: &Label) -> Origin<'_> {
    let origin = Origin::path(label.source.as_str());
    match label.span {
        Some(span) => origin.line(span.line).char_column(span.column),
        None => origin,
    }
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
    let warnings = diagnostics.len() - errors;
    let told = (counted(errors, "error", "errors"), counted(warnings, "warning", "warnings"));
    match (errors, warnings) {
        (0, _) => told.1,
        (_, 0) => told.0,
        _ => format!("{}, {}", told.0, told.1),
    }
}
