//! What a profile wishes of the week beside its sessions: exercises, sets, conditioning, balance, rules.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Exercises by wish.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Choices {
    /// In the week at least once.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["back-squat"])]
    #[schemars(length(max = 100))]
    pub must: Vec<String>,
    /// Liked: chosen before equals.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["goblet-squat"])]
    #[schemars(length(max = 100))]
    pub prefer: Vec<String>,
    /// Disliked: chosen only where nothing else does.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["walking-lunge"])]
    #[schemars(length(max = 100))]
    pub avoid: Vec<String>,
    /// Never in the week.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["deadlift"])]
    #[schemars(length(max = 100))]
    pub never: Vec<String>,
}

impl Choices {
    /// Whether nothing is wished.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Choices::default()
    }
}

/// A wished range of weekly sets.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum TargetWish {
    /// Low and high end.
    Range(#[schemars(example = [8, 14])] [f64; 2]),
    /// The same with the low end as a demand.
    Strict(StrictTarget),
}

/// A range whose low end may be a demand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StrictTarget {
    /// Low and high end in fractional sets.
    #[schemars(example = [8, 14])]
    pub range: [f64; 2],
    /// Whether a week under the low end is refused.
    #[serde(default)]
    pub strict: bool,
}

/// Conditioning that is brought in later.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ConditioningWish {
    /// The first week with conditioning.
    #[serde(default = "default_from_week")]
    #[schemars(range(min = 1, max = 52))]
    pub from_week: u32,
    /// Minutes at the end of a session.
    #[schemars(range(min = 3, max = 60))]
    #[schemars(example = 12)]
    pub minutes: u32,
    /// Kit or conditioning items to use, in order of liking; empty means any the place has.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["rowing-ergometer"])]
    #[schemars(length(max = 30))]
    pub modes: Vec<String>,
}

const fn default_from_week() -> u32 {
    3
}

/// Bands for the week's balance, as ratios of sets.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct BalanceWish {
    /// Rows and pulls for each push. Common practice.
    pub pull_push: [f64; 2],
    /// Knee work for each hip work. Common practice.
    pub knee_hip: [f64; 2],
}

impl Default for BalanceWish {
    fn default() -> Self {
        BalanceWish { pull_push: [0.9, 1.5], knee_hip: [0.67, 1.5] }
    }
}

impl BalanceWish {
    /// Whether nothing was changed.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == BalanceWish::default()
    }
}

/// A changed default of a rule: `false` turns a wish off, a number replaces its figure.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum RuleSetting {
    /// On or off.
    On(bool),
    /// The rule's figure.
    Figure(f64),
}
