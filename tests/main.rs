//! Every test that goes through the front door, in one binary.
#![allow(clippy::unwrap_used, reason = "a test may fail where it stands")]

mod catalog;
mod cli;
mod input;
mod intake;
mod oracle;
mod plans;
mod properties;
mod rules;
mod schema;
mod search;
mod tidy;
mod why;

use std::fs;
use std::path::Path;

use weekwright::Profile;
use weekwright::load::LoadedProfile;

/// How many cases a test draws: its own number, or three times as many where `WEEKWRIGHT_LONG` asks for a long run.
pub(crate) fn cases(usual: usize) -> usize {
    if std::env::var_os("WEEKWRIGHT_LONG").is_some() { 3 * usual } else { usual }
}

/// A demo profile with its place merged in.
pub(crate) fn demo(name: &str) -> Profile {
    loaded_demo(name).profile
}

/// A demo profile with what was remarked on it.
fn loaded_demo(name: &str) -> LoadedProfile {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
    let text = |file: String| fs::read_to_string(folder.join(file)).unwrap();
    let profile = text(format!("{name}.yaml"));
    let place = profile.lines().find_map(|line| line.strip_prefix("place: "));
    let place = place.map(|place| text(format!("places/{place}.yaml")));
    let loaded = rules::check::PLANNER.load(&profile, place.as_deref());
    loaded.unwrap_or_else(|faults| panic!("{name}: {faults}"))
}
