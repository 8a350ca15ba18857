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
/// E2002: no such day.
pub(super) fn typed(option: &str, text: &str) -> Result<Date, Failure> {
    clock::date(text).ok_or_else(|| {
        let fault = Diagnostic::error("E2002", format!("there is no day {}", quoted(text)))
            .help(format!("write it like `{option} 2027-01-11`"));
        Failure::Faults(fault.into())
    })
}
