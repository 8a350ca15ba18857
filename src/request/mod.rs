//! What the client's profile asks for, in the planner's terms.

pub mod dose;
pub mod targets;
