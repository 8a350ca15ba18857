//! Bad input: every fault has a code, a place and a way out.

mod codes;
pub(crate) mod fixtures;
mod never_panics;
mod shapes;

use weekwright::catalog::Catalog;
use weekwright::diagnostic::Diagnostic;
use weekwright::input::check::Known;

/// The ids that the tests know: the built-in catalog and two rules.
pub(crate) fn with_known<T>(run: impl FnOnce(Known<'_>) -> T) -> T {
    let catalog = Catalog::built_in();
    run(Known { entries: catalog.entries(), rules: &["weekly-volume", "session-length"] })
}

/// A fault as the tables write it: `E1201 8:1`, with the file's name where it is not the first.
pub(crate) fn told(diagnostic: &Diagnostic, source: &str) -> String {
    let label = diagnostic.labels.first().expect("every fault has a place");
    let place =
        label.span.map_or_else(|| "-".to_owned(), |span| format!("{}:{}", span.line, span.column));
    let file = label.source.rsplit("bad/").next().unwrap_or_default();
    if label.source == source {
        format!("{} {place}", diagnostic.code)
    } else {
        format!("{} {file} {place}", diagnostic.code)
    }
}
