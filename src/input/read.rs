//! A text into a checked value with the places of its parts.

use schemars::JsonSchema;
use serde::de::DeserializeOwned;

use super::marks::Marks;
use super::{shape, syntax};
use crate::diagnostic::{self, Diagnostic, Source};

/// A value and where its parts stand.
#[derive(Debug, Clone)]
pub struct Read<T> {
    /// What the file says.
    pub value: T,
    /// Where it says it.
    pub marks: Marks,
}

/// Reads a YAML or JSON text as a `T`, checked against the schema of `T`.
///
/// ```
/// use weekwright::diagnostic::Source;
/// use weekwright::input::{place::Place, read};
///
/// let place = Source::new("shed.yaml", "place: shed\nequipment: [dumbells]\n");
/// let faults = read::<Place>(&place).expect_err("a word is misspelled");
/// assert_eq!(faults[0].help, "did you mean `dumbbells`?");
/// ```
///
/// # Errors
/// Every fault of the text, sorted by place.
pub fn read<T: DeserializeOwned + JsonSchema>(source: &Source) -> Result<Read<T>, Vec<Diagnostic>> {
    let marks = Marks::parse(source)?;
    let value = value_of(&source.text).map_err(|error| vec![refused(source, &error)])?;
    let mut faults = shape::check(&value, &shape::schema::<T>(), &marks);
    if !faults.is_empty() {
        diagnostic::sort(&mut faults);
        return Err(faults);
    }
    match serde_yaml::from_value(value) {
        Ok(value) => Ok(Read { value, marks }),
        Err(error) => Err(vec![misfit(&marks, &error)]),
    }
}

/// JSON is YAML as well, and its own parser is quicker.
fn value_of(text: &str) -> Result<serde_yaml::Value, serde_yaml::Error> {
    let json = text.starts_with('{').then(|| serde_json::from_str(text).ok()).flatten();
    json.map_or_else(|| serde_yaml::from_str(text), Ok)
}

/// The two parsers may differ on odd YAML; the stricter one wins.
fn refused(source: &Source, error: &serde_yaml::Error) -> Diagnostic {
    let at = error.location().map_or(0, |location| location.index());
    let message = error.to_string();
    let info = message.split(" at line ").next().unwrap_or(&message);
    if info.contains("as u128") || info.contains("as i128") {
        return huge_number(source, at);
    }
    syntax::broken(source, at, info)
}

/// E1204: a number of 20 digits is none that anyone meant.
fn huge_number(source: &Source, at: usize) -> Diagnostic {
    let rest = source.text.get(at..).unwrap_or_default();
    let digits = rest.find([',', '}', ']', '\n', ' ']).unwrap_or(rest.len());
    Diagnostic::error("E1204", "this number is too large to be counted with")
        .at(source.label(at..at + digits, "out of range"))
        .help("write a number that a coach would say")
}

/// E1212: the schema lets through what the type does not.
fn misfit(marks: &Marks, error: &serde_yaml::Error) -> Diagnostic {
    Diagnostic::error("E1212", format!("the file cannot be used: {error}"))
        .at(marks.at(&[], ""))
        .help("compare the file with the README's key by key table")
}
