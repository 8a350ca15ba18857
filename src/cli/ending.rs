//! Endings of files, and what they say about the text in them.

use std::path::Path;

use clap::ValueEnum;

use super::Faults;
use crate::diagnostic::{Diagnostic, Label};
use crate::input::suggest;

/// The ending of a plan's file.
pub(super) const PLAN: &str = ".plan.yaml";

/// The ending of a profile that is not whole yet.
pub(super) const DRAFT: &str = ".draft.yaml";

/// Endings with the format that each one promises.
const ENDINGS: [(&str, &str); 12] = [
    ("txt", "text"),
    ("yaml", "yaml"),
    ("yml", "yaml"),
    ("json", "json"),
    ("html", "html"),
    ("htm", "html"),
    ("md", "md"),
    ("csv", "csv"),
    ("ics", "ics"),
    ("mps", "mps"),
    ("sqlite", "sqlite"),
    ("pdf", "pdf"),
];

/// The format that a file's ending promises.
pub(super) fn promised(path: &Path) -> Option<&'static str> {
    let ending = path.extension()?.to_str()?.to_ascii_lowercase();
    ENDINGS.iter().find(|(known, _)| *known == ending).map(|(_, format)| *format)
}

/// The ending of files of a format.
pub(super) fn of(format: &str) -> &str {
    ENDINGS.iter().find(|(_, known)| *known == format).map_or(format, |(ending, _)| *ending)
}

/// Whether a file's name says that it is YAML.
pub(super) fn is_yaml(path: &Path) -> bool {
    promised(path) == Some("yaml")
}

/// Whether a text is a plan, whole or not.
pub(super) fn is_plan(text: &str) -> bool {
    let is_json =
        text.trim_start().starts_with('{') && text.contains("\"format\": \"weekwright-plan");
    is_json || text.lines().any(|line| line.starts_with("format:"))
}

/// The format to write: the one that was asked for, else what the ending of the file promises, else the usual one.
///
/// # Errors
/// E1014: the ending promises another format than was asked for, or one that the command does not write.
pub(super) fn chosen<T: ValueEnum>(
    asked: Option<&T>,
    output: Option<&Path>,
    usual: T,
) -> Result<T, Faults> {
    let asked = asked.cloned();
    let file = output.filter(|path| *path != Path::new("-"));
    let Some((file, promised)) = file.and_then(|path| Some((path, promised(path)?))) else {
        return Ok(asked.unwrap_or(usual));
    };
    let is_promised = |format: &T| name_of(format) == promised;
    match asked {
        Some(asked) if is_promised(&asked) => Ok(asked),
        Some(asked) => Err(disagrees(file, &name_of(&asked))),
        None => T::value_variants()
            .iter()
            .find(|format| is_promised(format))
            .cloned()
            .ok_or_else(|| not_written::<T>(file)),
    }
}

/// E1014 where a file for something else than formats to choose from is named like one of another kind.
pub(super) fn holds(file: &Path, format: &str) -> Result<(), Faults> {
    match promised(file) {
        Some(promised) if promised != format => Err(disagrees(file, format)),
        _ => Ok(()),
    }
}

fn name_of<T: ValueEnum>(format: &T) -> String {
    format.to_possible_value().map(|value| value.get_name().to_owned()).unwrap_or_default()
}

fn disagrees(file: &Path, format: &str) -> Faults {
    let message = format!("the ending of this file is not that of {format}");
    let renamed = file.with_extension(of(format));
    Diagnostic::error("E1014", message)
        .at(Label::whole(file.display().to_string()))
        .help(format!("name it `{}`, or ask for what its ending says", renamed.display()))
        .into()
}

fn not_written<T: ValueEnum>(file: &Path) -> Faults {
    let formats: Vec<String> = T::value_variants().iter().map(name_of).collect();
    let formats: Vec<&str> = formats.iter().map(String::as_str).collect();
    let known = suggest::list(&formats);
    Diagnostic::error("E1014", "this command writes no file with this ending")
        .at(Label::whole(file.display().to_string()))
        .help(format!(
            "it writes {known}; pages, tables and calendars are made from a plan by `weekwright sheet`"
        ))
        .into()
}
