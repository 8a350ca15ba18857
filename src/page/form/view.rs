//! A profile's form as its template shows it: sections of controls, each with what was typed and what is wrong with it.

use jiff::civil::Date;
use serde::Serialize;

use super::typed::AS_WRITTEN;
use super::{Field, Kind, fields};
use crate::diagnostic::{Diagnostic, Source};
use crate::input::marks::{Marks, Parts};
use crate::page::collision::Told;
use crate::page::fields::Fields;
use crate::page::template::known;

/// The sections of the form with their keys. A key that none names stands in the last one.
pub(super) const SECTIONS: [(&str, &[&str]); 6] = [
    (
        "who",
        &[
            "client",
            "units",
            "clock",
            "paper",
            "birth_year",
            "sex",
            "height_cm",
            "body_mass_kg",
            "resting_heart_rate",
        ],
    ),
    ("when", &["start", "weeks", "sessions", "place", "equipment"]),
    ("aim", &["training_status", "goal", "emphasis", "limits", "exercises", "known_lifts"]),
    ("before", &["screening"]),
    ("beside", &["conditioning", "other_training"]),
    (
        "more",
        &[
            "split",
            "supersets",
            "finishers",
            "targets",
            "variety",
            "recovery_hours",
            "balance",
            "previous",
            "rules",
        ],
    ),
];

/// Keys inside a map, in the order that they are asked.
const INNER: [&str; 24] = [
    "key",
    "day",
    "at",
    "minutes",
    "load",
    "reps",
    "rir",
    "cap",
    "from_week",
    "modes",
    "must",
    "prefer",
    "avoid",
    "never",
    "active",
    "disease",
    "signs",
    "intensity",
    "pregnant",
    "pain",
    "chest",
    "painless",
    "told_to_wait",
    "clinician_agreed",
];

/// Rows that are shown beyond those that are filled.
const BLANK_ROWS: usize = 2;

/// Keys whose texts are ids of exercises.
const EXERCISES: [&str; 2] = ["exercises", "known_lifts"];

/// The place of a key in the form.
pub(super) fn order(key: &str) -> usize {
    let keys = SECTIONS.iter().flat_map(|(_, keys)| keys.iter()).chain(&INNER);
    keys.clone().position(|one| *one == key).unwrap_or_else(|| keys.count())
}

/// What stands around a form.
#[derive(Debug, Clone, Default, Serialize)]
pub(in crate::page) struct Heading {
    /// The client's key; empty for a new one.
    pub(in crate::page) key: String,
    pub(in crate::page) client: String,
    /// The file's name.
    pub(in crate::page) file: String,
    /// Of the file as it was read.
    pub(in crate::page) read: String,
    pub(in crate::page) notice: String,
    /// The file's text; empty for a new one.
    pub(in crate::page) whole: String,
}

/// The form.
#[derive(Serialize)]
pub(in crate::page) struct Form {
    #[serde(flatten)]
    heading: Heading,
    sections: Vec<Section>,
    /// Every fault, at the top.
    faults: Vec<Told>,
    /// Exercises to choose from.
    exercises: Vec<[String; 2]>,
    /// Keys that are shown as they stand in the file.
    written: Vec<String>,
}

#[derive(Serialize)]
struct Section {
    id: &'static str,
    is_open: bool,
    controls: Vec<Control>,
}

/// One part of the form.
#[derive(Default, Serialize)]
struct Control {
    name: String,
    label: String,
    help: String,
    is_required: bool,
    /// Which kind of control the template draws.
    control: &'static str,
    value: String,
    values: Vec<String>,
    words: Vec<Word>,
    example: String,
    least: Option<f64>,
    most: Option<f64>,
    step: &'static str,
    /// The list of ids that a text is chosen from.
    suggests: bool,
    inner: Vec<Control>,
    rows: Vec<Vec<Control>>,
    faults: Vec<Told>,
}

#[derive(Serialize)]
struct Word {
    id: String,
    name: String,
    is_on: bool,
}

