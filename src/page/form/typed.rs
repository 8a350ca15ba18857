//! From a value in a file to what a form shows, and from what was typed to a value.

use serde_yaml::{Mapping, Value};

use super::flow::flow;
use super::{Field, Kind, VALUE, fields};
use crate::page::fields::Fields;

/// The most rows of a list that are read.
const MOST_ROWS: usize = 60;

/// What an empty list is typed as, where that is an answer.
const NONE: &str = "none";

/// The hidden field that names keys which are shown as they stand in the file.
pub(super) const AS_WRITTEN: &str = "as-written";

/// What a form shows of a profile's text; nothing of a text that is no map.
pub(in crate::page) fn of_text(text: &str) -> Fields {
    let mut out = Fields::default();
    let Ok(Value::Mapping(map)) = serde_yaml::from_str::<Value>(text) else { return out };
    for field in fields() {
        let Some(value) = map.get(field.key.as_str()).filter(|value| !value.is_null()) else {
            continue;
        };
        if fits(&field.kind, value) {
            show(&field.kind, &field.key, value, &mut out);
        } else {
            out.0.push((AS_WRITTEN.to_owned(), field.key.clone()));
            out.0.push((field.key.clone(), flow(value)));
        }
    }
    out
}

/// Whether a value can be shown by its kind of field.
fn fits(kind: &Kind, value: &Value) -> bool {
    let map_of = |value: &Value, inner: &[Field]| {
        let Some(map) = value.as_mapping() else { return false };
        map.iter().all(|(key, value)| {
            let field = inner.iter().find(|field| key.as_str() == Some(&field.key));
            field.is_some_and(|field| fits(&field.kind, value))
        })
    };
    let is_single = !value.is_sequence() && !value.is_mapping();
    match kind {
        Kind::Text { .. } | Kind::Number { .. } => is_single,
        Kind::YesNo => value.is_bool(),
        Kind::Choice { .. } | Kind::Written { .. } => true,
        Kind::Ticks { words } => value.as_sequence().is_some_and(|list| {
            let is_word =
                |one: &Value| one.as_str().is_some_and(|one| words.iter().any(|word| word == one));
            list.iter().all(|one| is_word(one) || one.is_mapping())
        }),
        Kind::Words { .. } | Kind::Lines { .. } => {
            value.as_sequence().is_some_and(|list| list.iter().all(Value::is_string))
        }
        Kind::Group(inner) => map_of(value, inner),
        Kind::Rows(inner) => {
            let rows = value.as_sequence();
            rows.is_some_and(|rows| {
                rows.len() <= MOST_ROWS && rows.iter().all(|row| map_of(row, inner))
            })
        }
        Kind::Keyed { value: inner, .. } => value.as_mapping().is_some_and(|map| {
            let one = |value: &Value| match inner.as_slice() {
                [only] if only.key == VALUE => fits(&only.kind, value),
                _ => map_of(value, inner),
            };
            map.len() <= MOST_ROWS && map.iter().all(|(key, value)| key.is_string() && one(value))
        }),
    }
}

fn show(kind: &Kind, name: &str, value: &Value, out: &mut Fields) {
    let mut put = |name: &str, text: String| out.0.push((name.to_owned(), text));
    match (kind, value) {
        (Kind::YesNo, Value::Bool(is_so)) => {
            put(name, if *is_so { "yes" } else { "no" }.to_owned());
        }
        (Kind::Ticks { .. }, Value::Sequence(list)) => {
            for one in list {
                let shown = one.as_str().map_or_else(|| flow(one), str::to_owned);
                put(name, shown);
            }
        }
        (Kind::Words { .. }, Value::Sequence(list)) => {
            let words: Vec<&str> = list.iter().filter_map(Value::as_str).collect();
            put(name, if words.is_empty() { NONE.to_owned() } else { words.join(", ") });
        }
        (Kind::Lines { .. }, Value::Sequence(list)) => {
            for text in list.iter().filter_map(Value::as_str) {
                put(name, text.to_owned());
            }
        }
        (Kind::Group(inner), Value::Mapping(map)) => show_map(inner, name, map, out),
        (Kind::Rows(inner), Value::Sequence(rows)) => {
            for (place, row) in rows.iter().enumerate() {
                if let Value::Mapping(map) = row {
                    show_map(inner, &format!("{name}.{place}"), map, out);
                }
            }
        }
        (Kind::Keyed { value: inner, .. }, Value::Mapping(map)) => {
            for (place, (key, value)) in map.iter().enumerate() {
                let row = format!("{name}.{place}");
                out.0.push((format!("{row}.key"), key.as_str().unwrap_or_default().to_owned()));
                match (inner.as_slice(), value) {
                    ([only], _) if only.key == VALUE => {
                        show(&only.kind, &format!("{row}.{VALUE}"), value, out);
                    }
                    (_, Value::Mapping(map)) => show_map(inner, &row, map, out),
                    _ => {}
                }
            }
        }
        (_, Value::String(text)) => put(name, text.clone()),
        (_, value) => put(name, flow(value)),
    }
}

