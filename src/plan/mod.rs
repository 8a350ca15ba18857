//! From picks to a printed plan: order, pairs, preparation, loads and weeks.

pub mod arrange;
pub mod calendar;
pub mod compose;
pub mod conditioning;
pub mod course;
pub use crate::input::plan as file;
pub mod finisher;
pub mod fit;
pub mod heart_rate;
pub mod loads;
pub mod next_time;
pub mod pair_up;
pub mod prepare;
pub mod progression;
pub mod racks;
pub mod ramp;
pub use crate::request::screening;
pub mod spare_time;
pub mod steps;
pub mod strength;
pub use crate::timing;
pub mod turns;
pub mod waves;
mod week_notes;
pub mod working_load;
