//! What people type, as files spell it: `68,5`, `6:30 pm`, `45 min`, `1 December`, `Monday, Wednesday and Friday`.

use jiff::ToSpan as _;
use jiff::civil::{Date, Weekday as CivilDay};

use crate::diagnostic::quoted;
use crate::input::clock::date;
use crate::words::Weekday;

/// Units that may stand behind a number.
const UNITS: [&str; 16] = [
    "kg", "kgs", "kilos", "lb", "lbs", "pounds", "min", "mins", "minutes", "minute", "cm", "weeks",
    "week", "years", "reps", "x",
];

/// Other words for the words of a list.
const SAME: &[(&str, &str)] = &[
    ("beginner", "novice"),
    ("new", "novice"),
    ("starter", "novice"),
    ("some-experience", "intermediate"),
    ("experienced", "advanced"),
    ("expert", "advanced"),
    ("lose-weight", "fat-loss"),
    ("weight-loss", "fat-loss"),
    ("lose-fat", "fat-loss"),
    ("slim-down", "fat-loss"),
    ("build-muscle", "hypertrophy"),
    ("muscle", "hypertrophy"),
    ("muscle-growth", "hypertrophy"),
    ("gain-muscle", "hypertrophy"),
    ("get-bigger", "hypertrophy"),
    ("get-stronger", "strength"),
    ("stronger", "strength"),
    ("strong", "strength"),
    ("explosive", "power"),
    ("stamina", "endurance"),
    ("fitness", "general-fitness"),
    ("get-fit", "general-fitness"),
    ("fit", "general-fitness"),
    ("health", "general-fitness"),
    ("woman", "female"),
    ("f", "female"),
    ("man", "male"),
    ("m", "male"),
    ("pounds", "lb"),
    ("lbs", "lb"),
    ("kilos", "kg"),
    ("kilograms", "kg"),
    ("hard", "vigorous"),
    ("medium", "moderate"),
    ("easy", "light"),
    ("effort", "under-effort"),
    ("bar", "barbell"),
    ("rack", "squat-rack"),
    ("bands", "resistance-band"),
    ("band", "resistance-band"),
    ("kettlebells", "kettlebell"),
    ("dumbbell", "dumbbells"),
    ("rower", "rowing-ergometer"),
    ("erg", "rowing-ergometer"),
    ("rowing-machine", "rowing-ergometer"),
    ("bike", "stationary-bike"),
    ("cables", "cable-station"),
];

/// The word of a list that was meant, where `words` has it.
pub(super) fn same(typed: &str, words: &[&str]) -> Option<&'static str> {
    let found = SAME.iter().find(|(said, meant)| *said == typed && words.contains(meant));
    found.map(|(_, meant)| *meant)
}

/// Parts with commas, semicolons, `and` or `&` between them.
pub(super) fn parts(typed: &str) -> Vec<&str> {
    let and = typed.split([',', ';', '&', '+']).flat_map(|part| part.split(" and "));
    and.map(|part| part.trim().trim_start_matches("and ").trim())
        .filter(|part| !part.is_empty())
        .collect()
}

/// `68,5`, `45 min` and `60kg` as a plain number.
pub(super) fn number(typed: &str) -> Result<String, String> {
    let plain = typed.trim().to_lowercase().replace(',', ".");
    let end = plain.find(|letter: char| !letter.is_ascii_digit() && letter != '.');
    let (digits, unit) = plain.split_at(end.unwrap_or(plain.len()));
    let is_unit = unit.trim().is_empty() || UNITS.contains(&unit.trim());
    match digits.parse::<f64>() {
        Ok(_) if is_unit => Ok(digits.to_owned()),
        _ => Err(format!("{} is no number: write digits, such as 60 or 62.5", quoted(typed))),
    }
}

/// `7`, `7:30`, `6:30 pm`, `6.30pm` and `18h30` as `18:30`; what is none stays as it is for the checks to tell.
pub(super) fn clock(typed: &str) -> String {
    let plain = typed.trim().to_lowercase().replace([' ', '.'], ":").replace("::", ":");
    let (plain, afternoon) = match (plain.strip_suffix("pm"), plain.strip_suffix("am")) {
        (Some(rest), _) => (rest.trim_end_matches(':').to_owned(), Some(true)),
        (_, Some(rest)) => (rest.trim_end_matches(':').to_owned(), Some(false)),
        _ => (plain, None),
    };
    let plain = plain.replace('h', ":");
    let plain = plain.trim_end_matches(':');
    let (hours, minutes) = plain.split_once(':').unwrap_or((plain, "00"));
    if hours.is_empty() {
        return typed.to_owned();
    }
    let hours = match (hours.parse::<u32>(), afternoon) {
        (Ok(12), Some(false)) => "00".to_owned(),
        (Ok(hours @ 1..=11), Some(true)) => (hours + 12).to_string(),
        _ => hours.to_owned(),
    };
    format!("{hours:0>2}:{minutes:0>2}")
}

