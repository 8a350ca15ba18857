//! Templates, the table of words, and the two files beside them, all inside the program.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use minijinja::{AutoEscape, Environment, Value, context, value::Serde};
use serde::Serialize;

use crate::sheets::progress;

const TEMPLATES: [(&str, &str); 14] = [
    ("base.html", include_str!("html/base.html")),
    ("clients.html", include_str!("html/clients.html")),
    ("week.html", include_str!("html/week.html")),
    ("part.html", include_str!("html/part.html")),
    ("card.html", include_str!("html/card.html")),
    ("try.html", include_str!("html/try.html")),
    ("instead.html", include_str!("html/instead.html")),
    ("profile.html", include_str!("html/profile.html")),
    ("write.html", include_str!("html/write.html")),
    ("progress.html", include_str!("html/progress.html")),
    ("review.html", include_str!("html/review.html")),
    ("faults.html", include_str!("html/faults.html")),
    ("drawn.html", progress::DRAWN),
    ("refused.html", include_str!("html/refused.html")),
];

/// How pages look.
pub(super) const STYLE: &str = include_str!("html/page.css");

/// What makes them quick.
pub(super) const SCRIPT: &str = include_str!("html/page.js");

/// Every word of the pages that is not a plan's.
static WORDS: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("html/words.yaml")).expect("the table is a map of texts")
});

static ENVIRONMENT: LazyLock<Environment<'static>> = LazyLock::new(|| {
    let mut environment = Environment::new();
    environment.set_auto_escape_callback(|_| AutoEscape::Html);
    for (name, source) in TEMPLATES {
        environment.add_template(name, source).expect("the templates are well formed");
    }
    environment.add_global("t", Value::from(Serde(&*WORDS)));
    environment
});

/// A word of the table; the key itself where it has none.
pub(super) fn word(key: &str) -> &str {
    WORDS.get(key).map_or(key, String::as_str)
}

/// A word of the table with what goes into its `{}`.
pub(super) fn word_of(key: &str, with: &str) -> String {
    word(key).replace("{}", with)
}

/// A page as text.
pub(super) fn rendered<V: Serialize>(
    name: &str,
    token: &str,
    view: &V,
) -> Result<String, minijinja::Error> {
    let template = ENVIRONMENT.get_template(name)?;
    let view = Value::from(Serde(view));
    template.render(context! { token, ..view })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn templates_are_well_formed_and_every_word_that_they_use_is_in_the_table() {
        assert!(ENVIRONMENT.get_template("week.html").is_ok());
        for (name, source) in TEMPLATES {
            let is_table = |at: usize| !source[..at].ends_with(char::is_alphanumeric);
            let places = source.match_indices("t.").filter(|(at, _)| is_table(*at));
            for used in places.filter_map(|(at, _)| key(&source[at + 2..])) {
                assert!(WORDS.contains_key(used), "{name} uses `{used}`");
            }
        }
    }

    /// The key after `{{ t.`, if this is one.
    fn key(rest: &str) -> Option<&str> {
        let end = rest.find(|c: char| !(c.is_ascii_lowercase() || c == '_'))?;
        let is_word = rest[end..].starts_with(" }}") || rest[end..].starts_with(" |");
        is_word.then(|| &rest[..end])
    }

    #[test]
    fn what_a_file_says_is_escaped() {
        let view = context! { sentence => "<script>alert(1)</script>" };
        let page = rendered("refused.html", "", &view).unwrap();
        assert!(!page.contains("<script>alert"), "{page}");
    }
}
