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

use std::path::Path;

use weekwright::cli::files::load_profile;
use weekwright::input::check::Known;
use weekwright::input::profile::Profile;

/// A demo profile with its place merged in, as the program reads it.
pub(crate) fn demo(name: &str) -> Profile {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("profiles/{name}.yaml"));
    let rules: Vec<&str> = weekwright::rules::RULES.iter().map(|rule| rule.id()).collect();
    let known = Known { entries: rules::check::PLANNER.catalog().entries(), rules: &rules };
    let loaded = load_profile(&path, known);
    loaded.unwrap_or_else(|faults| panic!("{name}: {:?}", faults.diagnostics)).profile
}
