//! From the schema of a profile to the parts of its form.

use serde_json::Value as Schema;

use super::view::order;
use super::{Field, Kind, VALUE};
use crate::input::profile::Profile;
use crate::input::shape::schema;

/// The most words of a list that are ticked; more are typed.
const MOST_TICKS: usize = 80;

/// The parts of a profile's form.
pub(super) fn of_profile() -> Vec<Field> {
    let root = schema::<Profile>();
    let reader = Reader { root: &root };
    let mut fields = reader.fields(&root);
    fields.sort_by_key(|field| order(&field.key));
    fields
}

struct Reader<'a> {
    root: &'a Schema,
}

impl<'a> Reader<'a> {
    /// The keys of a map.
    fn fields(&self, map: &'a Schema) -> Vec<Field> {
        let required: Vec<&str> = list(map, "required").filter_map(Schema::as_str).collect();
        let keys = map.get("properties").and_then(Schema::as_object).into_iter().flatten();
        keys.map(|(key, schema)| Field {
            key: key.clone(),
            help: self.help(schema),
            is_required: required.contains(&key.as_str()),
            kind: self.kind(schema, 0),
        })
        .collect()
    }

    fn help(&self, schema: &'a Schema) -> String {
        let told = |schema: &Schema| Some(schema.get("description")?.as_str()?.to_owned());
        told(schema).or_else(|| told(self.plain(schema))).unwrap_or_default()
    }

    /// Follows references, and leaves out that nothing may be written.
    fn plain(&self, schema: &'a Schema) -> &'a Schema {
        if let Some(name) = schema.get("$ref").and_then(Schema::as_str) {
            let found = self.root.pointer(name.trim_start_matches('#'));
            return found.map_or(schema, |found| self.plain(found));
        }
        let others: Vec<&Schema> = list(schema, "anyOf")
            .filter(|one| one.get("type").and_then(Schema::as_str) != Some("null"))
            .collect();
        match others.as_slice() {
            [one] => self.plain(one),
            _ => schema,
        }
    }

    fn kind(&self, outer: &'a Schema, depth: usize) -> Kind {
        let schema = self.plain(outer);
        let example = example(outer).or_else(|| example(schema)).unwrap_or_default();
        let words = words(schema);
        if !words.is_empty() {
            let default = outer.get("default").and_then(Schema::as_str).map(str::to_owned);
            return Kind::Choice { words, default };
        }
        match type_of(schema) {
            "string" => Kind::Text { example },
            "boolean" => Kind::YesNo,
            number @ ("integer" | "number") => Kind::Number {
                example,
                least: schema.get("minimum").and_then(Schema::as_f64),
                most: schema.get("maximum").and_then(Schema::as_f64),
                is_whole: number == "integer",
            },
            "array" => self.list_kind(schema, example, depth),
            "object" => self.map_kind(schema, example, depth),
            _ => self.either(outer, schema, example),
        }
    }

    /// One of several shapes: a word that is chosen, or what stands in the file.
    fn either(&self, outer: &'a Schema, schema: &'a Schema, example: String) -> Kind {
        let shapes: Vec<&Schema> = list(schema, "anyOf").map(|one| self.plain(one)).collect();
        if let Some(words) = shapes.iter().map(|one| words(one)).find(|words| !words.is_empty()) {
            let default = outer.get("default").and_then(Schema::as_str).map(str::to_owned);
            return Kind::Choice { words, default };
        }
        let items = shapes.iter().filter_map(|one| one.get("items"));
        match items.map(|items| words(self.plain(items))).find(|words| !words.is_empty()) {
            Some(words) => Kind::Ticks { words },
            None => Kind::Written { example },
        }
    }

    fn list_kind(&self, schema: &'a Schema, example: String, depth: usize) -> Kind {
        let Some(items) = schema.get("items").map(|items| self.plain(items)) else {
            return Kind::Written { example };
        };
        let either = list(items, "anyOf").map(|one| words(self.plain(one)));
        let words = std::iter::once(words(items)).chain(either).find(|words| !words.is_empty());
        match (words, type_of(items)) {
            (Some(words), _) if depth > 0 || words.len() > MOST_TICKS => Kind::Words { words },
            (Some(words), _) => Kind::Ticks { words },
            (None, "string") => Kind::Lines { example },
            (None, "object") if depth == 0 => Kind::Rows(self.inner(items)),
            _ => Kind::Written { example },
        }
    }

    fn map_kind(&self, schema: &'a Schema, example: String, depth: usize) -> Kind {
        if depth > 0 {
            return Kind::Written { example };
        }
        let keys = schema.get("properties").and_then(Schema::as_object);
        let mut references = keys.into_iter().flatten().map(|(_, value)| value.get("$ref"));
        let first = references.next().flatten();
        let is_map = first.is_some() && references.all(|other| other == first);
        match (keys, schema.get("additionalProperties")) {
            (Some(keys), _) if is_map && keys.len() > 2 => {
                let words = keys.keys().cloned().collect();
                let value = keys.values().next().map(|value| self.value(value)).unwrap_or_default();
                Kind::Keyed { words, value }
            }
            (None, Some(value @ Schema::Object(_))) => {
                Kind::Keyed { words: Vec::new(), value: self.value(value) }
            }
            (Some(_), _) => Kind::Group(self.inner(schema)),
            _ => Kind::Written { example },
        }
    }

    /// What a key of a map leads to: fields of a map, or one value.
    fn value(&self, schema: &'a Schema) -> Vec<Field> {
        let plain = self.plain(schema);
        if type_of(plain) == "object" {
            return self.inner(plain);
        }
        let (key, help) = (VALUE.to_owned(), self.help(schema));
        vec![Field { key, help, is_required: true, kind: self.kind(schema, 1) }]
    }

    /// The keys of a map inside a profile.
    fn inner(&self, map: &'a Schema) -> Vec<Field> {
        let keys = map.get("properties").and_then(Schema::as_object).into_iter().flatten();
        let mut fields = self.fields(map);
        for (field, (_, schema)) in fields.iter_mut().zip(keys) {
            field.kind = self.kind(schema, 1);
        }
        fields.sort_by_key(|field| order(&field.key));
        fields
    }
}

/// The words that a schema takes; none where it takes anything else.
fn words(schema: &Schema) -> Vec<String> {
    let named = list(schema, "enum").filter_map(Schema::as_str);
    let told = list(schema, "oneOf").filter_map(|one| one.get("const")?.as_str());
    named.chain(told).map(str::to_owned).collect()
}

fn list<'a>(schema: &'a Schema, key: &str) -> impl Iterator<Item = &'a Schema> + use<'a> {
    schema.get(key).and_then(Schema::as_array).into_iter().flatten()
}

/// The type of a value; of two, the one that is not nothing.
fn type_of(schema: &Schema) -> &str {
    match schema.get("type") {
        Some(Schema::String(name)) => name,
        Some(Schema::Array(names)) => {
            names.iter().filter_map(Schema::as_str).find(|name| *name != "null").unwrap_or("")
        }
        _ => "",
    }
}

fn example(schema: &Schema) -> Option<String> {
    let first = list(schema, "examples").next()?;
    Some(first.as_str().map_or_else(|| first.to_string(), str::to_owned))
}
