//! The shape of a plan file: what is printed, kept, audited and reworked.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::input::catalog::Entry;
use crate::input::place::Equipment;
use crate::input::profile::Profile;
use crate::words::{GroupKind, Muscle, WeekKind, Weekday};

pub use super::plan_item::{Amounts, Basis, FindLoad, Item, RampSet};

/// The format that this version writes and reads.
pub const FORMAT: &str = "weekwright-plan/1";

/// A plan. A hand-written one needs only `format`, `profile` and `sessions` with `day` and `groups`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// `weekwright-plan/1`.
    #[schemars(example = &"weekwright-plan/1")]
    pub format: String,
    /// The client's code.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub client: String,
    /// The seed that chose among equals.
    #[serde(default)]
    pub seed: u64,
    /// What the plan was made from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inputs: Option<Inputs>,
    /// The profile as resolved, or the name of a profile file.
    pub profile: ProfileRef,
    /// Catalog entries that did not come from the built-in catalog.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub exercises: BTreeMap<String, Entry>,
    /// How the plan was solved.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solve: Option<Solve>,
    /// How the muscles are shared out over the days.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub split: Option<SplitUsed>,
    /// The week at its fullest.
    #[schemars(length(min = 1, max = 21))]
    pub sessions: Vec<Session>,
    /// Weekly fractional sets of every muscle that has sets or a target.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub volume: Vec<MuscleVolume>,
    /// Whole sets by side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub balance: Option<Balance>,
    /// Wishes that were not met.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shortfalls: Vec<Shortfall>,
    /// What a careful coach would say aloud.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
    /// One entry per week of the profile.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 52))]
    pub weeks: Vec<Week>,
    /// Sessions of single dates that are otherwise than planned.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub exceptions: Vec<Exception>,
    /// Spans without training, after which the weeks moved.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pauses: Vec<Pause>,
    /// The plans that this one was reworked from, oldest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reworked_from: Vec<Past>,
}

/// A session of one date that is otherwise than planned; the week holds it as it is done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Exception {
    /// From 1.
    #[schemars(range(min = 1, max = 52))]
    pub week: u32,
    /// The day.
    pub day: String,
    /// The date, where the plan has dates.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
    /// When it starts on that date, where that is not at the usual hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"18:40")]
    pub at: Option<String>,
    /// What was asked for.
    pub asked: Vec<String>,
    /// The kit of that date, where it is done elsewhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equipment: Option<Equipment>,
}

/// A span without training.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pause {
    /// Its first date.
    pub from: String,
    /// Its last date.
    pub to: String,
    /// The first week back; none where the plan was over.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 52))]
    pub week: Option<u32>,
    /// By how many weeks the weeks from then on moved.
    #[schemars(range(min = 0, max = 52))]
    pub by: u32,
}

/// A plan before a rework, and what was asked of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Past {
    /// Its seed.
    pub seed: u64,
    /// Of its profile, where the plan said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub profile_sha256: Option<String>,
    /// What changed then.
    pub changes: Vec<String>,
}

/// The profile inside a plan: whole, or by file name in a hand-written plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum ProfileRef {
    /// A file name, relative to the plan.
    File(String),
    /// The profile itself.
    Whole(Box<Profile>),
}

/// Enough to make the plan again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Inputs {
    /// Of the profile as resolved.
    pub profile_sha256: String,
    /// Of the catalog as used.
    pub catalog_sha256: String,
    /// The version that made the plan.
    pub version: String,
    /// Of what the solver chose: days, exercises and sets. Where it no longer fits, somebody edited the plan.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub picks_sha256: Option<String>,
    /// Of each part of the plan, shortened: where one no longer fits, somebody edited that part.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub parts_sha256: BTreeMap<String, String>,
    /// What the record of the last block gave to the profile, where it was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub book: Option<FromBook>,
}

/// What was taken from the record of the last block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FromBook {
    /// Of the lines below.
    pub sha256: String,
    /// In words.
    pub took: Vec<String>,
    /// Of the profile before the record gave it anything.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub profile_sha256: Option<String>,
}

/// How the plan was solved. No clock value stands here.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Solve {
    /// The solver behind the model.
    pub backend: String,
    /// `proven`, `within-gap` or `stopped-early`.
    pub status: SolveStatus,
    /// Relative gap of the third tier to its bound.
    pub gap: f64,
    /// The bound of the third tier.
    pub bound: f64,
    /// The value of the third tier.
    pub objective: f64,
    /// Each tier's value and bound, in the order they were held.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tiers: Vec<TierValue>,
    /// What each rule costs or brings in its tier, where it is not nought.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub points: Vec<RuleValue>,
}

