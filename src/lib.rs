//! Training weeks for a coach's clients.
//!
//! The modules follow the data: a profile is read, resolved, split, modelled, solved and written.

pub mod input;
pub mod plan;
pub mod sheets;
pub mod words;
