//! A value against the JSON Schema of its type, with all faults and their places.
//!
//! Only the part of JSON Schema that our own types produce is read: types, words, keys, items,
//! ranges, lengths, patterns and alternatives.

mod example;
mod faults;
mod kind;
mod slips;

use std::collections::BTreeMap;

use regex_lite::Regex;
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::Value as Schema;
use serde_yaml::Value;

use super::marks::{Field, Marks, Node, Parts};
use super::suggest;
use crate::diagnostic::Diagnostic;
use kind::Kind;

/// The schema of a type, JSON Schema 2020-12.
#[must_use]
pub fn schema<T: JsonSchema>() -> Schema {
    let generator = SchemaSettings::draft2020_12().into_generator();
    generator.into_root_schema_for::<T>().to_value()
}

/// Every way in which a value differs from a schema, in no particular order.
#[must_use]
pub fn check(value: &Value, schema: &Schema, marks: &Marks) -> Vec<Diagnostic> {
    let mut check = Check { root: schema, marks, patterns: patterns(schema), faults: Vec::new() };
    let spot = Spot { field: None, list: None, node: marks.root() };
    check.value(spot, value, schema);
    check.faults
}

/// Where the check stands in the file.
#[derive(Clone, Copy)]
struct Spot<'a> {
    /// The key of the value, or of the list that holds it.
    field: Option<&'a Field>,
    /// The place in that list, from 0.
    list: Option<usize>,
    /// The value.
    node: &'a Node,
}

struct Check<'a> {
    root: &'a Schema,
    marks: &'a Marks,
    /// Every pattern of the schema, made ready once.
    patterns: BTreeMap<&'a str, Regex>,
    faults: Vec<Diagnostic>,
}

impl<'a> Check<'a> {
    fn value(&mut self, spot: Spot<'a>, value: &Value, schema: &'a Schema) {
        let schema = self.alternative(value, self.resolve(schema));
        let kind = Kind::of(value);
        let wanted = self.kinds(schema);
        if !wanted.is_empty() && !wanted.iter().any(|wanted| wanted.takes(kind)) {
            self.wrong_kind(spot, value, schema, &wanted);
            return;
        }
        match value {
            Value::String(text) => self.text(spot, text, schema),
            Value::Number(number) => self.number(spot, number, schema),
            Value::Sequence(entries) => self.list(spot, entries, schema),
            Value::Mapping(entries) => self.map(spot, entries, schema),
            _ => {}
        }
    }

