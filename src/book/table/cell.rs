//! Single cells: headings, days, dates.

use jiff::civil::Date;

use crate::book::slot;
use crate::book::written::{has_load, name::kebab};
use crate::input::catalog::Entry;
use crate::input::clock;
use crate::words::{LoadKind, Measure, Weekday};

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

/// Whether a table has the day or the month first where both are numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Order {
    DayFirst,
    MonthFirst,
}

impl Order {
    /// The order of a column of dates, by those that can be read in one way only; `None` where none tells, or where they
    /// disagree.
    pub(super) fn of<'a>(cells: impl Iterator<Item = &'a str>) -> Option<Order> {
        let mut orders = cells.filter_map(Order::told);
        let first = orders.next()?;
        orders.all(|order| order == first).then_some(first)
    }

    fn told(text: &str) -> Option<Order> {
        let mut numbers = text.split(['/', '-']).map(|part| part.trim().parse::<u32>().ok());
        let (Some(Some(one)), Some(Some(two)), 1) =
            (numbers.next(), numbers.next(), clock::readings(text).len())
        else {
            return None;
        };
        match (one, two) {
            (13..=31, 1..=12) => Some(Order::DayFirst),
            (1..=12, 13..=31) => Some(Order::MonthFirst),
            _ => None,
        }
    }
}

/// What decides where a day can be read in two ways.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Decides {
    /// How the other rows of the table are written.
    pub(super) order: Option<Order>,
    /// The row's weekday.
    pub(super) day: Option<Weekday>,
    /// The days of the plan.
    pub(super) span: Option<(Date, Date)>,
}

impl Decides {
    /// The one of several days that is meant. Where the order of the table and weekday or plan disagree, none is.
    fn among(&self, days: &[Date]) -> Option<Date> {
        let fits = |date: &&Date| {
            self.day.is_none_or(|day| slot::weekday(**date) == day)
                && self.span.is_none_or(|(first, last)| (first..=last).contains(*date))
        };
        let fitting: Vec<Date> = days.iter().filter(fits).copied().collect();
        let ordered = match self.order {
            Some(Order::DayFirst) => days.first(),
            Some(Order::MonthFirst) => days.last(),
            None => fitting.first().filter(|_| fitting.len() == 1),
        };
        ordered.copied().filter(|day| fitting.is_empty() || fitting.contains(day))
    }
}

/// A day as 2027-01-11, 11.1.2027 or 11/1/2027.
///
/// # Errors
/// What is wrong with it; where it could be several days, which.
pub(super) fn date(text: &str, decides: &Decides) -> Result<Date, String> {
    if text.is_empty() {
        return Err("the day is missing".to_owned());
    }
    let days = clock::readings(text.split('T').next().unwrap_or(text));
    match days.as_slice() {
        [date] => Ok(*date),
        [] => Err(format!("`{text}` is no day")),
        several => decides
            .among(several)
            .ok_or_else(|| format!("`{text}` could be {}", clock::either(several))),
    }
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

/// What a cell could say of an exercise.
pub(super) fn plain(column: Column, entry: &Entry) -> &'static str {
    match column {
        Column::LoadDone if has_load(entry.load) => "10kg",
        Column::LoadDone => "",
        Column::Done => match entry.measure {
            Measure::Reps => "8",
            Measure::Seconds => "30s",
            Measure::Meters => "20m",
            Measure::Calories => "10cal",
        },
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date as day;

    use super::*;

    #[test]
    fn days_are_taken_as_they_are_written_here() {
        let read = |text| date(text, &Decides::default());
        assert_eq!(read("2027-01-11"), Ok(day(2027, 1, 11)));
        assert_eq!(read("2027-01-11T18:30:00"), Ok(day(2027, 1, 11)));
        assert_eq!(read("11.1.2027"), Ok(day(2027, 1, 11)));
        assert_eq!(read("11.01.27"), Ok(day(2027, 1, 11)));
        assert_eq!(read("25/01/2027"), Ok(day(2027, 1, 25)));
        assert_eq!(read("01/25/2027"), Ok(day(2027, 1, 25)));
        assert_eq!(read("25-01-2027"), Ok(day(2027, 1, 25)));
        assert_eq!(read("04/04/2027"), Ok(day(2027, 4, 4)));
        assert_eq!(
            read("11/01/2027"),
            Err("`11/01/2027` could be 2027-01-11 or 2027-11-01".to_owned())
        );
        assert!(read("31.2.2027").is_err() && read("soon").is_err() && read("").is_err());
    }

    #[test]
    fn the_plan_decides_which_of_two_days_is_meant() {
        let january =
            Decides { span: Some((day(2027, 1, 4), day(2027, 1, 31))), ..Decides::default() };
        assert_eq!(date("11/01/2027", &january), Ok(day(2027, 1, 11)));
        assert_eq!(date("01/11/2027", &january), Ok(day(2027, 1, 11)));
        let monday = Decides { day: Some(Weekday::Mon), ..Decides::default() };
        assert_eq!(date("01/11/2027", &monday).ok(), None, "both are Mondays");
    }

    #[test]
    fn the_other_rows_decide_and_a_contradiction_is_asked() {
        let order = |cells: &[&str]| Order::of(cells.iter().copied());
        assert_eq!(order(&["03/04/2027", "25/03/2027"]), Some(Order::DayFirst));
        assert_eq!(order(&["03/25/2027", "2027-03-04", ""]), Some(Order::MonthFirst));
        assert_eq!(order(&["03/04/2027", "04/04/2027", "11.1.2027"]), None);
        assert_eq!(order(&["03/25/2027", "25/03/2027"]), None, "they disagree");
        let day_first = Decides { order: Some(Order::DayFirst), ..Decides::default() };
        assert_eq!(date("03/04/2027", &day_first), Ok(day(2027, 4, 3)));
        let march = Decides { span: Some((day(2027, 3, 1), day(2027, 3, 28))), ..day_first };
        assert!(date("03/04/2027", &march).is_err(), "the plan says March, the table April");
    }

    #[test]
    fn columns_have_a_spreadsheet_s_letters() {
        assert_eq!([0, 25, 26, 51, 52].map(letter), ["A", "Z", "AA", "AZ", "BA"]);
    }
}
