//! The profile as a form made from the schema of its type: a new key of a profile is a new field here.

mod edit;
mod flow;
mod shape;
mod typed;
mod view;

pub(super) use edit::{changed, fresh};
pub(super) use typed::{of_text, values};
pub(super) use view::{Form, Heading};

/// A part of a form.
#[derive(Debug, Clone)]
pub(super) struct Field {
    /// The key in its map.
    pub(super) key: String,
    /// What the schema says of it.
    pub(super) help: String,
    pub(super) is_required: bool,
    pub(super) kind: Kind,
}

/// How a part is asked for.
#[derive(Debug, Clone)]
pub(super) enum Kind {
    /// One line of text.
    Text { example: String },
    /// A number.
    Number { example: String, least: Option<f64>, most: Option<f64>, is_whole: bool },
    /// One word of a list; what is left out is told.
    Choice { words: Vec<String>, default: Option<String> },
    /// Yes, no, or not answered yet.
    YesNo,
    /// Any words of a list.
    Ticks { words: Vec<String> },
    /// Any words of a list, typed with commas between them.
    Words { words: Vec<String> },
    /// A list of texts.
    Lines { example: String },
    /// A map with keys of its own.
    Group(Vec<Field>),
    /// A list of such maps.
    Rows(Vec<Field>),
    /// A map from words, or from any text, to a value or a map.
    Keyed { words: Vec<String>, value: Vec<Field> },
    /// As it stands in the file.
    Written { example: String },
}

/// The key of the value where a map leads to one and not to a map.
pub(super) const VALUE: &str = "value";

/// The keys of a profile with the parts of a form for them, in the order of the form.
pub(super) fn fields() -> &'static [Field] {
    static FIELDS: std::sync::LazyLock<Vec<Field>> = std::sync::LazyLock::new(shape::of_profile);
    &FIELDS
}
