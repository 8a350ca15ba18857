//! Training weeks for a coach's clients.
//!
//! The modules follow the data: a profile is read, resolved, split, modelled, solved and written.

pub mod catalog;
pub mod cli;
pub mod diagnostic;
pub mod input;
pub mod plan;
pub mod words;
