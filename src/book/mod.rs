//! What was done: lines as they are written down, the next loads, body measures, the review.
//!
//! Everything here is a function of what it is given. `cli` keeps the book on disk and hands its rows over.

pub mod body;
pub mod carry;
pub mod coming;
pub mod done;
pub mod history;
pub mod remarks;
pub mod review;
pub mod rule;
pub mod slope;
pub mod slot;
pub mod table;
pub mod written;

pub use done::{Asked, DoneItem, DoneSession, DoneSet, Effort};
