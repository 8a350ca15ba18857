//! The coach's page, asked as a browser asks it.
#![cfg(feature = "page")]
#![allow(clippy::unwrap_used, reason = "a test may fail where it stands")]

#[path = "page/browser.rs"]
mod browser;
#[path = "page/busy.rs"]
mod busy;
#[path = "page/form.rs"]
mod form;
#[cfg(feature = "book")]
#[path = "page/from_book.rs"]
mod from_book;
#[path = "page/gate.rs"]
mod gate;
#[path = "page/kept.rs"]
mod kept;
#[path = "page/tried.rs"]
mod tried;
#[cfg(feature = "book")]
#[path = "page/written.rs"]
mod written;
