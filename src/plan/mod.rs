//! From picks to a printed plan: order, pairs, preparation, loads and weeks.

pub mod calendar;
pub mod conditioning;
pub mod file;
pub mod finisher;
pub mod heart_rate;
pub mod loads;
pub mod racks;
pub mod ramp;
pub mod screening;
pub mod steps;
pub mod strength;
pub mod timing;
pub mod working_load;
