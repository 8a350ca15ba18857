//! Training weeks for a coach's clients.
//!
//! The modules follow the data: a profile is read, resolved, split, modelled, solved and written.

#![forbid(unsafe_code)]

pub mod words;

pub mod diagnostic;

pub mod input;

pub mod timing;

pub mod catalog;

pub mod request;

pub mod week;

pub mod program;

pub mod split;

pub mod model;

pub mod rules;

pub mod search;

pub mod plan;

pub mod audit;

pub mod explain;

pub mod planner;

pub mod rework;

pub mod room;

pub mod why;

pub mod book;

pub mod sheets;

pub mod intake;

#[cfg(feature = "page")]
pub mod page;

pub mod cli;

/// A small profile for examples: two days, dumbbells and a bench. Invented.
#[must_use]
pub fn example_profile() -> input::profile::Profile {
    serde_yaml::from_str(
        "client: example-01
training_status: novice
goal: general-fitness
equipment: [dumbbells, bench]
sessions: [{day: tue, minutes: 45}, {day: fri, minutes: 45}]",
    )
    .expect("the example is well formed")
}
