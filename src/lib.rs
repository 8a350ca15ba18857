//! Training weeks for a coach's clients.
//!
//! The modules follow the data: a profile is read, resolved, split, modelled, solved and written.

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

pub mod solution;

pub mod plan;

pub mod sheets;

pub mod cli;
