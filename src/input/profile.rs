//! The shape of a profile file: one client.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::place::Equipment;
pub use super::screening::Screening;
pub use super::wishes::{
    BalanceWish, Choices, ConditioningWish, RuleSetting, StrictTarget, TargetWish,
};
use crate::words::{
    Clock, Effort, Emphasis, Finishers, Goal, Grade, Muscle, Paper, Sex, Status, Stress, Supersets,
    Units, Weekday,
};

/// One client as a coach writes them down. The schema of this type is what a file is checked against.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Profile {
    /// A code or a nickname; no full names needed.
    #[schemars(length(min = 1, max = 200))]
    #[schemars(example = &"tide-01")]
    pub client: String,
    /// Year of birth; with it heart-rate ranges and age cautions can be given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1900, max = 2030), example = 1991)]
    pub birth_year: Option<u16>,
    /// Used only where a published equation needs it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sex: Option<Sex>,
    /// Height in centimeters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 90, max = 250))]
    #[schemars(example = 168)]
    pub height_cm: Option<f64>,
    /// Body mass in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 20, max = 350))]
    #[schemars(example = 64)]
    pub body_mass_kg: Option<f64>,
    /// Heart rate at rest in beats a minute; with it heart-rate ranges fit the client better.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 30, max = 110), example = 62)]
    pub resting_heart_rate: Option<u16>,
    /// The unit in which loads are read and shown.
    #[serde(default = "default_units")]
    pub units: Units,
    /// How times of day are shown on cards and pages: `18:30` or `6:30 pm`.
    #[serde(default = "default_clock", skip_serializing_if = "is_usual_clock")]
    pub clock: Clock,
    /// The paper that cards and pages are printed on.
    #[serde(default = "default_paper", skip_serializing_if = "is_usual_paper")]
    pub paper: Paper,
    /// How long the client has trained.
    pub training_status: Status,
    /// What the training is for.
    pub goal: Goal,
    /// First day of week 1, ISO 8601.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"2027-01-04")]
    pub start: Option<String>,
    /// Weeks to print.
    #[serde(default = "default_weeks")]
    #[schemars(range(min = 1, max = 52))]
    pub weeks: u32,
    /// A file in `places/` beside the profile, without its ending; or leave out and give `equipment`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"boathouse")]
    pub place: Option<String>,
    /// The kit there is, when no place is named.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equipment: Option<Equipment>,
    /// One entry per training day.
    #[schemars(length(min = 1, max = 14))]
    pub sessions: Vec<SessionSlot>,
    /// How the muscles are shared out over the days.
    #[serde(default)]
    pub split: SplitChoice,
    /// Stress tags to keep out; `{tag: spinal-compression, allow: light}` keeps out only the heavy form.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(example = ["overhead"])]
    #[schemars(length(max = 60))]
    pub limits: Vec<Limit>,
    /// Muscles that should get more or less than usual.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub emphasis: BTreeMap<Muscle, Emphasis>,
    /// Exercises that must be in, are liked, are disliked or must not be in.
    #[serde(default, skip_serializing_if = "Choices::is_empty")]
    pub exercises: Choices,
    /// Weekly fractional sets that replace the default range of a muscle.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub targets: BTreeMap<Muscle, TargetWish>,
    /// Whether exercises may be done in pairs.
    #[serde(default = "default_supersets")]
    pub supersets: Supersets,
    /// How far the seed may roam among equally good exercises.
    #[serde(default = "default_variety")]
    #[schemars(range(min = 0, max = 1))]
    pub variety: f64,
    /// Least time between two hard sessions for the same muscle, from start to start.
    #[serde(default = "default_recovery")]
    #[schemars(range(min = 12, max = 168))]
    pub recovery_hours: u32,
    /// What the client has lifted lately, by exercise id.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(extend("maxProperties" = 100))]
    pub known_lifts: BTreeMap<String, KnownLift>,
    /// Ergometer, running and the like, brought in from a given week.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub conditioning: Option<ConditioningWish>,
    /// Answers to the usual questions before training starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub screening: Option<Screening>,
    /// Sport on the side: it loads its muscles on its days.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 30))]
    pub other_training: Vec<OtherTraining>,
    /// Bands for the week's balance of sets.
    #[serde(default, skip_serializing_if = "BalanceWish::is_default")]
    pub balance: BalanceWish,
    /// Whether a session may end with a short finisher.
    #[serde(default = "default_finishers")]
    pub finishers: Finishers,
    /// The plan of the last block, so that its main lifts are kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"tide-01.plan.yaml")]
    pub previous: Option<String>,
    /// Changes to the rules' own defaults, by rule id.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(extend("maxProperties" = 100))]
    pub rules: BTreeMap<String, RuleSetting>,
}

