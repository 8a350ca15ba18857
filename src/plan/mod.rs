//! From picks to a printed plan: order, pairs, preparation, loads and weeks.

pub mod arrange;
pub mod compose;
pub use crate::input::plan as file;
pub mod loads;
pub mod pair_up;
pub mod prepare;
pub mod racks;
pub mod ramp;
pub mod screening;
pub mod strength;
pub use crate::timing;
pub mod working_load;
