//! What is there before the client comes.

use std::collections::BTreeMap;

use crate::input::place::Place;

/// What is there before the client comes.
#[derive(Debug, Clone, Default)]
pub struct Around {
    /// The day of the talk, ISO 8601.
    pub today: String,
    /// The first day that is proposed, ISO 8601.
    pub first_day: String,
    /// Places that have a file.
    pub places: Vec<String>,
    /// Those of them that could be read.
    pub rooms: BTreeMap<String, Place>,
}
