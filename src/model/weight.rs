//! What a weight is, and how a table of them is written.

use super::tier::Tier;

/// A weight with the rule that uses it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weight {
    /// Its name here.
    pub name: &'static str,
    /// The tier that it counts in.
    pub tier: Tier,
    /// The rule's id, or what of the model.
    pub rule: &'static str,
    /// Costs or points.
    pub value: f64,
    /// What it is paid or given for.
    pub what: &'static str,
}

/// The constants of a table of weights, and the table.
macro_rules! weights {
    ($($tier:ident { $($rule:literal: $(#[doc = $what:literal] $name:ident = $value:expr;)+)+ })+) => {
        $($($(#[doc = $what] pub const $name: f64 = $value;)+)+)+
        /// Every weight, in the order of the tiers.
        pub const WEIGHTS: &[Weight] = &[$($($(Weight {
            name: stringify!($name),
            tier: Tier::$tier,
            rule: $rule,
            value: $value,
            what: $what,
        },)+)+)+];
    };
}

pub(super) use weights;
