//! What a client can lift and what a place can make: estimates, ladders of loads, and how to find a load that nobody
//! knows yet.

pub mod estimate;
pub mod first_load;
pub mod ladder;
pub mod racks;
mod related;
pub mod working_load;
