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

/// Every day that a written date may mean, as people write it: `2027-01-11`, `2027/1/11`, `11.1.2027`. With slashes and
/// dashes day or month may come first, so there `3/4/2027` is two days, the one with the day first before the other.
///
/// ```
/// use weekwright::input::clock::readings;
///
/// let told = |text| readings(text).iter().map(ToString::to_string).collect::<Vec<String>>();
/// assert_eq!(told("11.1.27"), ["2027-01-11"]);
/// assert_eq!(told("25/01/2027"), ["2027-01-25"]);
/// assert_eq!(told("03/04/2027"), ["2027-04-03", "2027-03-04"]);
/// assert!(told("31.2.2027").is_empty());
/// ```
#[must_use]
pub fn readings(text: &str) -> Vec<Date> {
    let text = text.trim();
    let apart = ['.', '/', '-'].into_iter().find(|apart| text.contains(*apart));
    let parts = apart.and_then(|apart| {
        let parts: Option<Vec<i16>> =
            text.split(apart).map(|part| part.trim().parse().ok()).collect();
        <[i16; 3]>::try_from(parts?).ok()
    });
    let Some([one, two, three]) = parts else { return Vec::new() };
    let read = match apart {
        _ if one >= 1000 => vec![made(one, two, three)],
        Some('.') => vec![made(three, two, one)],
        _ => vec![made(three, two, one), made(three, one, two)],
    };
    let mut days: Vec<Date> = read.into_iter().flatten().collect();
    days.dedup();
    days
}

/// A day of this century, whose years may be told by their last two digits.
fn made(year: i16, month: i16, day: i16) -> Option<Date> {
    let year = if (0..100).contains(&year) { 2000 + year } else { year };
    let month = i8::try_from(month).ok()?;
    let date = Date::new(year, month, i8::try_from(day).ok()?).ok()?;
    (2000..2100).contains(&date.year()).then_some(date)
}

/// Days as a fault names them: `2027-04-03 or 2027-03-04`.
#[must_use]
pub fn either(days: &[Date]) -> String {
    days.iter().map(ToString::to_string).collect::<Vec<String>>().join(" or ")
}
