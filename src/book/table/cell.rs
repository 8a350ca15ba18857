//! Single cells: headings, days, dates.

use jiff::civil::Date;

use crate::book::slot;
use crate::book::written::name::kebab;
use crate::input::catalog::Entry;
use crate::input::clock;
use crate::words::{LoadKind, Weekday};

/// A column that is read; the others are left alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Column {
    Exercise,
    Week,
    Day,
    Start,
    Date,
    LoadDone,
    Done,
    RirDone,
    Note,
}

impl Column {
    const ALL: [Column; 9] = [
        Column::Exercise,
        Column::Week,
        Column::Day,
        Column::Start,
        Column::Date,
        Column::LoadDone,
        Column::Done,
        Column::RirDone,
        Column::Note,
    ];

    pub(super) const fn heading(self) -> &'static str {
        match self {
            Column::Exercise => "exercise",
            Column::Week => "week",
            Column::Day => "day",
            Column::Start => "start",
            Column::Date => "date",
            Column::LoadDone => "load_done",
            Column::Done => "done",
            Column::RirDone => "rir_done",
            Column::Note => "note",
        }
    }

    /// Which columns a head row has, with their places and headings.
    ///
    /// # Errors
    /// The heading of one that is needed and missing.
    pub(super) fn all(head: &[String]) -> Result<Vec<(Column, usize, String)>, &'static str> {
        let found: Vec<(Column, usize, String)> = Column::ALL
            .into_iter()
            .filter_map(|column| {
                let is_it = |text: &String| kebab(text).replace('-', "_") == column.heading();
                let at = head.iter().position(is_it)?;
                Some((column, at, head[at].trim().to_owned()))
            })
            .collect();
        let missing = [Column::Exercise, Column::Done]
            .into_iter()
            .find(|needed| !found.iter().any(|(column, ..)| column == needed));
        missing.map_or(Ok(found), |missing| Err(missing.heading()))
    }
}

/// A spreadsheet's letters for a column, from 0: A, B, .. Z, AA.
pub(super) fn letter(at: usize) -> String {
    let digit = |place: usize| char::from(b'A' + u8::try_from(place % 26).unwrap_or(0));
    match at.checked_div(26) {
        Some(before @ 1..) => format!("{}{}", letter(before - 1), digit(at)),
        _ => digit(at).to_string(),
    }
}

/// `mon`, `Monday`, `MON`.
pub(super) fn weekday(text: &str) -> Option<Weekday> {
    let lower = text.to_lowercase();
    Weekday::ALL.iter().copied().find(|day| day.id() == lower || day.name().to_lowercase() == lower)
}

/// A day as 2027-01-11, 11.1.2027 or 11/1/2027. With slashes the month may come first: then the weekday or the plan's
/// days decide.
pub(super) fn date(
    text: &str,
    day: Option<Weekday>,
    span: Option<(Date, Date)>,
) -> Result<Date, String> {
    if let Some(date) = clock::date(text.split('T').next().unwrap_or(text)) {
        return Ok(date);
    }
    if text.is_empty() {
        return Err("the day is missing".to_owned());
    }
    let mut found: Vec<Date> = match text.contains('/') {
        true => numbers(text, '/')
            .into_iter()
            .flat_map(|[one, two, year]| {
                [made(year, two, one), made(year, one, two)].into_iter().flatten()
            })
            .collect(),
        false => numbers(text, '.')
            .and_then(|[day, month, year]| made(year, month, day))
            .into_iter()
            .collect(),
    };
    found.dedup();
    if found.len() > 1 {
        let fits = |date: &Date| {
            day.is_none_or(|day| slot::weekday(*date) == day)
                && span.is_none_or(|(first, last)| (first..=last).contains(date))
        };
        let fitting: Vec<Date> = found.iter().copied().filter(fits).collect();
        if fitting.len() == 1 {
            found = fitting;
        }
    }
    match found.as_slice() {
        [date] => Ok(*date),
        [] => Err(format!("`{text}` is no day")),
        [one, other, ..] => Err(format!("`{text}` could be {one} or {other}")),
    }
}

fn numbers(text: &str, apart: char) -> Option<[i16; 3]> {
    let parts: Vec<i16> =
        text.split(apart).map(|part| part.trim().parse().ok()).collect::<Option<_>>()?;
    parts.try_into().ok()
}

fn made(year: i16, month: i16, day: i16) -> Option<Date> {
    let year = if (0..100).contains(&year) { 2000 + year } else { year };
    let date = Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()?;
    (2000..2100).contains(&date.year()).then_some(date)
}

/// The load's cell as a word before the sets: a plain number beside body weight is added to it.
pub(super) fn load(text: &str, entry: &Entry) -> String {
    let is_number = text.bytes().next().is_some_and(|first| first.is_ascii_digit());
    let is_body =
        matches!(entry.load, LoadKind::Bodyweight | LoadKind::BodyweightPlus | LoadKind::None);
    match text {
        "0" if is_body => "bw".to_owned(),
        _ if is_number && is_body => format!("+{text}"),
        _ if is_number && entry.load == LoadKind::Assisted => format!("-{text}"),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date as day;

    use super::*;

    #[test]
    fn days_are_taken_as_they_are_written_here() {
        let read = |text| date(text, None, None);
        assert_eq!(read("2027-01-11"), Ok(day(2027, 1, 11)));
        assert_eq!(read("11.1.2027"), Ok(day(2027, 1, 11)));
        assert_eq!(read("11.01.27"), Ok(day(2027, 1, 11)));
        assert_eq!(read("25/01/2027"), Ok(day(2027, 1, 25)));
        assert_eq!(read("01/25/2027"), Ok(day(2027, 1, 25)));
        assert_eq!(
            read("11/01/2027"),
            Err("`11/01/2027` could be 2027-01-11 or 2027-11-01".to_owned())
        );
        assert!(read("31.2.2027").is_err() && read("soon").is_err() && read("").is_err());
    }

    #[test]
    fn the_plan_decides_which_of_two_days_is_meant() {
        let january = (day(2027, 1, 4), day(2027, 1, 31));
        assert_eq!(date("11/01/2027", None, Some(january)), Ok(day(2027, 1, 11)));
        assert_eq!(date("01/11/2027", None, Some(january)), Ok(day(2027, 1, 11)));
        assert_eq!(date("01/11/2027", Some(Weekday::Mon), None).ok(), None, "both are Mondays");
    }

    #[test]
    fn columns_have_a_spreadsheet_s_letters() {
        assert_eq!([0, 25, 26, 51, 52].map(letter), ["A", "Z", "AA", "AZ", "BA"]);
    }
}
