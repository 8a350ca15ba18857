//! The book as a coach keeps it.

mod faults;
mod kept;
mod written;

use std::fs;
use std::path::Path;
use std::process::Output;

use super::{program, text};

/// Four weeks on two evenings, by hand.
pub(super) const PLAN: &str =
    concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/record/dock.plan.yaml");

/// The first day to come in tests that ask for the coming week: whatever the calendar says, the course is at its start.
pub(super) const COMES: &str = "2027-01-05";

/// A folder with a book that is made by the first session.
pub(super) struct Desk {
    folder: tempfile::TempDir,
}

impl Desk {
    pub(super) fn new() -> Desk {
        Desk { folder: tempfile::tempdir().unwrap() }
    }

    pub(super) fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Runs the program in the folder, where the book is the usual one.
    pub(super) fn run(&self, arguments: &[&str]) -> Output {
        program().current_dir(self.path()).args(arguments).output().unwrap()
    }

    /// What the program prints, which must succeed.
    pub(super) fn done(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        assert!(output.status.success(), "{arguments:?}: {}", text(&output.stderr));
        text(&output.stdout).to_owned()
    }

    /// A file of the folder.
    pub(super) fn file(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// The plan with its coming week made from what was done.
    pub(super) fn next(&self) -> serde_json::Value {
        serde_json::from_str(&self.done(&["next", PLAN, "--on", COMES, "--format", "json"]))
            .unwrap()
    }

    /// Writes a session of the plan down.
    pub(super) fn log(&self, date: &str, lines: &str) -> String {
        self.done(&["log", PLAN, "--date", date, lines])
    }
}

/// What was said beside the result, on one line however it was wrapped.
pub(super) fn said(output: &Output) -> String {
    text(&output.stderr).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// An exercise of a week's session in a plan printed as JSON.
#[track_caller]
pub(super) fn item<'a>(
    plan: &'a serde_json::Value,
    week: usize,
    session: usize,
    exercise: &str,
) -> &'a serde_json::Value {
    let groups = plan["weeks"][week - 1]["sessions"][session]["groups"].as_array().unwrap();
    let mut items = groups.iter().flat_map(|group| group["items"].as_array().unwrap());
    items.find(|item| item["exercise"] == exercise).unwrap()
}
