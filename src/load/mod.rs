//! Texts into profiles and plans, with every fault in them. What a text names is handed in.

mod plan;
mod profile;

use std::collections::BTreeMap;
use std::sync::LazyLock;

pub use plan::{LoadedPlan, plan};
pub use profile::{Beside, LoadedProfile, profile, resolve_place};

use crate::input::catalog::Entry;
use crate::input::check::Known;
use crate::rules::RULES;

/// What a profile may name: these exercises, and every rule.
#[must_use]
pub fn known(entries: &BTreeMap<String, Entry>) -> Known<'_> {
    static IDS: LazyLock<Vec<&str>> =
        LazyLock::new(|| RULES.iter().map(|rule| rule.id()).collect());
    Known { entries, rules: &IDS }
}
