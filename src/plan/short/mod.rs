//! A plan as it is kept, and the whole plan that it stands for.
//!
//! The kept form has each session once and of the weeks only what changes. Numbers that a coach may edit stand in it
//! once; everything that follows from them is left out and told anew when the file is read, so that an edit reaches
//! every page. A text that somebody wrote stays.

mod expand;
mod own_words;
mod shorten;
mod teller;

use crate::input::catalog::Entry;

pub use expand::{Misfit, expand};
pub use shorten::shorten;

/// Finds the entry of an exercise.
pub type Entries<'a> = dyn Fn(&str) -> Option<&'a Entry> + 'a;

/// What a session is called: `mon`, or `mon@07:30` where two sessions share the day.
pub(crate) fn is_called(day: crate::words::Weekday, at: Option<&str>, called: &str) -> bool {
    match called.split_once('@') {
        Some((name, hour)) => day.id() == name && at == Some(hour),
        None => day.id() == called,
    }
}