impl Form {
    /// The form with what was typed, and the faults of the text that it makes.
    pub(in crate::page) fn of(
        heading: Heading,
        typed: &Fields,
        (text, faults): (&str, &[Diagnostic]),
        places: &[String],
        exercises: Vec<[String; 2]>,
    ) -> Form {
        let written: Vec<String> = typed.all(AS_WRITTEN).map(str::to_owned).collect();
        let owners: Vec<Option<String>> = faults.iter().map(|fault| owner(text, fault)).collect();
        let control = |field: &Field| {
            let is_written = written.contains(&field.key);
            let mut control = if is_written {
                let example = String::new();
                control(
                    &Field { kind: Kind::Written { example }, ..field.clone() },
                    &field.key,
                    typed,
                )
            } else if field.key == "place" {
                place(field, typed, places)
            } else {
                control(field, &field.key, typed)
            };
            let own = faults
                .iter()
                .zip(&owners)
                .filter(|(_, owner)| owner.as_deref() == Some(&field.key));
            control.faults = own.map(|(fault, _)| Told::of(fault)).collect();
            control
        };
        let last = SECTIONS.len() - 1;
        let section_of =
            |key: &str| SECTIONS.iter().position(|(_, keys)| keys.contains(&key)).unwrap_or(last);
        let sections = SECTIONS.iter().enumerate().map(|(place, (id, _))| {
            let own = fields().iter().filter(|field| section_of(&field.key) == place);
            let controls: Vec<Control> = own.map(control).collect();
            let is_open = place < last || controls.iter().any(|control| !control.faults.is_empty());
            Section { id, is_open, controls }
        });
        let sections = sections.collect();
        Form { heading, sections, faults: Told::all(faults), exercises, written }
    }
}

/// The key whose lines a fault points at, or that it says is missing.
fn owner(text: &str, fault: &Diagnostic) -> Option<String> {
    let marks = Marks::parse(&Source::new("profile", text)).ok();
    let start = fault.labels.first().and_then(|label| label.span).map(|span| span.start);
    if let (Some(marks), Some(start)) = (&marks, start)
        && let Parts::Map(found) = &marks.root().parts
    {
        let holds = |field: &&crate::input::marks::Field| {
            (field.key_bytes.start..=field.node.bytes.end.max(field.key_bytes.end)).contains(&start)
        };
        if let Some(field) = found.iter().find(holds).filter(|_| fault.code != "E1205") {
            return Some(field.key.clone());
        }
    }
    let is_named = |field: &&Field| fault.message.contains(&format!("`{}`", field.key));
    fields().iter().find(is_named).map(|field| field.key.clone())
}

/// `birth year` of `birth_year`, unless the table of words has a better one.
fn label(key: &str) -> String {
    let told = known(&format!("label_{key}"));
    told.map_or_else(|| key.replace('_', " "), str::to_owned)
}

/// What the schema says of a key, unless the table of words says it for somebody who sees no file.
fn help(field: &Field) -> String {
    known(&format!("help_{}", field.key)).map_or_else(|| field.help.clone(), str::to_owned)
}

/// A day is chosen from the browser's calendar, unless what stands there is none, which stays as it is.
fn date_or_text(value: &str) -> &'static str {
    if value.is_empty() || value.parse::<Date>().is_ok() { "date" } else { "text" }
}

