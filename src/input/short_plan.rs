//! The shape of a plan as a coach keeps and edits it: each session once for the weeks that share it, and of the weeks
//! only what changes. What can be computed is left out; `plan/short` makes the whole plan of it.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::input::catalog::Entry;
use crate::input::plan::{
    Balance, Basis, Exception, Inputs, MuscleVolume, Past, Pause, ProfileRef, RampSet, Shortfall,
    Solve, SplitUsed,
};
use crate::words::{GroupKind, Muscle, Turn, WeekKind, Weekday};

/// The format of plans that are kept as YAML.
pub const SHORT_FORMAT: &str = "weekwright-plan/2";

/// A plan with each session told once. A hand-written one needs only `format`, `profile` and `sessions` with `day` and
/// `groups`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortPlan {
    /// `weekwright-plan/2`.
    #[schemars(example = &"weekwright-plan/2")]
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
    /// The first block's week at its fullest.
    #[schemars(length(min = 1, max = 21))]
    pub sessions: Vec<ShortSession>,
    /// Later blocks, each from a week on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 52))]
    pub blocks: Vec<ShortBlock>,
    /// Weekly fractional sets; checked where it is there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub volume: Vec<MuscleVolume>,
    /// Whole sets by side; checked where it is there.
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
    pub weeks: Vec<ShortWeek>,
    /// Sessions of single dates that are otherwise than planned.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 400))]
    pub exceptions: Vec<Exception>,
    /// Spans without training, after which the weeks moved.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 52))]
    pub pauses: Vec<Pause>,
    /// The plans that this one was reworked from, oldest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reworked_from: Vec<Past>,
}

/// The sessions from a week on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortBlock {
    /// Its first week.
    #[schemars(range(min = 2, max = 52))]
    pub from_week: u32,
    /// Its week at its fullest.
    #[schemars(length(max = 21))]
    pub sessions: Vec<ShortSession>,
}

/// One session.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortSession {
    /// The weekday.
    pub day: Weekday,
    /// When it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// The muscles that hold most of its sets.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub focus: Vec<Muscle>,
    /// The minutes that the client has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 600))]
    pub limit: Option<u32>,
    /// Why the planned time is under 85 % of the limit; left out where the plan's own words fit, `""` for none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// In the order they are done.
    #[schemars(length(max = 60))]
    pub groups: Vec<ShortGroup>,
}

/// Items done together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortGroup {
    /// What it is.
    pub kind: GroupKind,
    /// One item, or the items of a pair in turn.
    #[schemars(length(min = 1, max = 12))]
    pub items: Vec<ShortItem>,
}

/// One number for every set, or one for each.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Amount {
    /// The same in every set.
    Same(#[schemars(range(min = 1, max = 36000))] u32),
    /// One number per set.
    Each(#[schemars(length(min = 1, max = 20), inner(range(min = 1, max = 36000)))] Vec<u32>),
}

/// Lighter sets before the first working set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Ramp {
    /// So many, with the loads that kit and working load give.
    Steps(#[schemars(range(min = 0, max = 6))] u32),
    /// These.
    Sets(#[schemars(length(max = 6))] Vec<RampSet>),
}

/// A climb to a load that is not known, in the client's unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortFind {
    /// The load of the first set; 0 is the body's own weight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1000))]
    pub start_kg: Option<f64>,
    /// The same in pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 2200))]
    pub start_lb: Option<f64>,
    /// What each further set adds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 200))]
    pub step_kg: Option<f64>,
    /// The same in pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 440))]
    pub step_lb: Option<f64>,
    /// Sets that the climb takes at most.
    #[schemars(range(min = 1, max = 20))]
    pub sets: u32,
    /// The repetitions in reserve at which the load is found.
    #[schemars(range(min = 0, max = 10))]
    pub stop: u32,
}

/// One exercise in a session. Exactly one of `reps`, `seconds`, `meters`, `calories` is given.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShortItem {
    /// Its id.
    #[schemars(example = &"goblet-squat")]
    pub exercise: String,
    /// Its name, for reading only.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Sets; with `each_side` a set counts once.
    #[schemars(range(min = 1, max = 20))]
    pub sets: u32,
    /// The number is per side.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub each_side: bool,
    /// The heavier or the lighter day of a lift, or of its pattern, in the week.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn: Option<Turn>,
    /// Lowering-pause-lifting-pause in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tempo: Option<String>,
    /// A ready substitute.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instead: Option<String>,
    /// What may change from week to week.
    #[serde(flatten)]
    pub dose: ShortDose,
}

/// What may change from week to week. A text that is left out is that which the numbers give; `""` is none.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShortDose {
    /// Repetitions.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reps: Option<Amount>,
    /// Seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<Amount>,
    /// Meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub meters: Option<Amount>,
    /// Calories on the machine's display.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calories: Option<Amount>,
    /// After each set, in a pair after the round.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1800))]
    pub rest_s: Option<u32>,
    /// Repetitions left in reserve.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub rir: Option<u32>,
    /// The whole bar with plates, or one hand's implement.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1000))]
    pub load_kg: Option<f64>,
    /// The same in pounds; a plan in pounds has only these.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 2200))]
    pub load_lb: Option<f64>,
    /// How to find the load, where it is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub find_load: Option<ShortFind>,
    /// Lighter sets before the first working set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ramp: Option<Ramp>,
    /// Where the load comes from, or how to find it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_note: Option<String>,
    /// What to do when the last set left room.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next: Option<String>,
    /// How hard it is, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effort: Option<String>,
    /// What was done before, where the line comes from it instead of the course; a week never takes it from its block.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub basis: Option<Basis>,
}

/// One week: what it is for, and what differs from the sessions of its block.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShortWeek {
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
    #[schemars(range(min = 1, max = 52))]
    pub repeats: Option<u32>,
    /// What changes against the week before, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Exercises that are done otherwise than in the block's sessions.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 600))]
    pub items: Vec<ShortChange>,
    /// Exercises that are left out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 600))]
    pub drop: Vec<DayExercise>,
    /// Days that are left out, `mon` or `mon@07:30`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 21))]
    pub off: Vec<String>,
    /// Why a day leaves minutes free, where the plan's own words do not say it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub notes: BTreeMap<String, String>,
    /// Sessions that take the place of those of their day, or come beside them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 21))]
    pub sessions: Vec<ShortSession>,
}

/// An exercise of a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DayExercise {
    /// `mon`, or `mon@07:30` where the day has two sessions.
    pub day: String,
    /// Its id.
    pub exercise: String,
}

/// An exercise of a day, and what is different about it in a week.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShortChange {
    /// `mon`, or `mon@07:30` where the day has two sessions.
    pub day: String,
    /// Its id in the block's sessions.
    pub exercise: String,
    /// What is done in its place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swap: Option<String>,
    /// Sets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 20))]
    pub sets: Option<u32>,
    /// What else differs.
    #[serde(flatten)]
    pub dose: ShortDose,
}

/// A plan in either form.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum PlanFile {
    /// As it is kept: each session once.
    Short(Box<ShortPlan>),
    /// With every week complete, for programs.
    Whole(Box<crate::input::plan::Plan>),
}
