//! Files as a coach writes them: their shapes, and every fault in them with its place.

mod age;
pub mod catalog;
pub mod check;
pub mod clock;
pub mod marks;
pub mod naming;
pub mod place;
pub mod plan;
mod plan_item;
pub mod profile;
mod read;
pub mod screening;
pub mod shape;
pub mod short_plan;
pub mod source;
pub mod suggest;
pub mod syntax;
mod wishes;

pub use age::{age, is_senior, starts_from_rest};
pub use read::{Read, read};
