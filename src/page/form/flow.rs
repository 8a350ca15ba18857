//! Values of a profile as YAML on few lines, as a coach would write them.

use serde_yaml::{Mapping, Value};

use crate::intake::scalar;

/// The longest line that a map is kept on.
const LINE: usize = 90;

/// A key with its value, as lines that end with a line break.
pub(super) fn lines(key: &str, value: &Value) -> String {
    match value {
        Value::Sequence(rows) if rows.iter().any(Value::is_mapping) => {
            let rows: String = rows.iter().map(|row| format!("  - {}\n", flow(row))).collect();
            format!("{}:\n{rows}", scalar(key))
        }
        Value::Mapping(map) if is_long(key, value) => {
            let rows: String = map.iter().map(|entry| format!("  {}\n", pair(entry))).collect();
            format!("{}:\n{rows}", scalar(key))
        }
        _ => format!("{}: {}\n", scalar(key), flow(value)),
    }
}

fn is_long(key: &str, value: &Value) -> bool {
    let has_maps = value.as_mapping().is_some_and(|map| map.values().any(Value::is_mapping));
    has_maps || key.len() + flow(value).len() > LINE
}

fn pair((key, value): (&Value, &Value)) -> String {
    format!("{}: {}", flow(key), flow(value))
}

/// A value on one line.
pub(super) fn flow(value: &Value) -> String {
    match value {
        Value::Null => "null".to_owned(),
        Value::Bool(is_so) => is_so.to_string(),
        Value::Number(number) => number.to_string(),
        Value::String(text) => scalar(text),
        Value::Sequence(rows) => {
            format!("[{}]", rows.iter().map(flow).collect::<Vec<_>>().join(", "))
        }
        Value::Mapping(map) => in_braces(map),
        Value::Tagged(tagged) => flow(&tagged.value),
    }
}

fn in_braces(map: &Mapping) -> String {
    format!("{{{}}}", map.iter().map(pair).collect::<Vec<_>>().join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is written reads back as the same value, by another parser's rules (YAML 1.2, libyaml).
    #[test]
    fn what_is_written_reads_back() {
        for text in [
            "a: [1, 2.5, -3]",
            "a: {b: true, c: \"18:30\", d: \"1\", e: \"yes\", f: \"\", g: \"a, b]\"}",
            "a: [{x: 1, y: \"# no\"}, {x: \"two\\nlines\"}]",
            "a: {long-long-long: {load: 50, reps: 5}, other: {load: 1}}",
            "a: \"2027-01-04\"",
            "a: null",
        ] {
            let whole: Value = serde_yaml::from_str(text).unwrap();
            let written = lines("a", &whole["a"]);
            let back: Value = serde_yaml::from_str(&written).unwrap();
            assert_eq!(back, whole, "{written}");
        }
    }
}
