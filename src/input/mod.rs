//! Files as a coach writes them: their shapes, and every fault in them with its place.

pub mod catalog;
pub mod place;
pub mod profile;
