//! The shape of the answers that a client gives before training.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::words::{ChestPain, Intensity, Region};

/// Answers before training starts. A question that is left out stays open, and the plan says so.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Screening {
    /// Planned exercise of at least 30 minutes on 3 days a week for the last 3 months.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub active: Option<bool>,
    /// Known cardiovascular, metabolic or renal disease.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub disease: Option<bool>,
    /// Signs or symptoms that suggest one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signs: Option<bool>,
    /// How hard the client wants to work.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub intensity: Option<Intensity>,
    /// Pregnant now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pregnant: Option<bool>,
    /// Regions that hurt, `[]` for none: neck, shoulder, elbow, wrist, chest, upper-back, lower-back, hip, groin, knee,
    /// ankle, foot. What loads one of them heavily is kept out. Other text stays as a note.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = ["knee"], length(max = 30))]
    pub pain: Option<Vec<Pain>>,
    /// What pain in the chest is: of a muscle, or under effort. Until it is answered it counts as the latter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chest: Option<ChestPain>,
    /// Exercises that were tried and do not bring the pain on: they stay, whatever hurts.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["goblet-squat"])]
    #[schemars(length(max = 100))]
    pub painless: Vec<String>,
    /// A clinician said to wait.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told_to_wait: Option<bool>,
    /// The day on which a clinician agreed to training, ISO 8601, after signs, disease or pregnancy.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2026-12-15")]
    pub clinician_agreed: Option<String>,
}

/// What hurts: a region, or a note in the client's words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Pain {
    /// A region of the body.
    Region(Region),
    /// Other text.
    Note(#[schemars(length(min = 1, max = 200))] String),
}

impl Pain {
    /// The regions that are meant; a note may name some.
    #[must_use]
    pub fn regions(&self) -> Vec<Region> {
        match self {
            Pain::Region(region) => vec![*region],
            Pain::Note(text) => Region::named_in(text),
        }
    }

    /// As it was written.
    #[must_use]
    pub fn text(&self) -> String {
        match self {
            Pain::Region(region) => region.name(),
            Pain::Note(text) => text.clone(),
        }
    }
}
