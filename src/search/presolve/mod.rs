//! Fewer variables before the search starts, without a worse week or another answer.

pub mod dominance;
pub(super) mod irrelevant;
