//! The promises of the sources: short files, one direction, no world outside below `cli`.

use std::fs;
use std::path::Path;

use super::{files, name, root, text};

pub(super) fn sources() -> Vec<(String, String)> {
    let rust = files("src").into_iter().filter(|file| file.extension().is_some_and(|e| e == "rs"));
    rust.map(|file| (name(&file), fs::read_to_string(&file).unwrap())).collect()
}

/// Whether a source holds nothing but unit tests.
fn is_test(name: &str) -> bool {
    name.ends_with("/tests.rs") || name.contains("/tests/")
}

/// The lines of code, with their numbers: no comments.
pub(super) fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines = text.lines().enumerate().map(|(at, line)| (at + 1, line));
    lines.filter(|(_, line)| !line.trim_start().starts_with("//"))
}

#[test]
fn no_source_file_is_over_400_lines() {
    let long = |(name, text): (String, String)| {
        let lines = text.lines().count();
        (lines > 400).then(|| format!("{name}: {lines}"))
    };
    let long: Vec<String> = sources().into_iter().filter_map(long).collect();
    assert!(long.is_empty(), "{long:?}");
}

#[test]
fn only_the_command_line_touches_files_clock_environment_and_output() {
    const OUTSIDE: [&str; 10] = [
        "std::fs",
        "std::env",
        "std::net",
        "std::process",
        "SystemTime",
        "Instant",
        "stdout()",
        "stderr()",
        "println!",
        "print!",
    ];
    let mut found = Vec::new();
    for (name, text) in sources() {
        if name.starts_with("src/cli/") || name == "src/main.rs" || is_test(&name) {
            continue;
        }
        for (number, line) in code(&text) {
            let touched = OUTSIDE.iter().filter(|word| line.contains(*word));
            found.extend(touched.map(|word| format!("{name}:{number}: {word}")));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// The modules of the crate, in their order.
pub(super) fn modules() -> Vec<String> {
    let module = |line: &str| {
        line.trim_start_matches("pub ").strip_prefix("mod ")?.strip_suffix(';').map(str::to_owned)
    };
    text("src/lib.rs").lines().filter_map(module).collect()
}

/// The order of `src/lib.rs` is the way of the data. Tests of a module may use what comes later.
#[test]
fn a_module_uses_only_what_comes_before_it() {
    let modules = modules();
    let place = |module: &str| modules.iter().position(|one| *one == module);
    let mut found = Vec::new();
    for (name, text) in sources() {
        let module = name["src/".len()..].split(['/', '.']).next().unwrap_or_default();
        let Some(own) = place(module).filter(|_| !is_test(&name)) else { continue };
        let tests = text.find("#[cfg(test)]").unwrap_or(text.len());
        for (number, line) in code(&text[..tests]) {
            for used in line.split("crate::").skip(1) {
                let end = used.find(|c: char| !c.is_alphanumeric() && c != '_');
                let used = &used[..end.unwrap_or(used.len())];
                if place(used).is_some_and(|used| used > own) {
                    found.push(format!("{name}:{number}: {used} comes after {module}"));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn only_the_program_module_sees_the_solver() {
    for (name, text) in sources() {
        let sees =
            code(&text).any(|(_, line)| line.contains("good_lp") || line.contains("microlp::"));
        assert!(!sees || name.starts_with("src/program/"), "{name} sees the solver");
    }
}

/// Paths of somebody's machine and of files that are not in the project lead nowhere for a reader. The words
/// are put together here so that this file does not hold them.
#[test]
fn nothing_names_a_path_outside_the_project() {
    let outside = [
        ["/wo", "rk/"].concat(),
        ["/ro", "ot/"].concat(),
        ["/ho", "me/"].concat(),
        ["../sha", "red"].concat(),
        ["/sha", "red/"].concat(),
        [".lib", "rary"].concat(),
        ["/tmp", "/ww"].concat(),
    ];
    let folders = ["src", "tests", "catalog", "profiles", ".ci"];
    let more = ["README.md", "DEVELOPERS.md", "Cargo.toml", ".clippy.toml", ".gitignore"];
    let all = folders.iter().flat_map(|folder| files(folder));
    for file in all.chain(more.iter().map(|file| root().join(file))) {
        let found = named(&file, &outside);
        assert!(found.is_empty(), "{} names {found:?}", name(&file));
    }
}

fn named<'a>(file: &Path, words: &'a [String]) -> Vec<&'a String> {
    let bytes = fs::read(file).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    words.iter().filter(|word| text.contains(*word)).collect()
}
