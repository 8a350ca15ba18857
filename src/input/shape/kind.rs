//! Kinds of values, in words a coach knows.

use serde_json::Value as Schema;
use serde_yaml::Value;

/// A kind of value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Nothing is written.
    Nothing,
    /// `true` or `false`.
    YesNo,
    /// A whole number.
    Whole,
    /// Any number.
    Number,
    /// Words.
    Text,
    /// `[..]`, or lines that begin with `-`.
    List,
    /// Lines with `key: value`.
    Map,
}

impl Kind {
    /// The kind of a value.
    pub(super) fn of(value: &Value) -> Kind {
        match value {
            Value::Null => Kind::Nothing,
            Value::Bool(_) => Kind::YesNo,
            Value::Number(number) if number.is_f64() => Kind::Number,
            Value::Number(_) => Kind::Whole,
            Value::String(_) => Kind::Text,
            Value::Sequence(_) => Kind::List,
            Value::Mapping(_) => Kind::Map,
            Value::Tagged(tagged) => Kind::of(&tagged.value),
        }
    }

    /// The kind that a schema names.
    pub(super) fn named(name: &str) -> Option<Kind> {
        Some(match name {
            "null" => Kind::Nothing,
            "boolean" => Kind::YesNo,
            "integer" => Kind::Whole,
            "number" => Kind::Number,
            "string" => Kind::Text,
            "array" => Kind::List,
            "object" => Kind::Map,
            _ => return None,
        })
    }

    /// Whether a value of the other kind will do. Any number passes for a whole one here: its
    /// range and fraction are judged with the number in hand.
    pub(super) fn takes(self, other: Kind) -> bool {
        self == other || (self.is_number() && other.is_number())
    }

    const fn is_number(self) -> bool {
        matches!(self, Kind::Whole | Kind::Number)
    }

    /// The kind in words.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Kind::Nothing => "nothing",
            Kind::YesNo => "true or false",
            Kind::Whole => "a whole number",
            Kind::Number => "a number",
            Kind::Text => "text",
            Kind::List => "a list",
            Kind::Map => "a map of keys and values",
        }
    }
}

/// The range of a machine number that a schema names by its format.
pub(super) fn format_range(schema: &Schema) -> (Option<f64>, Option<f64>) {
    let most = match schema.get("format").and_then(Schema::as_str) {
        Some("uint8") => f64::from(u8::MAX),
        Some("uint16") => f64::from(u16::MAX),
        Some("uint32") => f64::from(u32::MAX),
        // Above this, a number read as `f64` is no longer exact.
        Some("uint64") => 9_007_199_254_740_992.0,
        _ => return (None, None),
    };
    (Some(0.0), Some(most))
}
