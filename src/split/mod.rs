//! Which muscles are trained hard on which day, before any exercise is chosen.
//!
//! Fixing this first takes the recovery rules and the likeness between days out of the large model.

pub mod design;
pub(crate) mod idea;
mod suits;

use std::collections::BTreeSet;

use crate::request::Request;
use crate::words::Muscle;

/// A split of the week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Split {
    /// What a coach calls it.
    pub name: String,
    /// One entry per day of the request.
    pub days: Vec<SplitDay>,
}

/// One day's idea.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SplitDay {
    /// What a coach calls the day.
    pub idea: String,
    /// The muscles that the day is for.
    pub muscles: BTreeSet<Muscle>,
    /// The muscles that may be trained hard; the others of the day stay under the hard threshold.
    pub hard: BTreeSet<Muscle>,
    /// Whether the day is for the whole body.
    pub whole_body: bool,
}

impl SplitDay {
    /// Whether a muscle may be trained at all that day. Trunk and other muscles that recover fast go
    /// with any day unless the client's own list keeps them elsewhere.
    #[must_use]
    pub fn takes(&self, muscle: Muscle) -> bool {
        self.muscles.contains(&muscle)
    }
}

impl Split {
    /// Whether an exercise fits a day: it is nothing that the day is not for, its prime mover belongs there, and no direct
    /// muscle belongs only elsewhere.
    #[must_use]
    pub fn fits(&self, request: &Request, candidate: usize, day: usize) -> bool {
        let direct = &request.candidates[candidate].entry.direct;
        let suits = request.suits(candidate, day);
        let day = &self.days[day];
        suits
            && direct.first().is_some_and(|prime| day.takes(*prime))
            && direct.iter().all(|muscle| day.takes(*muscle) || self.nowhere(*muscle))
    }

    fn nowhere(&self, muscle: Muscle) -> bool {
        !self.days.iter().any(|day| day.takes(muscle))
    }
}
