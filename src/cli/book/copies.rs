//! Copies that a service for keeping files alike leaves beside a book when two machines wrote to it.

use std::fs;
use std::path::Path;

use crate::cli::output::Console;
use crate::diagnostic::{Diagnostic, Label};

/// W6007: names each copy once.
pub(super) fn remark(book: &Path, console: &Console) {
    let folder = book.parent().filter(|folder| *folder != Path::new("")).unwrap_or(Path::new("."));
    let Some(name) = book.file_name().and_then(|name| name.to_str()) else { return };
    let names = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut copies: Vec<String> = names
        .filter_map(|entry| entry.file_name().into_string().ok())
        .filter(|other| is_copy(name, other))
        .collect();
    copies.sort();
    if copies.is_empty() {
        return;
    }
    let told = Diagnostic::warning(
        "W6007",
        format!("beside the book lies what looks like a second version of it: {}", copies.join(", ")),
    )
    .at(Label::whole(book.display().to_string()))
    .help(
        "two machines wrote at once; look into both with `weekwright book check`, write down again what is missing in \
         one, and delete the other",
    );
    console.report(&told.into());
}

/// `book (conflicted copy).sqlite`, `book.sync-conflict-20270111.sqlite`, `book (1).sqlite` beside `book.sqlite`.
fn is_copy(name: &str, other: &str) -> bool {
    let Some((stem, ending)) = name.rsplit_once('.') else { return false };
    let between =
        other.strip_prefix(stem).and_then(|rest| rest.strip_suffix(&format!(".{ending}")));
    let Some(between) = between.filter(|between| !between.is_empty()) else { return false };
    let lower = between.to_lowercase();
    let inside = lower.trim().strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    let is_numbered = inside.is_some_and(|number| number.bytes().all(|byte| byte.is_ascii_digit()));
    lower.contains("conflict") || is_numbered
}

#[cfg(test)]
mod tests {
    use super::is_copy;

    #[test]
    fn copies_are_told_from_other_files() {
        let book = "weekwright.sqlite";
        for copy in [
            "weekwright (conflicted copy 2027-01-11).sqlite",
            "weekwright.sync-conflict-20270111-181500.sqlite",
            "weekwright (1).sqlite",
        ] {
            assert!(is_copy(book, copy), "{copy}");
        }
        for other in
            ["weekwright.sqlite", "weekwright-2026.sqlite", "weekwright.sqlite-journal", "b.sqlite"]
        {
            assert!(!is_copy(book, other), "{other}");
        }
    }
}
