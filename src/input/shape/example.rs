//! What to type instead: an example that fits a schema.

use serde_json::Value as Schema;

/// A value for a schema as one would type it on one line.
pub(super) fn example(root: &Schema, schema: &Schema) -> String {
    typed(&value(root, schema, 0))
}

/// The schema's own example where it has one, else its default, else the simplest value.
fn value(root: &Schema, schema: &Schema, depth: usize) -> Schema {
    /// Deep enough for every file of ours.
    const DEEPEST: usize = 8;
    let own = schema
        .get("examples")
        .and_then(|examples| examples.get(0))
        .or_else(|| schema.get("default").filter(|default| !default.is_null()))
        .or_else(|| schema.get("const"))
        .or_else(|| schema.get("enum").and_then(|words| words.get(0)));
    if let Some(own) = own {
        return own.clone();
    }
    if depth > DEEPEST {
        return Schema::Null;
    }
    if let Some(name) = schema.get("$ref").and_then(Schema::as_str) {
        let target = root.pointer(name.trim_start_matches('#'));
        return target.map_or(Schema::Null, |target| value(root, target, depth + 1));
    }
    for choice in ["anyOf", "oneOf"] {
        if let Some(first) = schema.get(choice).and_then(|choices| choices.get(0)) {
            return value(root, first, depth + 1);
        }
    }
    by_type(root, schema, depth)
}

fn by_type(root: &Schema, schema: &Schema, depth: usize) -> Schema {
    let kind = schema.get("type");
    let kind = kind.and_then(|kind| kind.as_str().or_else(|| kind.get(0)?.as_str()));
    match kind {
        Some("boolean") => Schema::Bool(true),
        Some("integer" | "number") => schema.get("minimum").cloned().unwrap_or_else(|| 1.into()),
        Some("array") => {
            let least = schema.get("minItems").and_then(Schema::as_u64).unwrap_or(1);
            let items = schema.get("items").unwrap_or(&Schema::Null);
            let count = usize::try_from(least.clamp(1, 4)).unwrap_or(1);
            Schema::Array(vec![value(root, items, depth + 1); count])
        }
        Some("object") => Schema::Object(keys(root, schema, depth)),
        _ => Schema::from("text"),
    }
}

/// The required keys, or else the first key there is.
fn keys(root: &Schema, schema: &Schema, depth: usize) -> serde_json::Map<String, Schema> {
    let properties = schema.get("properties").and_then(Schema::as_object);
    let required = schema.get("required").and_then(Schema::as_array);
    let mut names: Vec<&str> = required.into_iter().flatten().filter_map(Schema::as_str).collect();
    if names.is_empty() {
        let first = properties.and_then(|properties| properties.keys().next());
        names.extend(first.map(String::as_str));
    }
    let entry = |name: &str| {
        let inner = properties?.get(name)?;
        Some((name.to_owned(), value(root, inner, depth + 1)))
    };
    names.into_iter().filter_map(entry).collect()
}

/// A value on one line, in the way a coach would type it.
fn typed(value: &Schema) -> String {
    match value {
        Schema::String(text) if plain(text) => text.clone(),
        Schema::Array(entries) => {
            let entries: Vec<String> = entries.iter().map(typed).collect();
            format!("[{}]", entries.join(", "))
        }
        Schema::Object(entries) => {
            let entries: Vec<String> =
                entries.iter().map(|(key, value)| format!("{key}: {}", typed(value))).collect();
            format!("{{{}}}", entries.join(", "))
        }
        other => other.to_string(),
    }
}

/// Whether a text needs no quotes: words of letters, digits and dashes that are no clock time.
fn plain(text: &str) -> bool {
    let letters = |letter: char| letter.is_ascii_alphanumeric() || "-_/. ".contains(letter);
    text.starts_with(|letter: char| letter.is_ascii_alphanumeric()) && text.chars().all(letters)
}
