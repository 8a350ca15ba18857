//! The shape of a catalog file: a list of exercises.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::words::{
    Grade, Kind, Kit, LoadKind, Measure, Muscle, Part, Pattern, Role, Sides, Standing, Stress,
};

/// One entry of the catalog.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Kebab-case ASCII, unique.
    #[schemars(regex(pattern = r"^[a-z0-9]+(-[a-z0-9]+)*$"), length(max = 60))]
    #[schemars(example = &"goblet-squat")]
    pub id: String,
    /// The trade's name.
    #[schemars(length(min = 1, max = 80))]
    #[schemars(example = &"Goblet squat")]
    pub name: String,
    /// What the item is for.
    #[serde(default = "default_role", skip_serializing_if = "is_work")]
    pub role: Role,
    /// The part of a session that a preparation or conditioning item serves.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<Part>,
    /// Close variants share a family: one of a family a day. Defaults to the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub family: Option<String>,
    /// The movement pattern; of a preparation the one that it rehearses. Conditioning items have none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pattern: Option<Pattern>,
    /// Several joints or one; preparation and conditioning items have none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<Kind>,
    /// Worth leading a session with.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub main: bool,
    /// How soon a coach takes it where kit, limits and level leave it.
    #[serde(default, skip_serializing_if = "is_regular")]
    pub standing: Standing,
    /// Whether a coach takes it before the other staples of its pattern.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub go_to: bool,
    /// The exercises that a coach takes before this one where they are at hand, though it is as good a go-to elsewhere.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["seated-cable-row"])]
    #[schemars(length(max = 10))]
    pub second_to: Vec<String>,
    /// The exercise that this one is a variant of: it comes with or after that one, and goes where that one is never
    /// wanted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"back-squat")]
    pub variant_of: Option<String>,
    /// Whether a novice may learn the movement by it, even where it is a stand-in.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub first_step: bool,
    /// How much there is to learn: 1 done well in the first session, 2 after a few, 3 after weeks with a coach.
    #[serde(default = "least_skill", skip_serializing_if = "is_least_skill")]
    #[schemars(range(min = 1, max = 3))]
    pub skill: u8,
    /// Muscles that get one set per set, the prime mover first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["quads", "glutes"])]
    #[schemars(length(max = 24))]
    pub direct: Vec<Muscle>,
    /// Muscles that get half a set per set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["adductors"])]
    #[schemars(length(max = 24))]
    pub indirect: Vec<Muscle>,
    /// Muscles that a preparation item readies or a conditioning item tires.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 24))]
    pub muscles: Vec<Muscle>,
    /// Any one of these sets of kit; an empty set means nothing is needed.
    #[schemars(length(min = 1, max = 30), inner(length(max = 10)))]
    #[schemars(example = [["dumbbells"]])]
    pub needs: Vec<Vec<Kit>>,
    /// 1 novice, 2 intermediate, 3 advanced.
    #[schemars(range(min = 1, max = 3))]
    pub level: u8,
    /// Both sides together or each in turn.
    pub sides: Sides,
    /// How the resistance is given.
    #[serde(default = "default_load")]
    pub load: LoadKind,
    /// What a set counts.
    pub measure: Measure,
    /// The range that makes sense, in the unit of `measure`, per side where sides are `each`.
    #[schemars(length(min = 2, max = 2), inner(range(min = 1, max = 5000)))]
    #[schemars(example = [6, 12])]
    pub reps: Vec<u32>,
    /// Lowering-pause-lifting-pause in seconds; with `measure: reps`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(regex(pattern = r"^[0-9]-[0-9]-[0-9]-[0-9]$"))]
    #[schemars(example = &"3-0-1-0")]
    pub tempo: Option<String>,
    /// Seconds to arrange it before the first set.
    #[schemars(range(min = 0, max = 600))]
    #[schemars(example = 30)]
    pub setup_s: u32,
    /// What it loads in the body.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 30))]
    pub stress: Vec<StressTag>,
    /// Ids of easier forms.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["bodyweight-squat"])]
    #[schemars(length(max = 30))]
    pub easier: Vec<String>,
    /// Ids of harder forms.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["front-squat"])]
    #[schemars(length(max = 30))]
    pub harder: Vec<String>,
    /// Two to four short reminders for the client.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["Elbows inside the knees"])]
    #[schemars(length(max = 12))]
    pub cues: Vec<String>,
}

impl Entry {
    /// The family, which is the id where none is written.
    #[must_use]
    pub fn family(&self) -> &str {
        self.family.as_deref().unwrap_or(&self.id)
    }

    /// Whether a load, or the whole body's weight on a bar, makes it hard enough for sets that count.
    #[must_use]
    pub fn is_loaded(&self) -> bool {
        let unloaded = matches!(
            self.load,
            LoadKind::Bodyweight | LoadKind::None | LoadKind::Band | LoadKind::Assisted
        );
        !unloaded || self.is_hung()
    }

    /// Whether the body hangs or rests on its hands with its whole weight, which is a load.
    #[must_use]
    pub fn is_hung(&self) -> bool {
        matches!(self.family(), "pull-up" | "dip")
    }
}

const fn default_role() -> Role {
    Role::Work
}
const fn default_load() -> LoadKind {
    LoadKind::None
}
const fn least_skill() -> u8 {
    1
}
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_least_skill(skill: &u8) -> bool {
    *skill == 1
}
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_regular(standing: &Standing) -> bool {
    *standing == Standing::Regular
}
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_work(role: &Role) -> bool {
    *role == Role::Work
}

/// A stress tag, plain or with a grade.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum StressTag {
    /// Every grade of it.
    Plain(Stress),
    /// `{spinal-compression: heavy}`.
    Graded(#[schemars(length(min = 1, max = 1))] BTreeMap<Stress, Grade>),
}

impl StressTag {
    /// The stress and its grade; a plain tag counts as heavy.
    #[must_use]
    pub fn parts(&self) -> Vec<(Stress, Grade)> {
        match self {
            StressTag::Plain(stress) => vec![(*stress, Grade::Heavy)],
            StressTag::Graded(map) => map.iter().map(|(stress, grade)| (*stress, *grade)).collect(),
        }
    }
}
