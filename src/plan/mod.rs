//! From picks to a printed plan: order, pairs, preparation, loads and weeks.

pub mod calendar;
pub mod conditioning;
pub mod file;
pub mod finisher;
pub mod fit;
pub mod heart_rate;
pub mod loads;
pub mod next_time;
pub mod progression;
pub mod racks;
pub mod ramp;
pub mod screening;
pub mod steps;
pub mod strength;
pub mod timing;
pub mod waves;
mod week_notes;
pub mod working_load;