/// Whether a text is an hour of the day, however it is written.
pub(super) fn is_clock(typed: &str) -> bool {
    crate::input::clock::minutes_of_day(&clock(typed)).is_some()
}

/// The weekday of `Monday`, `mon` or `mo`.
pub(super) fn weekday(typed: &str) -> Option<Weekday> {
    let name = typed.trim().to_lowercase();
    let name = name.strip_suffix('s').filter(|day| day.ends_with("day")).unwrap_or(&name);
    let is_meant = |day: &&Weekday| name.len() >= 2 && day.name().to_lowercase().starts_with(name);
    Weekday::ALL.iter().find(is_meant).copied()
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// `1 December`, `Dec 1st 2026`, `1.12.2026`, `Monday` or `2026-12-01` as `2026-12-01`: without a year the next such day
/// from a day on. What is none stays as it is for the checks to tell.
pub(super) fn day(typed: &str, from: &str) -> String {
    let typed = typed.trim();
    if date(typed).is_some() {
        return typed.to_owned();
    }
    let from = date(from);
    let named = from.zip(weekday(typed)).and_then(|(from, day)| next_weekday(from, day));
    let found = named.or_else(|| written(typed, from));
    found.map_or_else(|| typed.to_owned(), |day| day.to_string())
}

fn next_weekday(from: Date, day: Weekday) -> Option<Date> {
    let wanted = CivilDay::from_monday_zero_offset(i8::try_from(day.index()).ok()?).ok()?;
    (0..7).find_map(|ahead: i64| {
        let day = from.checked_add(ahead.days()).ok()?;
        (day.weekday() == wanted).then_some(day)
    })
}

fn written(typed: &str, from: Option<Date>) -> Option<Date> {
    let plain = typed.to_lowercase();
    let parts: Vec<&str> = plain
        .split([' ', '.', ',', '/'])
        .filter(|part| !part.is_empty() && *part != "of")
        .collect();
    let digits = |part: &str| -> Option<i16> {
        let end = part.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(part.len());
        let is_plain = matches!(&part[end..], "" | "st" | "nd" | "rd" | "th");
        is_plain.then(|| part[..end].parse().ok()).flatten()
    };
    let named =
        |part: &&str| part.len() >= 3 && MONTHS.iter().any(|month| month.starts_with(*part));
    let month = parts.iter().find(|part| named(part)).and_then(|part| {
        let at = MONTHS.iter().position(|month| month.starts_with(part))?;
        i8::try_from(at + 1).ok()
    });
    let numbers: Vec<i16> = parts.iter().filter_map(|part| digits(part)).collect();
    let (day, month, year) = match (month, numbers.as_slice()) {
        (Some(month), [day]) => (*day, month, None),
        (Some(month), [day, year]) => (*day, month, Some(*year)),
        // Day first, as with dots; a date with slashes may be meant either way and is not guessed.
        (None, [day, month, year]) if plain.contains('.') => {
            (*day, i8::try_from(*month).ok()?, Some(*year))
        }
        _ => return None,
    };
    let day = i8::try_from(day).ok()?;
    match (year, from) {
        (Some(year), _) => Date::new(year, month, day).ok(),
        (None, Some(from)) => [from.year(), from.year() + 1]
            .into_iter()
            .find_map(|year| Date::new(year, month, day).ok().filter(|day| *day >= from)),
        (None, None) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_hours_as_people_type_them() {
        for (typed, number) in [("68,5", "68.5"), ("45 min", "45"), ("60kg", "60"), ("8 x", "8")] {
            assert_eq!(super::number(typed).as_deref(), Ok(number));
        }
        assert!(number("sixty").is_err() && number("60 stone").is_err() && number("").is_err());
        for (typed, hour) in [
            ("6:30 pm", "18:30"),
            ("6.30pm", "18:30"),
            ("7", "07:00"),
            ("7 am", "07:00"),
            ("12 pm", "12:00"),
            ("12 am", "00:00"),
            ("18h30", "18:30"),
            ("18:30", "18:30"),
        ] {
            assert_eq!(clock(typed), hour, "{typed}");
        }
        assert!(!is_clock("25:00") && !is_clock("half six") && !is_clock(""));
    }

    /// Weekdays of the ISO calendar: 30 November 2026 is a Monday.
    #[test]
    fn days_as_people_type_them() {
        for (typed, day) in [
            ("1 December", "2026-12-01"),
            ("Dec 1st", "2026-12-01"),
            ("1 January", "2027-01-01"),
            ("1. 12. 2026", "2026-12-01"),
            ("December 1, 2027", "2027-12-01"),
            ("Thursday", "2026-12-03"),
            ("2026-12-01", "2026-12-01"),
            ("soon", "soon"),
            ("12/1/2026", "12/1/2026"),
            ("31 February", "31 February"),
        ] {
            assert_eq!(super::day(typed, "2026-11-30"), day, "{typed}");
        }
        assert_eq!(weekday("Tuesdays"), Some(Weekday::Tue));
        assert_eq!(parts("Monday, Wednesday and Friday"), ["Monday", "Wednesday", "Friday"]);
    }
}
