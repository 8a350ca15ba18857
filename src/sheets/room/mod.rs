//! A week of the room for the terminal and for the wall, and the roster. Only codes of clients stand on them.

mod board;
mod page;
mod roster;
mod text;

pub use page::wall;
pub use roster::{roster_csv, roster_page, roster_text};
pub use text::rota_text;
