//! One table holds the words of cards and pages: what is said stands in it, what stands in it is said, and no template or
//! source beside it has words of its own.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};
use regex_lite::Regex;

/// What is written and is nothing that is said to people: formats, headers, and what the words of a plan are known by.
const NO_WORDS: &[&str] = &[
    // Media types, headers and policies.
    "; charset=utf-8",
    "attachment; filename=",
    "default-src 'none'",
    "; Path=/; HttpOnly; SameSite=Strict",
    "<style",
    // Papers, as style sheets name them.
    "A4 landscape",
    "Letter",
    // Keys of JSON Schema.
    "anyOf",
    "oneOf",
    "additionalProperties",
    // Scripts: their mode, methods and headers, and selectors.
    "use strict",
    "POST",
    "X-Part",
    "Content-Type",
    "#changes h2",
    "[data-",
    "[type=",
    "[name=",
    "article[",
    "td[data",
    "tr[data",
    "weekwright ${",
    "${now.getFullYear()}",
    "[id^=",
    // RFC 5545.
    "-//Weekwright//Training weeks//EN",
    // The seal under a plan.
    "# As weekwright wrote it while the sha256 of the lines above is ",
    // What is looked for in the words of a plan, a catalog or a profile.
    "because ",
    "each side ",
    "from ",
    ": About",
    ": about",
    "if a set leaves one fewer than planned",
    "stop if it hurts",
    "safety arms",
    "hold on",
    "within reach",
    "pull up",
    "Romanian",
    "Nordic",
    "Trial, screening open:",
];

fn table() -> BTreeMap<String, String> {
    serde_yaml::from_str(&text(&root().join("src/sheets/wording.yaml"))).unwrap()
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap()
}

/// The files of sheets and page with such an ending, by name.
fn files(ending: &str) -> Vec<(String, String)> {
    let mut folders = vec![root().join("src/sheets"), root().join("src/page")];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|one| one == ending) {
                let name = path.strip_prefix(root()).unwrap().display().to_string();
                found.push((name, text(&path)));
            }
        }
    }
    found.sort();
    assert!(found.len() > 1, "{ending}");
    found
}

/// The blanks of a phrase.
fn blanks(phrase: &str) -> BTreeSet<String> {
    let blank = Regex::new(r"\{([a-z_]+)\}").unwrap();
    blank.captures_iter(phrase).map(|found| found[1].to_owned()).collect()
}

/// What a source says: phrases with the names that fill their blanks, and texts.
#[derive(Default)]
struct Said {
    phrases: Vec<(String, BTreeSet<String>)>,
    texts: Vec<String>,
}

impl Said {
    fn of(source: &str) -> Said {
        let mut said = Said::default();
        said.read(source.parse().unwrap());
        said
    }

    /// Attributes (comments among them), tests and what an `expect` states are not read.
    fn read(&mut self, tokens: TokenStream) {
        let mut tokens = tokens.into_iter().peekable();
        let (mut before, mut is_test) = (String::new(), false);
        while let Some(token) = tokens.next() {
            let now = token.to_string();
            match token {
                TokenTree::Punct(mark) if mark.as_char() == '#' => {
                    tokens.next_if(|next| next.to_string() == "!");
                    if let Some(TokenTree::Group(inside)) =
                        tokens.next_if(|next| matches!(next, TokenTree::Group(_)))
                    {
                        is_test |= inside.to_string().replace(' ', "") == "[cfg(test)]";
                    }
                    continue;
                }
                TokenTree::Group(inside) if before == "say!" => self.phrase(&inside),
                TokenTree::Group(inside) => {
                    let is_body = inside.delimiter() == Delimiter::Brace;
                    if !(is_body && is_test || before == "expect") {
                        self.read(inside.stream());
                    }
                    is_test &= !is_body;
                }
                TokenTree::Literal(text) => {
                    let text = text.to_string();
                    if let Some(text) = text.strip_prefix('"') {
                        self.texts.push(text.trim_end_matches('"').to_owned());
                    }
                }
                TokenTree::Punct(mark) if mark.as_char() == ';' => is_test = false,
                _ => {}
            }
            before = if now == "!" { before + "!" } else { now };
        }
    }

