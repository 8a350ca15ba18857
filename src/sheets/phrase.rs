//! Numbers as a coach writes them: times, masses, sets and effort.

use jiff::civil::Date;

use crate::input::catalog::Entry;
use crate::plan::file::{Amounts, Item, RampSet};
use crate::words::{Clock, LoadKind, Status, Units, Weekday};

use super::wording::{say, word};
pub(crate) use crate::strength::ladder::mass_number;
use crate::strength::ladder::mass_text;
use crate::strength::working_load::ESTIMATE;
use crate::timing;

/// Seconds as people read them on a gym clock: `45 s`, `2 min`, `2:30`.
pub(crate) fn seconds(seconds: u32) -> String {
    match (seconds / 60, seconds % 60) {
        (0, rest) => say!(time_s, seconds = rest),
        (minutes, 0) => say!(time_min, minutes),
        (minutes, rest) => say!(time_min_s, minutes, seconds = rest),
    }
}

/// A mass in the client's unit: `42.5 kg`, `95 lb`.
pub(crate) fn mass(kilograms: f64, units: Units) -> String {
    mass_text(kilograms, units)
}

/// A number with at most `places` decimals and no needless zero.
pub(crate) fn trimmed(number: f64, places: usize) -> String {
    let text = format!("{number:.places$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// Sets and what each counts: `4 × 8`, `10, 8, 8`, `3 × 30 s each side`.
pub(crate) fn dose(item: &Item) -> String {
    sided(item, count(item))
}

/// With the word that the number is per side, where it is.
fn sided(item: &Item, dose: String) -> String {
    if item.each_side { say!(dose_each_side, dose) } else { dose }
}

/// The same without the word that the number is per side.
pub(crate) fn count(item: &Item) -> String {
    match item.amounts() {
        None => say!(dose_sets, sets = item.sets),
        Some(Amounts::Reps(list)) => sets_of(item.sets, list, |reps| reps.to_string()),
        Some(Amounts::Seconds(list)) => sets_of(item.sets, list, seconds),
        Some(Amounts::Meters(list)) => sets_of(item.sets, list, |meters| say!(dose_meters, meters)),
        Some(Amounts::Calories(list)) => {
            sets_of(item.sets, list, |calories| say!(dose_calories, calories))
        }
    }
}

/// What each set is planned as, for the box that it is written into: `42.5 × 8`, `× 12`, `30 s`.
pub(crate) fn planned(item: &Item, units: Units) -> Vec<String> {
    let load = item.load_kg.map(|kilograms| mass_number(kilograms, units)).unwrap_or_default();
    let of = |list: &[u32], unit: fn(u32) -> String| -> Vec<String> {
        let each = list.iter().map(|amount| format!("{load} {}", unit(*amount)));
        each.map(|text| text.trim().to_owned()).collect()
    };
    match item.amounts() {
        None => vec![load; item.sets.min(MOST_BOXES) as usize],
        Some(Amounts::Reps(list)) => of(list, |reps| format!("× {reps}")),
        Some(Amounts::Seconds(list)) => of(list, seconds),
        Some(Amounts::Meters(list)) => of(list, |meters| say!(dose_meters, meters)),
        Some(Amounts::Calories(list)) => of(list, |calories| say!(dose_calories, calories)),
    }
}

/// The most boxes of an exercise in a week.
pub(crate) const MOST_BOXES: u32 = 6;

fn sets_of(sets: u32, amounts: &[u32], unit: impl Fn(u32) -> String) -> String {
    let same = amounts.windows(2).all(|pair| pair[0] == pair[1]);
    match amounts.first() {
        Some(first) if same => format!("{sets} × {}", unit(*first)),
        _ => {
            let each: Vec<String> = amounts.iter().map(|amount| unit(*amount)).collect();
            each.join(", ")
        }
    }
}

/// The same for preparation and conditioning, where one set goes without saying: `2 min`.
pub(crate) fn short_dose(item: &Item) -> String {
    without_one(dose(item))
}

fn without_one(dose: String) -> String {
    dose.strip_prefix("1 × ").map(str::to_owned).unwrap_or(dose)
}

/// What a step of the preparation asks for: `3 min 45 s`, `6 reps each side`.
pub(crate) fn prep_dose(item: &Item) -> String {
    match item.amounts() {
        Some(Amounts::Reps(_)) => sided(item, say!(dose_reps, reps = without_one(count(item)))),
        _ => short_dose(item),
    }
}

/// The load and what it is the load of: `42.5 kg total`, `14 kg per hand`.
pub(crate) fn load(item: &Item, entry: Option<&Entry>, units: Units) -> String {
    let kind = entry.map_or(LoadKind::None, |entry| entry.load);
    let Some(kilograms) = item.load_kg else {
        return match (kind, &item.find_load) {
            (LoadKind::Bodyweight, _) => say!(mass_body).to_owned(),
            (LoadKind::BodyweightPlus, Some(find)) if find.start_kg <= 0.0 => {
                say!(mass_from_body).to_owned()
            }
            (_, Some(find)) => say!(mass_from, mass = loaded(find.start_kg, kind, units)),
            (_, None) => String::new(),
        };
    };
    loaded(kilograms, kind, units)
}

/// A load and what it is the load of.
fn loaded(kilograms: f64, kind: LoadKind, units: Units) -> String {
    let mass = mass(kilograms, units);
    match kind {
        LoadKind::BarTotal => say!(mass_total, mass),
        LoadKind::PerHand => say!(mass_per_hand, mass),
        LoadKind::Stack => say!(mass_stack, mass),
        LoadKind::Bodyweight | LoadKind::BodyweightPlus => say!(mass_added, mass),
        LoadKind::Assisted => say!(mass_help, mass),
        LoadKind::Sled => say!(mass_sled, mass),
        LoadKind::SingleImplement | LoadKind::PlateMachine | LoadKind::Band | LoadKind::None => {
            mass
        }
    }
}

/// How a load was found, without the estimate of the most for one repetition: that is for the coach.
pub(crate) fn without_estimate(note: &str) -> String {
    let told = note.split_once(ESTIMATE);
    let rest = told.and_then(|(before, after)| Some((before, after.split_once(')')?.1)));
    rest.map_or_else(|| note.to_owned(), |(before, after)| format!("{before}{after}"))
}

/// A note as what stands on the bar and where the load comes from; either may be empty.
pub(crate) fn plates(note: &str) -> [String; 2] {
    if !note.starts_with("each side ") {
        return [String::new(), note.to_owned()];
    }
    let (plates, from) = note.split_once("; ").unwrap_or((note, ""));
    [plates.to_owned(), from.to_owned()]
}

/// Whether a note tells an estimate of the most for one repetition.
pub(crate) fn has_estimate(note: &str) -> bool {
    note.contains(ESTIMATE)
}

/// Lighter sets before the work: `20 kg × 8, 32.5 kg × 4`.
pub(crate) fn ramp(ramp: &[RampSet], units: Units) -> String {
    let steps: Vec<String> = ramp
        .iter()
        .map(|step| match (step.load_kg, step.percent) {
            (Some(0.0), _) => say!(ramp_body, reps = step.reps),
            (Some(kilograms), _) => format!("{} × {}", mass(kilograms, units), step.reps),
            (None, Some(percent)) => format!("{percent} % × {}", step.reps),
            (None, None) => say!(ramp_light, reps = step.reps),
        })
        .collect();
    steps.join(", ")
}

/// How hard: in words for novices, who misjudge reserve, as repetitions in reserve for the others.
pub(crate) fn effort(item: &Item, status: Option<Status>) -> String {
    if let Some(effort) = &item.effort {
        return super::clean::line(effort);
    }
    match item.rir {
        None => String::new(),
        Some(rir) if status.is_none_or(|status| status == Status::Novice) => in_words(rir),
        Some(rir) => say!(reserve_rir, rir),
    }
}

fn in_words(rir: u32) -> String {
    match rir {
        0 => say!(reserve_none).to_owned(),
        1 => say!(reserve_one).to_owned(),
        more => say!(reserve_more, reps = small_number(more)),
    }
}

fn small_number(number: u32) -> String {
    match number {
        2 => say!(number_2).to_owned(),
        3 => say!(number_3).to_owned(),
        4 => say!(number_4).to_owned(),
        5 => say!(number_5).to_owned(),
        other => other.to_string(),
    }
}

/// Minutes after midnight of a clock time, `"18:30"`.
pub(crate) fn clock(at: &str) -> Option<u32> {
    let (hours, minutes) = at.split_once(':')?;
    let hours: u32 = hours.parse().ok().filter(|hours| *hours < 24)?;
    let minutes: u32 = minutes.parse().ok().filter(|minutes| *minutes < 60)?;
    Some(hours * 60 + minutes)
}

/// A clock time from minutes after midnight, `18:30` or `6:30 pm`; past midnight it starts again.
pub(crate) fn clock_text(minutes: u32, clock: Clock) -> String {
    let (hour, minute) = (minutes / 60 % 24, minutes % 60);
    match clock {
        Clock::Hours24 => format!("{hour:02}:{minute:02}"),
        Clock::Hours12 => {
            let half = if hour < 12 { say!(clock_am) } else { say!(clock_pm) };
            format!("{}:{minute:02} {half}", (hour + 11) % 12 + 1)
        }
    }
}

/// A date from a file, where it is one.
pub(crate) fn date(text: Option<&String>) -> Option<Date> {
    text?.parse().ok()
}

/// `Monday 4 January 2027`.
pub(crate) fn long_date(date: Date) -> String {
    let weekday = Weekday::ALL[usize::from(date.weekday().to_monday_zero_offset().unsigned_abs())];
    format!("{} {} {}", weekday.name(), day_month(date), date.year())
}

/// `4 January`.
pub(crate) fn day_month(date: Date) -> String {
    format!("{} {}", date.day(), word(&format!("month_{}", date.month())))
}

/// The first such weekday on or after `first`, which is the first day of a week of the plan.
pub(crate) fn day_in_week(first: Date, day: Weekday) -> Option<Date> {
    let start = i64::from(first.weekday().to_monday_zero_offset());
    let wanted = i64::try_from(day.index()).ok()?;
    let ahead = (wanted - start).rem_euclid(7);
    first.checked_add(jiff::Span::new().days(ahead)).ok()
}

/// The text with its first letter large.
pub(crate) fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// A sum that absurd numbers in a hand-written plan cannot overflow.
pub(crate) fn total(numbers: impl Iterator<Item = u32>) -> u32 {
    numbers.fold(0, u32::saturating_add)
}

/// A pair's rest is that of the round: a part of it before its other half, what is left before the next round.
pub(super) fn pair_rest(rest_s: u32, letter: &str, next: usize, last: usize) -> String {
    let between_s = if last == 1 { timing::between_s(rest_s) } else { 0 };
    let other = || format!("{letter}{}", next + 1);
    let rest = |rest_s| say!(rest_is, time = seconds(rest_s));
    match rest_s - between_s {
        _ if next <= last && between_s == 0 => say!(pair_then, next = other()),
        _ if next <= last => say!(pair_on, rest = rest(between_s), next = other()),
        0 => String::new(),
        left_s => say!(pair_back, rest = rest(left_s), first = format!("{letter}1")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Noon is 12 pm and midnight 12 am, as handbooks of style have it.
    #[test]
    fn times_are_told_by_either_clock() {
        let told =
            |minutes| [Clock::Hours24, Clock::Hours12].map(|clock| clock_text(minutes, clock));
        assert_eq!(told(0), ["00:00", "12:00 am"]);
        assert_eq!(told(9 * 60 + 5), ["09:05", "9:05 am"]);
        assert_eq!(told(12 * 60 + 30), ["12:30", "12:30 pm"]);
        assert_eq!(told(18 * 60 + 30), ["18:30", "6:30 pm"]);
        assert_eq!(told(24 * 60 + 15), ["00:15", "12:15 am"], "past midnight it starts again");
    }
}
