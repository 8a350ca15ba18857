//! The words of cards and pages, in one table, for templates and for what fills them.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use minijinja::{AutoEscape, Environment, Value, value::Serde};

static WORDS: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("wording.yaml")).expect("the table is a map of texts")
});

/// A word of the table; the key itself where it has none.
pub(crate) fn word(key: &str) -> &str {
    WORDS.get(key).map_or(key, String::as_str)
}

/// A word of the table with what goes into its `{}`.
pub(crate) fn word_of(key: &str, with: &str) -> String {
    word(key).replace("{}", with)
}

/// The words whose keys begin alike, as JSON, for a script: its keys are what follows.
pub(crate) fn words_of(begin: &str) -> String {
    let words = WORDS.iter().filter_map(|(key, text)| Some((key.strip_prefix(begin)?, text)));
    let words: BTreeMap<&str, &String> = words.collect();
    serde_json::to_string(&words).expect("texts are valid JSON")
}

/// What renders templates: everything is escaped, and `t` is the table.
pub(crate) fn environment() -> Environment<'static> {
    let mut environment = Environment::new();
    environment.set_auto_escape_callback(|_| AutoEscape::Html);
    environment.add_global("t", Value::from(Serde(&*WORDS)));
    environment
}

#[cfg(test)]
pub(crate) mod tests {
    use regex_lite::Regex;

    use super::*;

    /// A template takes every word from the table, and each that it takes is there.
    pub(crate) fn takes_its_words_from_the_table(name: &str, source: &str) {
        let used = Regex::new(r"\bt\.([a-z_]+)").unwrap();
        for key in used.captures_iter(source) {
            assert!(WORDS.contains_key(&key[1]), "{name} uses `{}`", &key[1]);
        }
        let filled = Regex::new(r"(?s)\{\{.*?\}\}|\{%.*?%\}|<style>.*?</style>").unwrap();
        let bare = filled.replace_all(source, "");
        let told = Regex::new(r#"(?:aria-label|title|alt|placeholder)="[^"]*[A-Za-z]{2}"#).unwrap();
        assert!(!told.is_match(&bare), "{name}: an attribute has words of its own");
        let tag = Regex::new(r"(?s)<[^>]*>|&[a-z]+;|&#[0-9]+;").unwrap();
        let text = tag.replace_all(&bare, " ");
        let word = Regex::new(r"[A-Za-z]{2,}").unwrap();
        let own: Vec<&str> = word.find_iter(&text).map(|found| found.as_str()).collect();
        assert!(own.is_empty(), "{name} has words of its own: {own:?}");
    }

    #[test]
    fn every_template_takes_its_words_from_the_table() {
        for (name, source) in [
            ("sheet.html", include_str!("html/sheet.html")),
            ("progress", include_str!("progress/page.html")),
            ("drawn.html", include_str!("progress/drawn.html")),
            ("roster.html", include_str!("room/roster.html")),
            ("wall.html", include_str!("room/wall.html")),
        ] {
            takes_its_words_from_the_table(name, source);
        }
    }

    /// The script of a card asks for no word that its page does not hand over.
    #[test]
    fn the_script_of_a_card_finds_its_words() {
        let told = words_of("pocket_");
        let used = Regex::new(r"\bwords\.([a-z_]+)").unwrap();
        let script = include_str!("html/pocket.js");
        let keys: Vec<&str> =
            used.captures_iter(script).map(|key| key.get(1).unwrap().as_str()).collect();
        assert!(keys.len() > 8 && keys.iter().all(|key| told.contains(&format!("\"{key}\":"))));
    }

    #[test]
    fn what_a_file_says_is_escaped() {
        let page = environment().render_str("{{ x }}", minijinja::context! { x => "<b>" });
        assert_eq!(page.unwrap(), "&lt;b&gt;");
    }
}
