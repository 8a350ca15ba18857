//! The list of rules as a whole: each is tested beside this file.

use std::fs;
use std::path::Path;

use weekwright::rules::RULES;

fn file(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    fs::read_to_string(&path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

#[test]
fn each_has_a_week_that_holds_and_one_that_breaks_it() {
    let modules = file("tests/rules/mod.rs");
    for rule in RULES {
        let name = rule.id().replace('-', "_");
        assert!(modules.contains(&format!("mod {name};\n")), "tests/rules/mod.rs: {name}");
        let tests = file(&format!("tests/rules/{name}.rs"));
        let has = |part: &str| tests.contains(part);
        assert!(has("#[test]") && has(&format!("check_rule(\"{}\")", rule.id())), "{name}");
        assert!(has(".allows(") || has(".allows_in("), "{name} has no week that holds");
        let breaks = [".refuses(", ".falls_short(", ".remarks("].into_iter().any(has);
        assert!(breaks, "{name} has no week that breaks it");
    }
}

#[test]
fn ids_are_kebab_case_and_summaries_one_sentence() {
    for (place, rule) in RULES.iter().enumerate() {
        let id = rule.id();
        assert!(id.chars().all(|one| one.is_ascii_lowercase() || one == '-'), "{id}");
        assert!(!RULES[..place].iter().any(|other| other.id() == id), "{id} twice");
        let summary = rule.summary();
        assert!(!summary.ends_with('.') && !summary.contains(". "), "{id}: {summary}");
        assert!(!summary.contains(['|', '\n']), "{id}: {summary}");
    }
}