const fn default_units() -> Units {
    Units::Kg
}
const fn default_clock() -> Clock {
    Clock::Hours24
}
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_usual_clock(clock: &Clock) -> bool {
    *clock == default_clock()
}
const fn default_paper() -> Paper {
    Paper::A4
}
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_usual_paper(paper: &Paper) -> bool {
    *paper == default_paper()
}
const fn default_weeks() -> u32 {
    4
}
const fn default_supersets() -> Supersets {
    Supersets::Allow
}
const fn default_variety() -> f64 {
    0.5
}
/// 48 h between hard days for a muscle: ACSM guideline summaries, NSCA study aid; a convention.
const fn default_recovery() -> u32 {
    48
}
const fn default_finishers() -> Finishers {
    Finishers::Never
}

/// One training day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SessionSlot {
    /// The weekday.
    pub day: Weekday,
    /// When it starts, "18:30"; without it every day counts as the same hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"18:30")]
    pub at: Option<String>,
    /// Minutes from the first warm-up step to the last set.
    #[schemars(range(min = 10, max = 240))]
    #[schemars(example = 60)]
    pub minutes: u32,
}

/// How muscles are shared out over the days.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum SplitChoice {
    /// A known way.
    Named(SplitName),
    /// The client's own: one list of muscles per session.
    Own(#[schemars(length(min = 1, max = 14), inner(length(max = 24)))] Vec<Vec<Muscle>>),
}

impl Default for SplitChoice {
    fn default() -> Self {
        SplitChoice::Named(SplitName::Auto)
    }
}

/// A known way to share muscles out over the days.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    JsonSchema,
    strum::Display,
)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum SplitName {
    /// The planner chooses.
    Auto,
    /// Everything each day.
    FullBody,
    /// Upper-body and lower-body days.
    UpperLower,
    /// Push, pull and leg days.
    PushPullLegs,
    /// One region a day.
    BodyPart,
}

/// A stress that is kept out, whole or only in its heavy form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Limit {
    /// Keep out every grade.
    Whole(Stress),
    /// Keep out what is above the allowed grade.
    Graded(GradedLimit),
}

impl Limit {
    /// What it is about.
    pub(crate) const fn stress(&self) -> Stress {
        let (Limit::Whole(tag) | Limit::Graded(GradedLimit { tag, .. })) = self;
        *tag
    }
}

/// A limit that allows a grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GradedLimit {
    /// The stress.
    pub tag: Stress,
    /// The heaviest grade that may stay.
    pub allow: Grade,
}

/// A lift the client has done lately.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KnownLift {
    /// The load in the profile's unit: whole bar, or one hand's implement; leave it out for the body's own weight.
    #[serde(default, skip_serializing_if = "is_nothing")]
    #[schemars(range(min = 0, max = 1100), example = 50)]
    pub load: f64,
    /// Repetitions done.
    #[schemars(range(min = 1, max = 30), example = 5)]
    pub reps: u32,
    /// Repetitions left in reserve.
    #[serde(default)]
    #[schemars(range(min = 0, max = 10))]
    pub rir: u32,
    /// A load above which form goes: never passed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.5, max = 1100))]
    pub cap: Option<f64>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
fn is_nothing(load: &f64) -> bool {
    *load == 0.0
}

/// Sport on the side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OtherTraining {
    /// The weekday.
    pub day: Weekday,
    /// When it starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(example = &"18:30")]
    pub at: Option<String>,
    /// How hard it is.
    pub load: Effort,
    /// The muscles it loads.
    #[schemars(length(min = 1, max = 24))]
    pub muscles: Vec<Muscle>,
}
