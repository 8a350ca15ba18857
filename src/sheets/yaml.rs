//! A plan as YAML that a coach reads and edits: each exercise on a line of its own.

use std::io;

use serde_yaml::{Mapping, Value};

use super::wording::say;
use super::{Lookup, Names, Options, Sheet, SheetError, seal};
use crate::plan::file::Plan;
use crate::plan::short::shorten;

/// The plan as YAML.
pub struct Yaml;

impl Sheet for Yaml {
    fn format(&self) -> &'static str {
        "yaml"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        _options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let short = shorten(plan, &|id| names.entry(id));
        let value = serde_yaml::to_value(&short).map_err(io::Error::other)?;
        let mut text = format!("# {}\n", say!(plan_file_head));
        if let Value::Mapping(map) = &value {
            block_map(&mut text, map, 0);
        }
        out.write_all(seal::sealed(text).as_bytes())?;
        Ok(())
    }
}

/// Letters of a line that a list or map may fill.
const WIDTH: usize = 110;
/// Keys whose entries stand on one line each, however long.
const ON_ONE_LINE: &[&str] =
    &["items", "drop", "shortfalls", "tiers", "reworked_from", "exceptions", "volume"];

fn block_map(text: &mut String, map: &Mapping, indent: usize) {
    for (place, (key, value)) in map.iter().enumerate() {
        if place > 0 || indent == 0 {
            text.push_str(&" ".repeat(indent));
        }
        let key = key.as_str().map_or_else(|| scalar(key), plain_or_quoted);
        text.push_str(&key);
        text.push(':');
        entry(text, &key, value, indent);
    }
}

/// The value after `key:`.
fn entry(text: &mut String, key: &str, value: &Value, indent: usize) {
    let flow = flow(value);
    let is_list_of_lines = |list: &[Value]| {
        let long = |one: &Value| one.as_str().is_some_and(|text| text.chars().count() > 40);
        !list.is_empty() && (ON_ONE_LINE.contains(&key) || list.iter().any(long))
    };
    match value {
        Value::Mapping(map) if indent + key.len() + flow.len() > WIDTH && !map.is_empty() => {
            text.push('\n');
            text.push_str(&" ".repeat(indent + 2));
            block_map(text, map, indent + 2);
        }
        Value::Sequence(list)
            if is_list_of_lines(list) || indent + key.len() + flow.len() > WIDTH =>
        {
            text.push('\n');
            for one in list {
                text.push_str(&" ".repeat(indent + 2));
                text.push_str("- ");
                list_entry(text, key, one, indent + 4);
            }
        }
        _ => {
            text.push(' ');
            text.push_str(&flow);
            text.push('\n');
        }
    }
}

fn list_entry(text: &mut String, key: &str, value: &Value, indent: usize) {
    let flow = flow(value);
    match value {
        Value::Mapping(map) if !ON_ONE_LINE.contains(&key) && indent + flow.len() > WIDTH => {
            block_map(text, map, indent);
        }
        _ => {
            text.push_str(&flow);
            text.push('\n');
        }
    }
}

/// A value on one line.
fn flow(value: &Value) -> String {
    match value {
        Value::Mapping(map) => {
            let entries = map.iter().map(|(key, value)| {
                let key = key.as_str().map_or_else(|| scalar(key), plain_or_quoted);
                format!("{key}: {}", flow(value))
            });
            format!("{{{}}}", entries.collect::<Vec<_>>().join(", "))
        }
        Value::Sequence(list) => {
            format!("[{}]", list.iter().map(flow).collect::<Vec<_>>().join(", "))
        }
        other => scalar(other),
    }
}

fn scalar(value: &Value) -> String {
    match value {
        Value::String(text) => plain_or_quoted(text),
        Value::Bool(yes) => yes.to_string(),
        Value::Number(number) => match number.as_f64() {
            // `20` is a number of kilograms as well as `20.0` is.
            Some(float) if number.is_f64() => float.to_string(),
            _ => number.to_string(),
        },
        _ => "null".to_owned(),
    }
}

/// Words as they are, and in quotes what YAML would take for something else.
fn plain_or_quoted(text: &str) -> String {
    if is_plain(text) {
        return text.to_owned();
    }
    serde_json::to_string(text).expect("a text is valid JSON")
}

fn is_plain(text: &str) -> bool {
    const TAKEN: &[&str] =
        &["true", "false", "null", "yes", "no", "on", "off", "y", "n", "nan", "inf"];
    let is_word = |letter: char| letter.is_ascii_alphanumeric() || "_./-+%() ".contains(letter);
    let starts = text.chars().next().is_some_and(|letter| letter.is_ascii_alphabetic());
    let digits = |text: &str| {
        text.split('-').count() > 2
            && text
                .split('-')
                .all(|part| !part.is_empty() && part.bytes().all(|one| one.is_ascii_digit()))
    };
    let words = starts && text.chars().all(is_word) && !text.ends_with(' ');
    (words || digits(text)) && !TAKEN.contains(&text.to_ascii_lowercase().as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> Value {
        serde_yaml::from_str(text).unwrap()
    }

    fn written(value: &Value) -> String {
        let mut text = String::new();
        if let Value::Mapping(map) = value {
            block_map(&mut text, map, 0);
        }
        text
    }

    #[test]
    fn exercises_stand_on_a_line_each() {
        let value = read(
            "groups: [{kind: single, items: [{exercise: back-squat, reps: 8, load_kg: 42.5}]}]\nat: '18:30'",
        );
        let text = written(&value);
        assert!(text.contains("at: \"18:30\"\n"), "{text}");
        assert_eq!(read(&text), value, "{text}");
    }

    fn values() -> impl Strategy<Value = Value> {
        let text = prop_oneof![
            "[a-z -]{0,12}",
            ".{0,60}",
            Just("no".to_owned()),
            Just("3-0-1-0".to_owned()),
            Just("1e3".to_owned())
        ];
        let leaf = prop_oneof![
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            (-1e6_f64..1e6).prop_map(Value::from),
            text.prop_filter("no control characters in files", |text| !text
                .chars()
                .any(char::is_control))
                .prop_map(Value::from),
        ];
        let key = prop::sample::select(vec!["items", "sets", "note", "a b", "12", "off"]);
        leaf.prop_recursive(4, 40, 6, move |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
                prop::collection::btree_map(key.clone(), inner, 0..5).prop_map(|map| {
                    Value::Mapping(
                        map.into_iter().map(|(key, value)| (key.into(), value)).collect(),
                    )
                }),
            ]
        })
    }

    proptest! {
        /// serde_yaml, a parser of its own, reads back what stands there; whole floats come back as whole numbers.
        #[test]
        fn whatever_is_written_is_read_back(value in values()) {
            let value = Value::Mapping([("top".into(), value)].into_iter().collect());
            let text = written(&value);
            let back: Value = serde_yaml::from_str(&text).unwrap();
            prop_assert_eq!(written(&back), text);
        }
    }
}
