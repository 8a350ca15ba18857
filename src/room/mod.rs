//! The room at one hour and over one week: who holds which kit at which minute, and how clients who would want the same
//! piece at the same minute get by with the fewest changes.
//!
//! `stock` says what there is, `holds` what a group of a session holds and when, `visit` who comes when, and `hours` what is held then. `orders` and
//! `swaps` are other ways to do a session that its plan's own audit lets pass. `puzzle` picks one way for each, free of
//! plans and kit; `rota` makes the puzzles and tells what came of them, `remedy` what would help where nothing fits,
//! and `apply` writes dates into plans. `roster` is the folder as a table.

pub mod apply;
pub mod case;
pub mod holds;
pub mod hours;
pub mod orders;
pub mod puzzle;
pub mod remedy;
pub mod roster;
pub mod rota;
pub mod spread;
pub mod stock;
pub mod swaps;
pub mod visit;
pub mod ways;