/// How far the search got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum SolveStatus {
    /// Every tier is proven.
    Proven,
    /// The last tier may be improved by at most the gap.
    WithinGap,
    /// A clock stopped the search; such a plan may differ elsewhere.
    StoppedEarly,
}

/// What a rule costs or brings in a tier.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RuleValue {
    /// The tier's name.
    pub tier: String,
    /// The rule's id.
    pub rule: String,
    /// Costs, or points in the last tier.
    pub value: f64,
}

/// One tier of wishes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TierValue {
    /// Its name.
    pub name: String,
    /// What was reached.
    pub value: f64,
    /// What cannot be passed.
    pub bound: f64,
    /// Whether value and bound meet.
    pub proven: bool,
}

/// The split a plan stands on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SplitUsed {
    /// Its name.
    pub name: String,
    /// One idea per session.
    pub days: Vec<String>,
}

/// One session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Session {
    /// The weekday.
    pub day: Weekday,
    /// When it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// The muscles that hold most of its sets.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub focus: Vec<Muscle>,
    /// The limit and what is planned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<MinutesUsed>,
    /// Why the planned time is under 85 % of the limit, where it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// In the order they are done.
    #[schemars(length(max = 60))]
    pub groups: Vec<Group>,
}

/// Minutes of a session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MinutesUsed {
    /// What the client has.
    #[schemars(range(min = 1, max = 600))]
    pub limit: u32,
    /// `planned_s` / 60 to one decimal.
    pub planned: f64,
    /// The sum over groups.
    #[schemars(range(min = 0, max = 100_000))]
    pub planned_s: u32,
}

/// Items done together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Group {
    /// What it is.
    pub kind: GroupKind,
    /// Set-up, ramp sets, work, rests and the way into the group.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 100_000))]
    pub seconds: Option<u32>,
    /// One item, or the items of a pair in turn.
    #[schemars(length(min = 1, max = 12))]
    pub items: Vec<Item>,
}

/// Weekly sets of a muscle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MuscleVolume {
    /// The muscle.
    pub muscle: Muscle,
    /// Low end of its range, where it has a target.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<f64>,
    /// High end of its range, where it has a target.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<f64>,
    /// Fractional sets in the week.
    pub sets: f64,
}

/// Whole sets by side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Balance {
    /// Push patterns.
    #[schemars(range(min = 0, max = 10_000))]
    pub push: u32,
    /// Pull patterns.
    #[schemars(range(min = 0, max = 10_000))]
    pub pull: u32,
    /// Leg patterns.
    #[schemars(range(min = 0, max = 10_000))]
    pub legs: u32,
    /// Squat, lunge and knee extension.
    #[schemars(range(min = 0, max = 10_000))]
    pub knee: u32,
    /// Hinge, hip extension and knee flexion.
    #[schemars(range(min = 0, max = 10_000))]
    pub hip: u32,
}

/// A wish that was not met.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Shortfall {
    /// The rule's id.
    pub rule: String,
    /// What was wanted.
    pub wanted: String,
    /// What there is.
    pub got: String,
    /// What limited it.
    pub because: String,
}

/// One week of the plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Week {
    /// From 1.
    #[schemars(range(min = 1, max = 52))]
    pub week: u32,
    /// Its first day, where the profile has a start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
    /// What it is for.
    pub kind: WeekKind,
    /// The week of the course that this one brings, where a missed week moved it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeats: Option<u32>,
    /// What changes against the week before, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Its sessions.
    #[schemars(length(max = 21))]
    pub sessions: Vec<Session>,
}

impl Plan {
    /// When a session of a week starts: at the hour of the last exception that gives it one, else at its own.
    #[must_use]
    pub fn start_of<'a>(&'a self, week: u32, session: &'a Session) -> Option<&'a str> {
        let own = session.at.as_deref();
        let is_it = |one: &&Exception| {
            let (day, hour) = one.day.split_once('@').unwrap_or((&one.day, ""));
            let same_hour = hour.is_empty() || own == Some(hour);
            one.week == week && day == session.day.id() && same_hour
        };
        self.exceptions.iter().rev().filter(is_it).find_map(|one| one.at.as_deref()).or(own)
    }
}

impl Group {
    /// Whether its items are the session's work, which alone counts toward volume.
    #[must_use]
    pub fn is_work(&self) -> bool {
        matches!(self.kind, GroupKind::Single | GroupKind::Superset | GroupKind::Finisher)
    }
}
