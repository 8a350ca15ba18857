//! A puzzle with what it was made from.

use super::arrangement::Arrangement;
use super::puzzle::{Puzzle, Span};
use super::stock::Thing;
use super::ways::Pick;

/// A puzzle with what it was made from, so that others can solve it too.
#[derive(Debug, Clone, Default)]
pub struct Case {
    /// What is counted.
    pub things: Vec<Thing>,
    /// Minutes that visits of other groups hold.
    pub fixed: Vec<Span>,
    /// The starts that each visit may have.
    pub starts: Vec<Vec<u32>>,
    /// The arrangements of each visit.
    pub arrangements: Vec<Vec<Arrangement>>,
    /// The picks of each visit.
    pub picks: Vec<Vec<Pick>>,
    /// Whether the picks are all there are.
    pub is_whole: bool,
    /// The puzzle; a seat without choice to change holds what is fixed.
    pub puzzle: Puzzle,
}

/// Minutes of the day as a clock tells them.
#[must_use]
pub fn clock(minutes: u32) -> String {
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}