fn control(field: &Field, name: &str, typed: &Fields) -> Control {
    let base = Control {
        name: name.to_owned(),
        label: label(&field.key),
        help: help(field),
        is_required: field.is_required,
        value: typed.get(name).unwrap_or_default().to_owned(),
        suggests: name.split('.').next().is_some_and(|first| EXERCISES.contains(&first)),
        step: "any",
        ..Control::default()
    };
    match &field.kind {
        Kind::Text { example } => {
            let control = match field.key.as_str() {
                "at" => "time",
                "start" | "clinician_agreed" => date_or_text(&base.value),
                _ => "text",
            };
            Control { control, example: example.clone(), ..base }
        }
        Kind::Number { example, least, most, is_whole } => Control {
            control: "number",
            example: example.clone(),
            least: *least,
            most: *most,
            step: if *is_whole { "1" } else { "any" },
            ..base
        },
        Kind::Choice { words, default } => {
            let value = base.value.clone();
            let mut words = chosen(words, &[value.as_str()]);
            if !value.is_empty() && !words.iter().any(|word| word.is_on) {
                words.push(Word { id: value.clone(), name: value, is_on: true });
            }
            Control {
                control: "choice",
                words,
                example: default.clone().unwrap_or_default(),
                ..base
            }
        }
        Kind::YesNo => Control { control: "yes-no", ..base },
        Kind::Ticks { words } => {
            let on: Vec<&str> = typed.all(name).collect();
            let mut words = chosen(words, &on);
            let others: Vec<&&str> =
                on.iter().filter(|one| !words.iter().any(|word| word.id == **one)).collect();
            let others = others.into_iter().map(|one| Word {
                id: (*one).to_owned(),
                name: (*one).to_owned(),
                is_on: true,
            });
            let others: Vec<Word> = others.collect();
            words.extend(others);
            Control { control: "ticks", words, ..base }
        }
        Kind::Words { words } => Control {
            control: "text",
            example: words.iter().take(2).cloned().collect::<Vec<_>>().join(", "),
            ..base
        },
        Kind::Lines { example } => {
            let mut values: Vec<String> = typed.all(name).map(str::to_owned).collect();
            values.extend(std::iter::repeat_n(String::new(), BLANK_ROWS));
            Control { control: "lines", values, example: example.clone(), ..base }
        }
        Kind::Group(inner) => Control {
            control: "group",
            inner: inner
                .iter()
                .map(|one| control(one, &format!("{name}.{}", one.key), typed))
                .collect(),
            ..base
        },
        Kind::Rows(inner) => Control {
            control: "rows",
            rows: rows(name, typed, |row| of_row(inner, row, typed)),
            ..base
        },
        Kind::Keyed { words, value } => {
            let row = |row: &str| {
                let key = std::iter::once(key(words, row, typed));
                key.chain(of_row(value, row, typed)).collect()
            };
            Control { control: "rows", rows: rows(name, typed, row), ..base }
        }
        Kind::Written { example } => Control { control: "text", example: example.clone(), ..base },
    }
}

fn of_row(inner: &[Field], row: &str, typed: &Fields) -> Vec<Control> {
    inner.iter().map(|one| control(one, &format!("{row}.{}", one.key), typed)).collect()
}

/// The key of a row in a map.
fn key(words: &[String], row: &str, typed: &Fields) -> Control {
    let kind = if words.is_empty() {
        Kind::Text { example: String::new() }
    } else {
        Kind::Choice { words: words.to_vec(), default: None }
    };
    let field = Field { key: "key".to_owned(), help: String::new(), is_required: false, kind };
    control(&field, &format!("{row}.key"), typed)
}

/// Rows that are filled, and some that are not.
fn rows(name: &str, typed: &Fields, row: impl Fn(&str) -> Vec<Control>) -> Vec<Vec<Control>> {
    let prefix = format!("{name}.");
    let filled = typed.under(&prefix).filter(|(_, text)| !text.is_empty());
    let places = filled.filter_map(|(rest, _)| rest.split('.').next()?.parse::<usize>().ok());
    let count = places.max().map_or(0, |last| last.min(60) + 1);
    (0..count + BLANK_ROWS).map(|place| row(&format!("{name}.{place}"))).collect()
}

fn chosen(words: &[String], on: &[&str]) -> Vec<Word> {
    let one = |word: &String| Word {
        id: word.clone(),
        name: word.replace('-', " "),
        is_on: on.contains(&word.as_str()),
    };
    words.iter().map(one).collect()
}

/// The place is chosen from the folder's own.
fn place(field: &Field, typed: &Fields, places: &[String]) -> Control {
    let kind = Kind::Choice { words: places.to_vec(), default: None };
    let mut control = control(&Field { kind, ..field.clone() }, &field.key, typed);
    for word in &mut control.words {
        word.name.clone_from(&word.id);
    }
    control
}
