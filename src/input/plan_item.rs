//! The shape of one exercise in a plan: its numbers, its load and how to find it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::words::Turn;

/// One exercise in a session. Exactly one of `reps`, `seconds`, `meters`, `calories` is given.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// Its id.
    #[schemars(example = &"goblet-squat")]
    pub exercise: String,
    /// Sets; with `each_side` a set counts once.
    #[schemars(range(min = 1, max = 20))]
    pub sets: u32,
    /// Repetitions of each set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(max = 20), inner(range(min = 1, max = 1000)))]
    pub reps: Option<Vec<u32>>,
    /// Seconds of each set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(max = 20), inner(range(min = 1, max = 36000)))]
    pub seconds: Option<Vec<u32>>,
    /// Meters of each set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(max = 20), inner(range(min = 1, max = 36000)))]
    pub meters: Option<Vec<u32>>,
    /// Calories on the machine's display in each set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(length(max = 20), inner(range(min = 1, max = 5000)))]
    pub calories: Option<Vec<u32>>,
    /// The number is per side.
    #[serde(default)]
    pub each_side: bool,
    /// After each set, in a pair of the round: sheets say how much of it comes between the halves.
    #[serde(default)]
    #[schemars(range(min = 0, max = 1800))]
    pub rest_s: u32,
    /// The heavier or the lighter day of a lift, or of its pattern, in the week.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn: Option<Turn>,
    /// Lowering-pause-lifting-pause in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tempo: Option<String>,
    /// Repetitions left in reserve.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 10))]
    pub rir: Option<u32>,
    /// The whole bar with plates, or one hand's implement.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1000))]
    pub load_kg: Option<f64>,
    /// The same in pounds, for a client who counts in them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 2200))]
    pub load_lb: Option<f64>,
    /// How to find the load, where it is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub find_load: Option<FindLoad>,
    /// How the load was found, or how to find it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_note: Option<String>,
    /// Lighter sets before the first working set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(length(max = 6))]
    pub ramp: Vec<RampSet>,
    /// What to do when this week's last set left room.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub next: Option<String>,
    /// A ready substitute.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instead: Option<String>,
    /// How hard conditioning is, in words with its scale.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub effort: Option<String>,
    /// What was done before, where the line comes from it instead of the course.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub basis: Option<Basis>,
}

/// The session that a line comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Basis {
    /// The day it was done.
    #[schemars(example = &"2027-01-11")]
    pub date: String,
    /// What was lifted then, in kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<f64>,
    /// What the last set counted, in the exercise's own measure.
    pub reps: u32,
    /// Repetitions left in reserve then, where it was told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rir: Option<u32>,
    /// Why the line is as it is: `two-for-two`, `one-more`, `hold-after-a-miss` and the like.
    #[schemars(example = &"two-for-two")]
    pub rule: String,
}

/// A climb to a load that is not known: begin, add a step each set, and stop where as many are left as asked.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FindLoad {
    /// The load of the first set; 0 is the body's own weight.
    #[schemars(range(min = 0, max = 500))]
    pub start_kg: f64,
    /// The same in pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_lb: Option<f64>,
    /// What each further set adds.
    #[schemars(range(min = 0, max = 200))]
    pub step_kg: f64,
    /// The same in pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step_lb: Option<f64>,
    /// Sets that the climb takes at most.
    #[schemars(range(min = 1, max = 20))]
    pub sets: u32,
    /// The repetitions in reserve at which the load is found.
    #[schemars(range(min = 0, max = 10))]
    pub stop: u32,
}

/// A lighter set on the way to the working load.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RampSet {
    /// The load; absent where only a share of it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1000))]
    pub load_kg: Option<f64>,
    /// The same in pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 2200))]
    pub load_lb: Option<f64>,
    /// Share of the working load in percent, where the load is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 100))]
    pub percent: Option<u32>,
    /// Repetitions.
    #[schemars(range(min = 1, max = 100))]
    pub reps: u32,
}

/// An item's set numbers in the unit that it counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amounts<'a> {
    /// Repetitions.
    Reps(&'a [u32]),
    /// Seconds.
    Seconds(&'a [u32]),
    /// Meters.
    Meters(&'a [u32]),
    /// Calories.
    Calories(&'a [u32]),
}

impl<'a> Amounts<'a> {
    /// The numbers of the sets, whatever they count.
    #[must_use]
    pub const fn list(self) -> &'a [u32] {
        match self {
            Amounts::Reps(list)
            | Amounts::Seconds(list)
            | Amounts::Meters(list)
            | Amounts::Calories(list) => list,
        }
    }
}

impl Item {
    /// The one list of set numbers that is given, or `None` where none or more than one is.
    #[must_use]
    pub fn amounts(&self) -> Option<Amounts<'_>> {
        let given = [
            self.reps.as_deref().map(Amounts::Reps),
            self.seconds.as_deref().map(Amounts::Seconds),
            self.meters.as_deref().map(Amounts::Meters),
            self.calories.as_deref().map(Amounts::Calories),
        ];
        let mut given = given.into_iter().flatten();
        let first = given.next()?;
        given.next().is_none().then_some(first)
    }
}
