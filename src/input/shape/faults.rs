//! One function per fault of shape.

use serde_json::Value as Schema;
use serde_yaml::{Number, Value};

use super::example::example;
use super::kind::Kind;
use super::{Check, Spot, known_keys, slips};
use crate::diagnostic::{Diagnostic, Label, counted, quoted};
use crate::input::marks::Field;
use crate::input::suggest;

impl<'a> Check<'a> {
    /// E1201: a key that nobody would read.
    pub(super) fn unknown_key(&mut self, field: &Field, schema: &Schema) {
        let keys = known_keys(schema);
        let otherwise = match schema.get("patternProperties") {
            Some(_) => "here a key is a mass in kilograms, as in `20: 2`".to_owned(),
            None => format!("delete it, or look up the key: there are {} here", keys.len()),
        };
        let label = self.marks.source.label(field.key_bytes.clone(), "");
        let help = match slips::instead(&field.key, &keys) {
            Some(instead) => instead.to_owned(),
            None => suggest::help(&field.key, &keys, &otherwise),
        };
        self.faults.push(
            Diagnostic::error("E1201", format!("{} is not known here", quoted(&field.key)))
                .at(label)
                .help(help),
        );
    }

    /// E1202: a word outside its list.
    pub(super) fn unknown_word(&mut self, spot: Spot<'a>, text: &str, words: &[&str]) {
        let otherwise = format!(
            "this is one of {} words, {} and so on; `weekwright schema` lists them all",
            words.len(),
            suggest::list(&words[..words.len().min(3)])
        );
        let message = format!("{} is not a word for {}", quoted(text), Self::name(spot));
        self.faults.push(
            Diagnostic::error("E1202", message)
                .at(self.label(spot, ""))
                .help(suggest::help(text, words, &otherwise)),
        );
    }

    /// E1203: text where a number belongs, and the like.
    pub(super) fn wrong_kind(
        &mut self,
        spot: Spot<'a>,
        value: &Value,
        schema: &'a Schema,
        wanted: &[Kind],
    ) {
        let kinds: Vec<&str> =
            wanted.iter().filter(|kind| **kind != Kind::Nothing).map(|kind| kind.words()).collect();
        let there = Kind::of(value);
        let message = match there {
            Kind::Nothing => format!("{} is left empty", Self::name(spot)),
            _ => format!("{} is {}, not {}", Self::name(spot), there.words(), kinds.join(" or ")),
        };
        let help = self.instead(spot, there, schema, wanted);
        self.faults.push(
            Diagnostic::error("E1203", message)
                .at(self.label(spot, &format!("here {} belongs", kinds.join(" or "))))
                .help(help),
        );
    }

    /// What to type instead of a value of the wrong kind.
    fn instead(&self, spot: Spot<'a>, there: Kind, schema: &'a Schema, wanted: &[Kind]) -> String {
        let typed = &self.marks.source.text[spot.node.bytes.clone()];
        let typed = typed.lines().next().unwrap_or_default().trim_end();
        let simple = matches!(there, Kind::YesNo | Kind::Whole | Kind::Number);
        let is_free = super::words(schema).is_empty() && !is_clock_or_date(schema);
        if wanted.contains(&Kind::Text) && simple && is_free {
            return format!("put it in quotes: {}", Self::line(spot, &format!("\"{typed}\"")));
        }
        let example = example(self.root, schema);
        if there == Kind::Nothing {
            return format!(
                "write a value, for example {}, or delete the line",
                Self::line(spot, &example)
            );
        }
        format!("write it like {}", Self::line(spot, &example))
    }

    /// E1204: a number outside what can be.
    pub(super) fn out_of_range(
        &mut self,
        spot: Spot<'a>,
        number: &Number,
        least: Option<f64>,
        most: Option<f64>,
    ) {
        let range = match (least, most) {
            (Some(least), Some(most)) if most < 1e6 => format!("a number from {least} to {most}"),
            (Some(least), _) => format!("a number, {least} or more"),
            (None, Some(most)) => format!("a number, {most} or less"),
            (None, None) => "an ordinary number".to_owned(),
        };
        let message = format!("{} cannot be {number}", Self::name(spot));
        self.faults.push(
            Diagnostic::error("E1204", message)
                .at(self.label(spot, "out of range"))
                .help(format!("write {range}")),
        );
    }

    /// E1203: half a minute where whole ones are counted.
    pub(super) fn not_whole(&mut self, spot: Spot<'a>, number: &Number, schema: &'a Schema) {
        let message = format!("{} is {number}, not a whole number", Self::name(spot));
        let rounded = number.as_f64().unwrap_or_default().round();
        let least = schema.get("minimum").and_then(Schema::as_f64).unwrap_or(0.0);
        let instead = rounded.max(least).to_string();
        self.faults.push(
            Diagnostic::error("E1203", message)
                .at(self.label(spot, "here a whole number belongs"))
                .help(format!("write it like {}", Self::line(spot, &instead))),
        );
    }

