//! Why there is no plan, and what would bring one. Every sentence here has been solved again before it is said.

pub mod collision;
pub mod conflict;
pub mod filter;
pub mod hard;
pub mod shortfall;
pub mod ways;