    /// `key, name = value, name`, and what is said within a value.
    fn phrase(&mut self, inside: &Group) {
        let (mut names, mut is_name) = (Vec::new(), true);
        for token in inside.stream() {
            match &token {
                TokenTree::Ident(name) if is_name => names.push(name.to_string()),
                _ => {}
            }
            is_name = matches!(&token, TokenTree::Punct(mark) if mark.as_char() == ',');
        }
        let mut names = names.into_iter();
        if let Some(key) = names.next() {
            self.phrases.push((key, names.collect()));
        }
        self.read(inside.stream());
    }
}

fn sources() -> Vec<(String, Said)> {
    files("rs").into_iter().map(|(name, source)| (name, Said::of(&source))).collect()
}

/// Words that a template takes, and phrases with what fills their blanks.
fn taken(template: &str) -> Vec<(String, BTreeSet<String>)> {
    let word = Regex::new(r"\bt\.([a-z_0-9]+)").unwrap();
    let words = word.captures_iter(template).map(|found| (found[1].to_owned(), BTreeSet::new()));
    let phrase = Regex::new(r#"\bsay\("([a-z_]+)"([^)]*)\)"#).unwrap();
    let name = Regex::new(r"([a-z_]+)=").unwrap();
    let phrases = phrase.captures_iter(template).map(|found| {
        let names = name.captures_iter(&found[2]).map(|one| one[1].to_owned()).collect();
        (found[1].to_owned(), names)
    });
    words.chain(phrases).collect()
}

#[test]
fn what_is_said_stands_in_the_table_with_the_same_blanks() {
    let table = table();
    let rust = sources().into_iter().map(|(name, said)| (name, said.phrases));
    let pages = files("html").into_iter().map(|(name, template)| (name, taken(&template)));
    let (mut count, mut wrong) = (0, Vec::new());
    for (name, phrases) in rust.chain(pages) {
        count += phrases.len();
        for (key, names) in phrases {
            if table.get(&key).is_none_or(|phrase| blanks(phrase) != names) {
                wrong.push(format!("{name}: {key} with {names:?}, {:?}", table.get(&key)));
            }
        }
    }
    assert!(wrong.is_empty() && count > 500, "{count}: {wrong:#?}");
}

/// A script asks for no word that its page does not hand over.
#[test]
fn scripts_find_their_words() {
    let table = table();
    let (words, told) = (
        Regex::new(r"\bwords\.([a-z_]+)").unwrap(),
        text(&root().join("src/sheets/html/pocket.js")),
    );
    let keys: Vec<String> =
        words.captures_iter(&told).map(|key| format!("pocket_{}", &key[1])).collect();
    assert!(keys.len() > 8 && keys.iter().all(|key| table.contains_key(key)), "{keys:?}");
}

#[test]
fn what_stands_in_the_table_is_said() {
    let (rust, pages, scripts) = (sources(), files("html"), files("js"));
    let mut said: BTreeSet<String> = BTreeSet::new();
    // `label_{key}`, `"section_" ~ id`, `words_of("pocket_")`: all that begins so.
    let mut families: BTreeSet<String> = BTreeSet::new();
    let family = Regex::new(r"^([a-z]+_)(\{.*\})?$").unwrap();
    for (_, one) in &rust {
        said.extend(one.phrases.iter().map(|(key, _)| key.clone()));
        said.extend(one.texts.iter().cloned());
        families
            .extend(one.texts.iter().filter_map(|text| Some(family.captures(text)?[1].to_owned())));
    }
    let joined = Regex::new(r#""([a-z]+_)" ~"#).unwrap();
    for (_, template) in &pages {
        said.extend(taken(template).into_iter().map(|(key, _)| key));
        families.extend(joined.captures_iter(template).map(|found| found[1].to_owned()));
    }
    let words = Regex::new(r"\bwords\.([a-z_]+)").unwrap();
    let of_scripts: BTreeSet<String> = scripts
        .iter()
        .flat_map(|(_, text)| words.captures_iter(text))
        .map(|key| format!("pocket_{}", &key[1]))
        .collect();
    families.remove("pocket_");
    let is_said = |key: &String| {
        said.contains(key)
            || of_scripts.contains(key)
            || families.iter().any(|begin| key.starts_with(begin))
    };
    let idle: Vec<String> = table().into_keys().filter(|key| !is_said(key)).collect();
    assert!(idle.is_empty(), "{idle:#?}");
}

/// Whether a text in a source is more than a key, an address or a code.
fn speaks(text: &str) -> bool {
    let bare = Regex::new(r"\{[^}]*\}|\\[a-z0]|\\u\{[0-9a-f]+\}")
        .unwrap()
        .replace_all(text, "")
        .into_owned();
    let has_word = Regex::new("[A-Za-z]{2}").unwrap().is_match(&bare);
    let is_code = Regex::new(r"^([a-z0-9_./:@=?&#$\-]*|[A-Z]{1,2}-?[0-9]{2,4}|[A-Z;=]+)$").unwrap();
    has_word && !is_code.is_match(&bare) && !NO_WORDS.iter().any(|known| text.contains(known))
}

#[test]
fn no_source_has_words_of_its_own() {
    let mut own: Vec<String> = Vec::new();
    for (name, said) in sources() {
        own.extend(
            said.texts.iter().filter(|text| speaks(text)).map(|text| format!("{name}: {text}")),
        );
    }
    assert!(own.is_empty(), "{own:#?}");
    let found = Said::of(
        "fn f() { g(\"Take {n} sets\"); say!(key, a, b = h(\"Not so\")) } #[cfg(test)] mod t { \"A word\" }",
    );
    assert!(found.texts.iter().filter(|text| speaks(text)).count() == 2, "{:?}", found.texts);
    assert_eq!(
        found.phrases,
        [("key".to_owned(), BTreeSet::from(["a".to_owned(), "b".to_owned()]))]
    );
}

#[test]
fn no_script_has_words_of_its_own() {
    let quoted = Regex::new(r#""([^"\n]*)"|`([^`]*)`"#).unwrap();
    let remark = Regex::new(r"(?m)^\s*(//|/\*\*).*$").unwrap();
    let own = |script: &str| -> Vec<String> {
        let code = remark.replace_all(script, "").into_owned();
        let texts = quoted.captures_iter(&code).filter_map(|found| found.get(1).or(found.get(2)));
        texts.map(|text| text.as_str().to_owned()).filter(|text| speaks(text)).collect()
    };
    for (name, script) in files("js") {
        assert!(own(&script).is_empty(), "{name} has words of its own: {:?}", own(&script));
    }
    assert_eq!(own("say(\"All sets\" + `${n} to do` + \"mon\");"), ["All sets", "${n} to do"]);
}

#[test]
fn every_template_takes_its_words_from_the_table() {
    let filled = Regex::new(r"(?s)\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}|<style>.*?</style>").unwrap();
    let attribute =
        Regex::new(r#"(?:aria-label|title|alt|placeholder)="[^"]*[A-Za-z]{2}"#).unwrap();
    let tag = Regex::new(r"(?s)<[^>]*>|&[a-z]+;|&#[0-9]+;").unwrap();
    let word = Regex::new(r"[A-Za-z]{2,}").unwrap();
    let own = |template: &str| -> Vec<String> {
        let bare = filled.replace_all(template, "");
        let text = tag.replace_all(&bare, " ");
        let words = word.find_iter(&text).chain(attribute.find_iter(&bare));
        words.map(|found| found.as_str().to_owned()).collect()
    };
    for (name, template) in files("html") {
        let own = own(&template);
        assert!(own.is_empty(), "{name} has words of its own: {own:?}");
    }
    assert_eq!(own("<p title=\"A b\">{{ t.x }} 3 Sets</p>").len(), 1);
    assert_eq!(own("<p aria-label=\"All of it\">{{ t.x }}</p>").len(), 1);
}
