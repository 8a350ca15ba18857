//! Body measures: what was measured, what may be estimated from it with its published error, and what is a change.
//!
//! Nothing here is a diagnosis or a target. Estimates are for the trend of one client, measured by one person in one way.

pub mod change;
pub mod estimate;
pub mod kind;
pub mod report;

pub use kind::{Kind, Measured};
