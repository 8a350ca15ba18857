//! Times of day and dates as files spell them.

use jiff::civil::Date;

/// Minutes from midnight of a clock time such as `18:30`, or `None` where it is no time.
///
/// ```
/// use weekwright::input::clock::minutes_of_day;
///
/// assert_eq!(minutes_of_day("18:30"), Some(1110));
/// assert_eq!(minutes_of_day("24:00"), None);
/// ```
#[must_use]
pub fn minutes_of_day(text: &str) -> Option<u32> {
    let (hours, minutes) = text.split_once(':')?;
    let hours = two_digits(hours).filter(|hours| *hours < 24)?;
    let minutes = two_digits(minutes).filter(|minutes| *minutes < 60)?;
    Some(hours * 60 + minutes)
}

fn two_digits(text: &str) -> Option<u32> {
    let is_plain = text.len() == 2 && text.bytes().all(|byte| byte.is_ascii_digit());
    is_plain.then(|| text.parse().ok()).flatten()
}

/// A day of this century such as `2027-01-04`, or `None` where there is no such day.
#[must_use]
pub fn date(text: &str) -> Option<Date> {
    let is_plain = text.len() == 10 && text.bytes().filter(|byte| *byte == b'-').count() == 2;
    let date: Date = is_plain.then(|| text.parse().ok()).flatten()?;
    (2000..2100).contains(&date.year()).then_some(date)
}
