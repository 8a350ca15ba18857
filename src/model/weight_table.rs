//! The weights as they stand in the guide.

use std::fmt::Write as _;

use super::points::WEIGHTS;
use super::weight::Weight;

/// The weights as a Markdown table. DEVELOPERS.md holds it.
#[must_use]
pub fn table() -> String {
    let mut table = String::from("| Tier | Rule | Weight | For |\n| --- | --- | ---: | --- |\n");
    for Weight { tier, rule, value, what, .. } in WEIGHTS {
        writeln!(table, "| {tier} | `{rule}` | {value} | {} |", what.trim())
            .expect("a string takes every write");
    }
    table
}
