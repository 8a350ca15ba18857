//! What the sources, the documents and the demo files promise about themselves.
//!
//! Some parts of the documents are made from the sources. After a change, write them anew with
//! `WEEKWRIGHT_UPDATE=1 cargo test tidy`.

mod circles;
mod demos;
mod documents;
mod sources;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn text(file: &str) -> String {
    fs::read_to_string(root().join(file)).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// Every file below a folder of the project, sorted.
fn files(folder: &str) -> Vec<PathBuf> {
    fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                collect(&path, found);
            } else {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    collect(&root().join(folder), &mut found);
    found.sort();
    assert!(!found.is_empty(), "{folder} is empty");
    found
}

/// The path below the project's root, with `/`.
fn name(path: &Path) -> String {
    let below = path.strip_prefix(root()).unwrap();
    below.to_str().unwrap().replace('\\', "/")
}

/// What the program prints, which must succeed.
fn printed(arguments: &[&str]) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_weekwright"));
    command.env("NO_COLOR", "1").env_remove("COLUMNS").env_remove("CLICOLOR_FORCE");
    let output = command.current_dir(root()).args(arguments).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

fn is_update() -> bool {
    std::env::var_os("WEEKWRIGHT_UPDATE").is_some()
}

/// Tests run side by side, and a document has several parts to write.
static WRITING: Mutex<()> = Mutex::new(());

/// Holds the part of a document between `<!-- NAME -->` and `<!-- /NAME -->` to what it is made from.
fn holds_made(document: &str, name: &str, wanted: &str) {
    let (open, close) = (format!("<!-- {name} -->\n"), format!("<!-- /{name} -->"));
    let writing = WRITING.lock();
    let whole = text(document);
    let start =
        whole.find(&open).unwrap_or_else(|| panic!("{document} has no {open}")) + open.len();
    let end = start + whole[start..].find(&close).unwrap_or_else(|| panic!("no {close}"));
    if is_update() {
        fs::write(root().join(document), [&whole[..start], wanted, &whole[end..]].concat())
            .unwrap();
    } else {
        let hint = "write it anew with `WEEKWRIGHT_UPDATE=1 cargo test tidy`";
        drop(writing);
        assert!(whole[start..end] == *wanted, "{document}: `{name}` is stale; {hint}:\n{wanted}");
    }
}
