//! README and DEVELOPERS say what is so.

use std::fmt::Write as _;

use weekwright::cli::Exit;
use weekwright::inner::weight_table;
use weekwright::input::check::CODES;
use weekwright::rules;

use super::sources::modules;
use super::{files, holds_made, name, printed, root, text};

const DEMO: &str = "profiles/tide-01.yaml";

#[test]
fn the_readme_sets_up_with_two_commands() {
    let readme = text("README.md");
    let first_block = readme.split("```").nth(1).unwrap();
    let commands: Vec<&str> = first_block.lines().skip(1).collect();
    assert_eq!(commands, [&*format!("cargo run --release -- plan {DEMO}"), "cargo test"]);
    assert!(root().join(DEMO).is_file());
    assert!(text(".ci/run").contains(commands[0].trim_start_matches("cargo run ")));
}

/// The head and first day, and the coach's counts, word for word.
#[test]
fn the_readme_shows_what_the_program_prints() {
    let printed = printed(&["plan", DEMO]);
    let first_day = part(&printed, "", "\n\nWEDNESDAY");
    let counts = part(&printed, "Weekly sets (", "\n\nWith care");
    holds_made("README.md", "first day", &format!("```text\n{first_day}\n```\n"));
    holds_made("README.md", "counts", &format!("```text\n{counts}\n```\n"));
}

fn part<'a>(text: &'a str, from: &str, until: &str) -> &'a str {
    let start = text.find(from).unwrap_or_else(|| panic!("nothing starts with {from:?}"));
    let length = text[start..].find(until).unwrap_or_else(|| panic!("no {until:?} after {from:?}"));
    &text[start..start + length]
}

#[test]
fn the_readme_holds_the_rule_table() {
    holds_made("README.md", "rules", &rules::table());
}

#[test]
fn the_guide_holds_the_table_of_weights() {
    holds_made("DEVELOPERS.md", "points", &weight_table::table());
}

#[test]
fn the_readme_explains_every_key_of_a_profile_and_a_place() {
    let readme = text("README.md");
    for shape in ["profile", "place"] {
        let schema: serde_json::Value = serde_json::from_str(&printed(&["schema", shape])).unwrap();
        for key in schema["properties"].as_object().unwrap().keys() {
            assert!(readme.contains(&format!("`{key}")), "the README says nothing of `{key}`");
        }
    }
}

#[test]
fn the_readme_explains_every_command_and_exit_code() {
    let readme = text("README.md");
    let help = printed(&["--help"]);
    let commands = part(&help, "Commands:\n", "\n\n").lines().skip(1);
    let commands = commands.filter_map(|line| line.strip_prefix("  "));
    let words = commands.filter_map(|line| line.split(' ').next().filter(|word| !word.is_empty()));
    for command in words.filter(|word| *word != "help") {
        assert!(readme.contains(&format!("weekwright {command}")), "nothing of `{command}`");
    }
    for exit in [Exit::Done, Exit::Other, Exit::Input, Exit::Impossible, Exit::Broken] {
        assert!(readme.contains(&format!("\n| {} | ", exit as u8)), "nothing of {exit:?}");
    }
}

#[test]
fn the_guide_lists_every_code() {
    let mut table = String::from("| Code | What is wrong | What to do |\n| --- | --- | --- |\n");
    for (code, cause, way_out) in CODES {
        writeln!(table, "| {code} | {cause} | {way_out} |").unwrap();
    }
    holds_made("DEVELOPERS.md", "codes", &table);
    let guide = text("DEVELOPERS.md");
    let quoted = |code: &str| guide.contains(&format!("| {code} | "));
    for file in files("src") {
        let source = std::fs::read_to_string(&file).unwrap_or_default();
        let codes = source.split('"').filter(|word| is_code(word));
        let missing: Vec<&str> = codes.filter(|code| !quoted(code)).collect();
        assert!(missing.is_empty(), "{}: not in DEVELOPERS.md: {missing:?}", name(&file));
    }
}

/// `E1201` and the like.
fn is_code(word: &str) -> bool {
    let digits = word.strip_prefix('E').or_else(|| word.strip_prefix('W')).unwrap_or_default();
    digits.len() == 4 && digits.bytes().all(|byte| byte.is_ascii_digit())
}

#[test]
fn the_guide_names_every_module() {
    let guide = text("DEVELOPERS.md");
    for module in modules() {
        assert!(guide.contains(&format!("| `{module}` | ")), "nothing of `{module}`");
    }
}
