//! The room at one hour and over one week: who holds which kit at which minute, and how clients who would want the same
//! piece at the same minute get by with the fewest changes.
//!
//! `stock` says what there is, `holds` and `plates` what a group of a session holds and when, `visit` who comes when, and `hours` what is held then. `orders`
//! and `swaps` are what the plan's own audit lets pass, `arrangement` other ways to do a session made of them, and `ways` the
//! choices of a visit. `puzzle` picks one way for each, free of plans and kit, by a program in the ledger; `rota` makes the puzzles and tells what came of them, `smallest` who cannot be together where nothing
//! fits, `remedy` what would help then, and `apply` writes dates into plans. `roster` is the folder as a table.

pub mod apply;
pub mod arrangement;
pub mod case;
pub mod holds;
pub mod hours;
pub mod orders;
mod plates;
pub mod puzzle;
pub mod remedy;
pub mod roster;
pub mod rota;
pub mod smallest;
pub mod spread;
pub mod stock;
pub mod swaps;
pub mod visit;
pub mod ways;
