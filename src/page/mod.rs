//! The coach's page: clients, their weeks, what may be tried and kept, in a browser on the coach's own machine.
//!
//! A request finds its client in the folder's own list of files (`Cabinet`), so that nothing that a browser sends is ever
//! a path. What a coach tries stands in a `Draft` in memory until it is kept. Pages work with forms and links alone.

mod acts;
mod answer;
mod begin;
pub mod cabinet;
mod changes;
mod clients;
mod collision;
mod desk;
mod draft;
mod fields;
mod form;
mod from_book;
mod guard;
mod past;
mod profile;
pub mod records;
mod routes;
mod shows;
mod template;
mod tries;
mod week;
mod write;

pub use desk::Desk;
pub use guard::LARGEST_BODY;
pub use routes::router;
