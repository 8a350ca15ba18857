//! The words of cards and pages, in one table, for templates and for what fills them.
//!
//! `say!(each_side)` is a word, `say!(week_to, first = 1, last)` a phrase with its blanks filled by name. The tests beside
//! the sheets hold that every one that is said stands in the table, with the same blanks, and the other way around.

use std::collections::BTreeMap;
use std::fmt::{Display, Write as _};
use std::sync::LazyLock;

use minijinja::value::{Kwargs, Serde};
use minijinja::{AutoEscape, Environment, Error, Value};

static WORDS: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("wording.yaml")).expect("the table is a map of texts")
});

/// A word of the table, or a phrase with what goes into each of its blanks: `name = value`, or `name` alone for a
/// variable of that name.
macro_rules! say {
    (@ $blank:ident) => { &$blank };
    (@ $blank:ident = $with:expr) => { &$with };
    ($key:ident) => { $crate::sheets::wording::word(stringify!($key)) };
    ($key:ident $(, $blank:ident $(= $with:expr)?)+ $(,)?) => {
        $crate::sheets::wording::filled(
            stringify!($key),
            &[$((stringify!($blank), $crate::sheets::wording::say!(@ $blank $(= $with)?))),+],
        )
    };
}
pub(crate) use say;

/// A word of the table, where it has one for what a list of the trade names: `label_` with the key of a profile.
pub(crate) fn known(key: &str) -> Option<&'static str> {
    WORDS.get(key).map(String::as_str)
}

/// A word of the table.
pub(crate) fn word(key: &str) -> &'static str {
    known(key).unwrap_or_default()
}

/// A phrase of the table with its blanks filled. What is filled in is not looked at again.
pub(crate) fn filled(key: &str, blanks: &[(&str, &dyn Display)]) -> String {
    let (mut text, mut rest) = (String::new(), word(key));
    while let Some((before, (name, after))) = next_blank(rest) {
        text.push_str(before);
        if let Some((_, with)) = blanks.iter().find(|(blank, _)| *blank == name) {
            let _ = write!(text, "{with}");
        }
        rest = after;
    }
    text + rest
}

/// What stands before the next blank, its name, and what stands after it.
fn next_blank(text: &str) -> Option<(&str, (&str, &str))> {
    let (before, rest) = text.split_once('{')?;
    Some((before, rest.split_once('}')?))
}

/// The words whose keys begin alike, as JSON, for a script: its keys are what follows.
pub(crate) fn words_of(begin: &str) -> String {
    let words = WORDS.iter().filter_map(|(key, text)| Some((key.strip_prefix(begin)?, text)));
    let words: BTreeMap<&str, &String> = words.collect();
    serde_json::to_string(&words).expect("texts are valid JSON")
}

/// What renders templates: everything is escaped, `t` is the table, and `say("week_to", first=1, last=4)` fills blanks.
pub(crate) fn environment() -> Environment<'static> {
    let mut environment = Environment::new();
    environment.set_auto_escape_callback(|_| AutoEscape::Html);
    environment.add_global("t", Value::from(Serde(&*WORDS)));
    environment.add_function("say", |key: &str, with: Kwargs| -> Result<String, Error> {
        let names: Vec<&str> = with.args().collect();
        let values = names.iter().map(|name| with.get::<Value>(name));
        let values = values.collect::<Result<Vec<Value>, Error>>()?;
        let blanks = names.iter().zip(&values).map(|(name, with)| (*name, with as &dyn Display));
        Ok(filled(key, &blanks.collect::<Vec<_>>()))
    });
    environment
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blanks_are_filled_by_name_and_what_fills_them_stays_as_it_is() {
        let (client, week) = ("{week} of {weeks}", 2);
        let said = say!(calendar_week, client, week, weeks = 4);
        assert_eq!(said, "{week} of {weeks}, week 2 of 4");
        assert_eq!(say!(each_side), "each side");
    }

    #[test]
    fn what_a_file_says_is_escaped() {
        let page = environment().render_str("{{ x }}", minijinja::context! { x => "<b>" });
        assert_eq!(page.unwrap(), "&lt;b&gt;");
    }
}
