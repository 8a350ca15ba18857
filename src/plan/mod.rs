//! From picks to a printed plan: order, pairs, preparation, loads and weeks.

pub mod arrange;
pub mod calendar;
pub mod compose;
pub mod conditioning;
pub mod course;
pub use crate::input::plan as file;
pub mod finisher;
pub mod fit;
pub mod found_again;
pub mod heart_rate;
mod instead;
pub mod next_time;
pub mod own_weight;
pub mod pair_up;
pub mod pounds;
pub mod prepare;
pub mod progression;
pub mod ramp;
pub use crate::request::screening;
pub mod seal;
pub mod short;
pub mod spare_time;
pub mod steps;
pub use crate::timing;
pub mod told;
pub mod turns;
pub mod waves;