    /// Follows `$ref` to the definition.
    fn resolve(&self, schema: &'a Schema) -> &'a Schema {
        let mut schema = schema;
        while let Some(name) = schema.get("$ref").and_then(Schema::as_str) {
            let pointer = name.trim_start_matches('#');
            schema =
                self.root.pointer(pointer).expect("a generated schema holds what it refers to");
        }
        schema
    }

    /// Of several alternatives, the one whose kind is the value's, a list of words only where it has the word; else the
    /// whole choice.
    fn alternative(&self, value: &Value, schema: &'a Schema) -> &'a Schema {
        let kind = Kind::of(value);
        let Some(choices) = schema.get("anyOf").and_then(Schema::as_array) else {
            return schema;
        };
        let fitting = choices
            .iter()
            .map(|choice| self.alternative(value, self.resolve(choice)))
            .filter(|choice| self.kinds(choice).iter().any(|wanted| wanted.takes(kind)));
        let lacks_word = |choice: &&Schema| match value {
            Value::String(text) => {
                let words = words(choice);
                !words.is_empty() && !words.contains(&text.as_str())
            }
            _ => false,
        };
        fitting.min_by_key(lacks_word).unwrap_or(schema)
    }

    /// The kinds a schema takes; none means any.
    fn kinds(&self, schema: &'a Schema) -> Vec<Kind> {
        if let Some(choices) = schema.get("anyOf").and_then(Schema::as_array) {
            let kinds = choices.iter().flat_map(|choice| self.kinds(self.resolve(choice)));
            return kinds.collect();
        }
        match schema.get("type") {
            Some(Schema::String(name)) => Kind::named(name).into_iter().collect(),
            Some(Schema::Array(names)) => {
                names.iter().filter_map(Schema::as_str).filter_map(Kind::named).collect()
            }
            _ if !words(schema).is_empty() => vec![Kind::Text],
            _ => Vec::new(),
        }
    }

    fn text(&mut self, spot: Spot<'a>, text: &str, schema: &'a Schema) {
        let words = words(schema);
        if !words.is_empty() {
            if !words.contains(&text) {
                self.unknown_word(spot, text, &words);
            }
            return;
        }
        if text.chars().any(|letter| letter.is_control() && letter != '\n' && letter != '\t') {
            self.hidden_character(spot);
        }
        let length = text.trim().chars().count() as u64;
        let least = bound(schema, "minLength");
        let most = bound(schema, "maxLength");
        if least.is_some_and(|least| length < least) || most.is_some_and(|most| length > most) {
            self.wrong_length(spot, length, least, most, schema);
        } else if let Some(pattern) = schema.get("pattern").and_then(Schema::as_str)
            && !self.matches(pattern, text)
        {
            self.wrong_form(spot, text, schema);
        }
    }

    fn number(&mut self, spot: Spot<'a>, number: &serde_yaml::Number, schema: &'a Schema) {
        let value = number.as_f64().unwrap_or(f64::NAN);
        let (format_least, format_most) = kind::format_range(schema);
        let least = schema.get("minimum").and_then(Schema::as_f64);
        let most = schema.get("maximum").and_then(Schema::as_f64);
        let (least, most) = (least.or(format_least), most.or(format_most));
        let fits = least.is_none_or(|least| value >= least)
            && most.is_none_or(|most| value <= most)
            && value.is_finite();
        if !fits {
            self.out_of_range(spot, number, least, most);
        } else if number.is_f64() && !self.kinds(schema).contains(&Kind::Number) {
            self.not_whole(spot, number, schema);
        }
    }

    fn list(&mut self, spot: Spot<'a>, entries: &[Value], schema: &'a Schema) {
        let count = entries.len() as u64;
        let least = bound(schema, "minItems");
        let most = bound(schema, "maxItems");
        if least.is_some_and(|least| count < least) || most.is_some_and(|most| count > most) {
            self.wrong_count(spot, entries.len(), least, most, schema);
        }
        let (Parts::List(nodes), Some(items)) = (&spot.node.parts, schema.get("items")) else {
            return;
        };
        // Of a list that is too long, what is over the most is not looked at.
        for (index, (entry, node)) in entries.iter().zip(nodes).take(up_to(most)).enumerate() {
            let spot = Spot { field: spot.field, list: Some(index), node };
            self.value(spot, entry, items);
        }
    }

    fn map(&mut self, spot: Spot<'a>, entries: &serde_yaml::Mapping, schema: &'a Schema) {
        let Parts::Map(fields) = &spot.node.parts else {
            return;
        };
        let count = entries.len() as u64;
        let least = bound(schema, "minProperties");
        let most = bound(schema, "maxProperties");
        if least.is_some_and(|least| count < least) || most.is_some_and(|most| count > most) {
            self.wrong_count(spot, entries.len(), least, most, schema);
        }
        for (field, (_, value)) in fields.iter().zip(entries).take(up_to(most)) {
            let inner = Spot { field: Some(field), list: None, node: &field.node };
            match self.schema_of(schema, &field.key) {
                Some(schema) => self.value(inner, value, schema),
                None => self.unknown_key(field, schema),
            }
        }
        self.required(spot, fields, schema);
    }

    /// A key that is only misspelled is told as unknown, not also as missing.
    fn required(&mut self, spot: Spot<'a>, fields: &[Field], schema: &'a Schema) {
        let required = schema.get("required").and_then(Schema::as_array);
        let required = required.into_iter().flatten().filter_map(Schema::as_str);
        let is_there = |key: &str| fields.iter().any(|field| field.key == key);
        let missing: Vec<&str> = required.filter(|key| !is_there(key)).collect();
        if missing.is_empty() {
            return;
        }
        let keys = known_keys(schema);
        let meant: Vec<&str> = fields
            .iter()
            .filter_map(|field| suggest::nearest(&field.key, keys.iter().copied()))
            .collect();
        for key in missing.into_iter().filter(|key| !meant.contains(key)) {
            self.missing_key(spot, key, schema);
        }
    }

    /// The schema of a key's value; none for a key that is not known.
    fn schema_of(&self, schema: &'a Schema, key: &str) -> Option<&'a Schema> {
        let named = schema.get("properties").and_then(|properties| properties.get(key));
        let by_pattern = || {
            let patterns = schema.get("patternProperties")?.as_object()?;
            let mut patterns = patterns.iter();
            patterns.find(|(pattern, _)| self.matches(pattern, key)).map(|(_, schema)| schema)
        };
        let others =
            || schema.get("additionalProperties").filter(|others| **others != Schema::Bool(false));
        named.or_else(by_pattern).or_else(others)
    }

    fn matches(&self, pattern: &str, text: &str) -> bool {
        let pattern = self.patterns.get(pattern);
        pattern.is_none_or(|pattern| pattern.is_match(text))
    }
}

/// The most entries of a list or map as a count.
fn up_to(most: Option<u64>) -> usize {
    most.and_then(|most| usize::try_from(most).ok()).unwrap_or(usize::MAX)
}

/// The words of a list of words; none where the schema is no such list.
fn words(schema: &Schema) -> Vec<&str> {
    if let Some(words) = schema.get("enum").and_then(Schema::as_array) {
        return words.iter().filter_map(Schema::as_str).collect();
    }
    if let Some(word) = schema.get("const").and_then(Schema::as_str) {
        return vec![word];
    }
    let choices = schema.get("oneOf").and_then(Schema::as_array);
    choices.into_iter().flatten().flat_map(words).collect()
}

/// The keys that a map may have by name.
fn known_keys(schema: &Schema) -> Vec<&str> {
    let properties = schema.get("properties").and_then(Schema::as_object);
    let keys = properties.into_iter().flat_map(|properties| properties.keys());
    keys.map(String::as_str).collect()
}

fn bound(schema: &Schema, name: &str) -> Option<u64> {
    schema.get(name).and_then(Schema::as_u64)
}

/// Collects the patterns of a whole schema.
fn patterns(schema: &Schema) -> BTreeMap<&str, Regex> {
    let mut found = BTreeMap::new();
    let mut open = vec![schema];
    while let Some(schema) = open.pop() {
        match schema {
            Schema::Object(entries) => {
                let own = schema.get("pattern").and_then(Schema::as_str);
                let of_keys = schema.get("patternProperties").and_then(Schema::as_object);
                let of_keys = of_keys.into_iter().flat_map(|patterns| patterns.keys());
                for pattern in own.into_iter().chain(of_keys.map(String::as_str)) {
                    let ready = Regex::new(pattern).expect("the patterns of our schemas are valid");
                    found.insert(pattern, ready);
                }
                open.extend(entries.values());
            }
            Schema::Array(entries) => open.extend(entries),
            _ => {}
        }
    }
    found
}