fn show_map(inner: &[Field], name: &str, map: &Mapping, out: &mut Fields) {
    for field in inner {
        if let Some(value) = map.get(field.key.as_str()).filter(|value| !value.is_null()) {
            show(&field.kind, &format!("{name}.{}", field.key), value, out);
        }
    }
}

/// What a form says of each key; `None` where it is left out.
pub(in crate::page) fn values(typed: &Fields) -> Vec<(&'static str, Option<Value>)> {
    let written: Vec<&str> = typed.all(AS_WRITTEN).collect();
    let value_of = |field: &'static Field| {
        let value = if written.contains(&field.key.as_str()) {
            typed.get(&field.key).map(as_written)
        } else {
            value(&field.kind, &field.key, typed)
        };
        (field.key.as_str(), value)
    };
    fields().iter().map(value_of).collect()
}

fn value(kind: &Kind, name: &str, typed: &Fields) -> Option<Value> {
    let text = || typed.get(name).map(str::to_owned);
    match kind {
        Kind::Text { .. } => text().map(Value::String),
        Kind::Number { .. } => text().map(number),
        Kind::Choice { .. } | Kind::Written { .. } => text().map(|text| as_written(&text)),
        Kind::YesNo => text().map(|text| match text.as_str() {
            "yes" => Value::Bool(true),
            "no" => Value::Bool(false),
            _ => Value::String(text),
        }),
        Kind::Ticks { .. } => listed(typed.all(name).map(as_written)),
        Kind::Words { words } => text().map(|text| Value::Sequence(worded(&text, words))),
        Kind::Lines { .. } => listed(typed.all(name).map(|text| Value::String(text.to_owned()))),
        Kind::Group(inner) => mapped(inner, name, typed).map(Value::Mapping),
        Kind::Rows(inner) => {
            let rows =
                (0..MOST_ROWS).filter_map(|place| mapped(inner, &format!("{name}.{place}"), typed));
            listed(rows.map(Value::Mapping))
        }
        Kind::Keyed { value: inner, .. } => keyed(inner, name, typed),
    }
}

/// Words with commas between them, or with spaces where each is one of the list; other text stays together.
fn worded(text: &str, words: &[String]) -> Vec<Value> {
    let is_word = |one: &str| words.iter().any(|word| word == one);
    let is_spaced = !text.contains(',') && text.split_whitespace().all(is_word);
    let parts: Vec<&str> =
        if is_spaced { text.split_whitespace().collect() } else { text.split(',').collect() };
    let parts = parts.into_iter().map(str::trim).filter(|part| !part.is_empty() && *part != NONE);
    parts.map(|part| Value::String(part.to_owned())).collect()
}

fn listed(values: impl Iterator<Item = Value>) -> Option<Value> {
    let values: Vec<Value> = values.collect();
    (!values.is_empty()).then_some(Value::Sequence(values))
}

fn mapped(inner: &[Field], name: &str, typed: &Fields) -> Option<Mapping> {
    let mut map = Mapping::new();
    for field in inner {
        if let Some(value) = value(&field.kind, &format!("{name}.{}", field.key), typed) {
            map.insert(Value::String(field.key.clone()), value);
        }
    }
    (!map.is_empty()).then_some(map)
}

fn keyed(inner: &[Field], name: &str, typed: &Fields) -> Option<Value> {
    let mut map = Mapping::new();
    for place in 0..MOST_ROWS {
        let row = format!("{name}.{place}");
        let key_name = format!("{row}.key");
        let Some(key) = typed.get(&key_name) else { continue };
        let value = match inner {
            [only] if only.key == VALUE => value(&only.kind, &format!("{row}.{VALUE}"), typed),
            _ => Some(Value::Mapping(mapped(inner, &row, typed).unwrap_or_default())),
        };
        map.insert(Value::String(key.to_owned()), value.unwrap_or(Value::Null));
    }
    (!map.is_empty()).then_some(Value::Mapping(map))
}

/// A number where it is one; else the text, which the checks then name.
fn number(text: String) -> Value {
    let plain = text.replace(',', ".");
    let whole = plain.parse::<i64>().ok().map(|number| Value::Number(number.into()));
    let other = || plain.parse::<f64>().ok().filter(|number| number.is_finite());
    whole
        .or_else(|| other().map(|number| Value::Number(number.into())))
        .unwrap_or(Value::String(text))
}

/// What was typed as the file would have it: a list, a map or a number where it looks like one.
fn as_written(text: &str) -> Value {
    let looks_like = text.starts_with(['[', '{']) || text.starts_with(|c: char| c.is_ascii_digit());
    let is_word = matches!(text, "true" | "false");
    let parsed =
        (looks_like || is_word).then(|| serde_yaml::from_str::<Value>(text).ok()).flatten();
    parsed.unwrap_or_else(|| Value::String(text.to_owned()))
}
