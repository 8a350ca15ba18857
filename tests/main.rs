//! Every test that goes through the front door, in one binary.
#![allow(clippy::unwrap_used, reason = "a test may fail where it stands")]

mod catalog;
mod cli;
mod input;
mod intake;
mod schema;
mod tidy;
mod why;
