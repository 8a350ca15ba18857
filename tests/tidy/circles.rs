//! Inside a folder, too, modules use one another in one direction.

use std::collections::{BTreeMap, BTreeSet};

use super::sources::{code, sources};

/// A module, by the names on the way to it from the root.
type Module<'a> = Vec<&'a str>;

#[test]
fn no_modules_of_a_folder_use_one_another_in_a_circle() {
    let found = circles(&sources());
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn a_circle_is_found_through_braces_and_children() {
    let source = |name: &str, text: &str| (format!("src/{name}.rs"), text.to_owned());
    let mut sources = vec![
        source("boat/mod", "mod oar;\nmod seat;\nmod hull;"),
        source("boat/oar", "use super::{Row, seat::{Seat, self}};"),
        source("boat/seat/mod", "use super::hull;"),
        source("boat/seat/rail", "use super::super::hull::Hull;"),
        source("boat/hull", "// use super::oar;\npub struct Hull;"),
    ];
    assert_eq!(circles(&sources), Vec::<String>::new());
    sources[4].1.push_str("fn of() { crate::boat::oar::take() }");
    assert_eq!(circles(&sources), ["boat: hull, oar, seat"]);
}

/// The circles of each folder.
fn circles(sources: &[(String, String)]) -> Vec<String> {
    let texts: BTreeMap<Module, String> = sources.iter().filter_map(module).collect();
    let mut uses: BTreeSet<(Module, Module)> = BTreeSet::new();
    for (module, text) in &texts {
        let used =
            paths(text).into_iter().filter_map(|path| known(&resolved(module, &path), &texts));
        uses.extend(used.map(|used| (module.clone(), used)));
    }
    let folders: BTreeSet<&[&str]> =
        texts.keys().map(|module| &module[..module.len() - 1]).collect();
    let circle = |folder: &&[&str]| circle(folder, &uses);
    folders.iter().filter_map(circle).collect()
}

/// A source's module and its code, without unit tests; none for the root.
fn module((name, text): &(String, String)) -> Option<(Module<'_>, String)> {
    let path = name.strip_prefix("src/")?.strip_suffix(".rs")?;
    let module: Module = path.strip_suffix("/mod").unwrap_or(path).split('/').collect();
    let own = &text[..text.find("#[cfg(test)]\nmod tests {").unwrap_or(text.len())];
    let is_code = !module.contains(&"tests") && !matches!(module.last(), Some(&"lib"));
    is_code.then(|| (module, code(own).map(|(_, line)| format!("{line}\n")).collect()))
}

/// What is left of a folder's modules once those that use no other are taken away, again and again.
fn circle(folder: &[&str], uses: &BTreeSet<(Module, Module)>) -> Option<String> {
    let child = |module: &Module| {
        module.strip_prefix(folder).and_then(|below| below.first().map(|one| (*one).to_owned()))
    };
    let between = |(from, to): &(Module, Module)| Some((child(from)?, child(to)?));
    let mut left: BTreeSet<(String, String)> =
        uses.iter().filter_map(between).filter(|(from, to)| from != to).collect();
    loop {
        let users: BTreeSet<String> = left.iter().map(|(from, _)| from.clone()).collect();
        let before = left.len();
        left.retain(|(_, to)| users.contains(to));
        if left.is_empty() {
            return None;
        }
        if left.len() == before {
            let used: BTreeSet<&str> = left.iter().map(|(_, to)| to.as_str()).collect();
            return Some(format!(
                "{}: {}",
                folder.join("/"),
                used.into_iter().collect::<Vec<_>>().join(", ")
            ));
        }
    }
}

/// A path from the root.
fn resolved<'a>(module: &Module<'a>, path: &[&'a str]) -> Module<'a> {
    let mut base = if path[0] == "crate" { Module::new() } else { module.clone() };
    for step in path {
        match *step {
            "crate" | "self" => {}
            "super" => drop(base.pop()),
            name => base.push(name),
        }
    }
    base
}

/// The module that a path leads to, or that holds what it names.
fn known<'a>(path: &Module<'a>, modules: &BTreeMap<Module<'a>, String>) -> Option<Module<'a>> {
    (1..=path.len())
        .rev()
        .map(|length| path[..length].to_vec())
        .find(|part| modules.contains_key(part))
}

/// Every path from `crate`, `self` or `super` in a text, with braces written out.
fn paths(text: &str) -> Vec<Vec<&str>> {
    let mut found = Vec::new();
    for root in ["crate::", "self::", "super::"] {
        for (at, _) in text.match_indices(root) {
            let is_inside =
                |letter: char| letter.is_alphanumeric() || letter == '_' || letter == ':';
            if !text[..at].ends_with(is_inside) {
                write_out(&text[at..], &[], &mut found);
            }
        }
    }
    found
}

fn write_out<'a>(text: &'a str, before: &[&'a str], found: &mut Vec<Vec<&'a str>>) {
    if let Some(list) = text.strip_prefix('{') {
        entries(list).into_iter().for_each(|entry| write_out(entry.trim_start(), before, found));
        return;
    }
    let end =
        text.find(|letter: char| !letter.is_alphanumeric() && letter != '_').unwrap_or(text.len());
    let path = [before, &[&text[..end]][..usize::from(end > 0)]].concat();
    match text[end..].strip_prefix("::") {
        Some(rest) => write_out(rest, &path, found),
        None => found.push(path),
    }
}

/// The entries of a list in braces, whose opening one is taken off.
fn entries(list: &str) -> Vec<&str> {
    let (mut depth, mut start, mut entries) = (0, 0, Vec::new());
    for (at, letter) in list.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth > 0 => depth -= 1,
            ',' | '}' if depth == 0 => {
                entries.push(&list[start..at]);
                start = at + 1;
                if letter == '}' {
                    break;
                }
            }
            _ => {}
        }
    }
    entries
}