    /// E1205: a key that must be there is not.
    pub(super) fn missing_key(&mut self, spot: Spot<'a>, key: &str, schema: &'a Schema) {
        let example = self.schema_of(schema, key).map(|inner| example(self.root, inner));
        let example = example.unwrap_or_default();
        self.faults.push(
            Diagnostic::error("E1205", format!("the key `{key}` is missing"))
                .at(self.label(spot, "it belongs here"))
                .help(format!("add a line such as `{key}: {example}`")),
        );
    }

    /// E1206: a list with too few or too many entries.
    pub(super) fn wrong_count(
        &mut self,
        spot: Spot<'a>,
        count: usize,
        least: Option<u64>,
        most: Option<u64>,
        schema: &'a Schema,
    ) {
        let entries = match (least, most) {
            (Some(least), Some(most)) if least == most => least.to_string(),
            (Some(least), Some(most)) => format!("{least} to {most}"),
            (Some(least), None) => format!("at least {least}"),
            (None, most) => format!("at most {}", most.unwrap_or_default()),
        };
        let message = match count {
            0 => format!("{} is empty", Self::name(spot)),
            count => {
                let entries = counted(count, "entry", "entries");
                format!("{} has {entries}", Self::name(spot))
            }
        };
        let example = example(self.root, schema);
        self.faults.push(
            Diagnostic::error("E1206", message)
                .at(self.label(spot, &format!("{entries} needed")))
                .help(format!("write it like {}", Self::line(spot, &example))),
        );
    }

    /// E1207: a text that is blank or far too long.
    pub(super) fn wrong_length(
        &mut self,
        spot: Spot<'a>,
        length: u64,
        least: Option<u64>,
        most: Option<u64>,
        schema: &'a Schema,
    ) {
        let message = match length {
            0 => format!("{} is blank", Self::name(spot)),
            length => format!("{} has {length} characters", Self::name(spot)),
        };
        let (least, most) = (least.unwrap_or(0), most.unwrap_or(u64::MAX));
        let help = if length < least {
            let example = example(self.root, schema);
            format!("write something, for example {}", Self::line(spot, &example))
        } else {
            format!("shorten it to {most} characters")
        };
        self.faults.push(Diagnostic::error("E1207", message).at(self.label(spot, "")).help(help));
    }

    /// E1208: a text in another form than asked.
    pub(super) fn wrong_form(&mut self, spot: Spot<'a>, text: &str, schema: &'a Schema) {
        let message = format!("{} is not how {} is written", quoted(text), Self::name(spot));
        let example = example(self.root, schema);
        self.faults.push(
            Diagnostic::error("E1208", message)
                .at(self.label(spot, ""))
                .help(format!("write it like {}", Self::line(spot, &example))),
        );
    }

    /// E1209: an escape that would reach the terminal or the sheet.
    pub(super) fn hidden_character(&mut self, spot: Spot<'a>) {
        let message = format!("{} holds a control character", Self::name(spot));
        self.faults.push(
            Diagnostic::error("E1209", message)
                .at(self.label(spot, ""))
                .help("delete the `\\x..` or `\\u....` in it"),
        );
    }

    /// The value in words: `minutes`, or entry 2 of `must`.
    fn name(spot: Spot<'a>) -> String {
        let key = spot.field.map(|field| quoted(&field.key));
        match (key, spot.list) {
            (Some(key), Some(index)) => format!("entry {} of {key}", index + 1),
            (Some(key), None) => key,
            (None, Some(index)) => format!("entry {} of the list", index + 1),
            (None, None) => "the file".to_owned(),
        }
    }

    /// A line with the value's key, to be typed as it stands.
    fn line(spot: Spot<'a>, value: &str) -> String {
        match (spot.field, spot.list) {
            (Some(field), None) => quoted_whole(&format!("{}: {value}", field.key)),
            _ => quoted_whole(value),
        }
    }

    fn label(&self, spot: Spot<'a>, text: &str) -> Label {
        let bytes = match spot.field {
            Some(field) if spot.node.bytes.is_empty() => field.key_bytes.clone(),
            _ => spot.node.bytes.clone(),
        };
        self.marks.source.label(bytes, text)
    }
}

/// Whether a text has a form in which a bare number cannot be right: its example has digits first.
fn is_clock_or_date(schema: &Schema) -> bool {
    let example = schema.pointer("/examples/0").and_then(Schema::as_str);
    example.is_some_and(|example| example.starts_with(|letter: char| letter.is_ascii_digit()))
}

/// Like [`quoted`], but never cut: it is meant to be typed.
fn quoted_whole(text: &str) -> String {
    format!("`{text}`")
}
