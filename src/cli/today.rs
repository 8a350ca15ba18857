//! The day on the coach's calendar, and days as they are typed.

use jiff::civil::Date;

use super::Failure;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::clock;

/// Today where the coach is.
pub(super) fn today() -> Date {
    jiff::ZonedDateTime::now().date()
}

/// A day as it was typed after an option.
///
/// # Errors
/// E2002: no such day, or one that could be two.
pub(super) fn typed(option: &str, text: &str) -> Result<Date, Failure> {
    let days = clock::readings(text);
    let message = match days.as_slice() {
        [day] => return Ok(*day),
        [] => format!("there is no day {}", quoted(text)),
        several => format!("{} could be {}", quoted(text), clock::either(several)),
    };
    let example = days.first().map_or_else(|| "2027-01-11".to_owned(), ToString::to_string);
    let help = format!("write it like `{option} {example}`");
    Err(Failure::Faults(Diagnostic::error("E2002", message).help(help).into()))
}
