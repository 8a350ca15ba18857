//! One word of a written line: a number with its unit, a pair of sides, an effort.

use crate::book::done::Effort;
use crate::strength::ladder::KG_PER_LB;
use crate::words::{Measure, Units};

/// What a word says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Word {
    /// `42.5`, `32,5`, `8`.
    Number(f64),
    /// `24kg`, `50lb`, in kilograms.
    Mass(f64),
    /// `+10`: added to the body, in the client's unit or with its own, in kilograms.
    Added(f64),
    /// `-15`: taken off the body, in kilograms.
    Help(f64),
    /// `45s`, `1:30`, `40m`, `12cal`.
    Amount(u32, Measure),
    /// `8/7`: left and right.
    Sides(u32, u32),
    /// `42.5x8`.
    Times(f64, u32),
    /// `r2`, `rpe8`, `@8.5`, `borg15`.
    Effort(Effort),
    /// `bw`.
    Body,
    /// `-`: left out.
    Skip,
    /// `ok`: as planned.
    AsPlanned,
    /// Anything else.
    Other,
}

/// What a word says; a unit of mass that is not written is the client's.
#[must_use]
pub(super) fn word(text: &str, units: Units) -> Word {
    let lower = text.to_lowercase().replace('×', "x");
    match lower.as_str() {
        "-" | "–" | "—" | "skip" | "skipped" => return Word::Skip,
        "ok" | "=" => return Word::AsPlanned,
        "bw" | "body" | "bodyweight" => return Word::Body,
        _ => {}
    }
    let in_kg = |number: f64| crate::strength::ladder::to_kg(number, units);
    effort(&lower)
        .map(Word::Effort)
        .or_else(|| Some(Word::Added(mass(lower.strip_prefix('+')?, in_kg)?)))
        .or_else(|| Some(Word::Help(mass(lower.strip_prefix(['-', '–'])?, in_kg)?)))
        .or_else(|| number(&lower).map(Word::Number))
        .or_else(|| with_unit(&lower))
        .or_else(|| clock(&lower))
        .or_else(|| sides(&lower))
        .or_else(|| times(&lower))
        .unwrap_or(Word::Other)
}

/// Whether a word can only be part of a name.
#[must_use]
pub(super) fn is_name(text: &str) -> bool {
    text.starts_with(char::is_alphabetic) && matches!(word(text, Units::Kg), Word::Other)
}

/// A number with a decimal point or comma and no more than three places after it.
#[must_use]
pub fn number(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, "0"));
    let digits = |part: &str, most: usize| {
        (1..=most).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit())
    };
    (digits(whole, 6) && digits(part, 3)).then(|| format!("{whole}.{part}").parse().ok())?
}

fn whole(text: &str) -> Option<u32> {
    text.bytes().all(|byte| byte.is_ascii_digit()).then(|| text.parse().ok())?
}

fn mass(text: &str, in_kg: impl Fn(f64) -> f64) -> Option<f64> {
    match with_unit(text) {
        Some(Word::Mass(kilograms)) => Some(kilograms),
        _ => number(text).map(in_kg),
    }
}

fn with_unit(text: &str) -> Option<Word> {
    let at = text.find(char::is_alphabetic)?;
    let (count, unit) = text.split_at(at);
    let amount =
        |factor: u32, measure| Some(Word::Amount(whole(count)?.checked_mul(factor)?, measure));
    match unit {
        "kg" => number(count).map(Word::Mass),
        "lb" | "lbs" => number(count).map(|pounds| Word::Mass(pounds * KG_PER_LB)),
        "s" | "sec" => amount(1, Measure::Seconds),
        "min" => amount(60, Measure::Seconds),
        "m" => amount(1, Measure::Meters),
        "km" => amount(1000, Measure::Meters),
        "cal" | "kcal" => amount(1, Measure::Calories),
        _ => None,
    }
}

/// Minutes and seconds, `1:30`.
fn clock(text: &str) -> Option<Word> {
    let (minutes, seconds) = text.split_once(':')?;
    let seconds = whole(seconds).filter(|seconds| *seconds < 60)?;
    Some(Word::Amount(whole(minutes)?.checked_mul(60)?.checked_add(seconds)?, Measure::Seconds))
}

fn sides(text: &str) -> Option<Word> {
    let (left, right) = text.split_once('/')?;
    Some(Word::Sides(whole(left)?, whole(right)?))
}

fn times(text: &str) -> Option<Word> {
    let (one, other) = text.split_once(['x', '*'])?;
    Some(Word::Times(number(one)?, whole(other)?))
}

fn effort(text: &str) -> Option<Effort> {
    let (scale, told) = [
        ("rir", "reserve"),
        ("rpe", "effort-10"),
        ("borg", "borg-20"),
        ("r", "reserve"),
        ("@", "effort-10"),
    ]
    .iter()
    .find_map(|(prefix, scale)| Some((scale, text.strip_prefix(prefix)?)))?;
    Effort::on(scale, tenths(number(told)?)?)
}

/// A number in whole tenths.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the number is small and not negative"
)]
fn tenths(number: f64) -> Option<u32> {
    let tenths = (number * 10.0).round();
    ((tenths - number * 10.0).abs() < 1e-6 && tenths < 1000.0).then_some(tenths as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_as_coaches_write_them() {
        let kg = |text| word(text, Units::Kg);
        assert_eq!(kg("32,5"), Word::Number(32.5));
        assert_eq!(kg("42.5x8"), Word::Times(42.5, 8));
        assert_eq!(kg("42,5×8"), Word::Times(42.5, 8));
        assert_eq!(kg("1:30"), Word::Amount(90, Measure::Seconds));
        assert_eq!(kg("45s"), Word::Amount(45, Measure::Seconds));
        assert_eq!(kg("40m"), Word::Amount(40, Measure::Meters));
        assert_eq!(kg("8/7"), Word::Sides(8, 7));
        assert_eq!(kg("r2"), Word::Effort(Effort::Reserve(20)));
        assert_eq!(kg("@8,5"), Word::Effort(Effort::Scale10(85)));
        assert_eq!(kg("borg15"), Word::Effort(Effort::Scale20(150)));
        assert_eq!(kg("-15"), Word::Help(15.0));
        assert_eq!(kg("BW"), Word::Body);
        assert_eq!(kg("8,8,7"), Word::Other);
        assert_eq!(kg("1e9"), Word::Other);
        assert_eq!(kg("rpe11"), Word::Other, "no such number on the scale");
    }

    /// EQ-04: a pound is 0.45359237 kg.
    #[test]
    fn a_mass_without_a_unit_is_in_the_client_s() {
        let Word::Added(added) = word("+10", Units::Lb) else { panic!("it is added") };
        assert!((added - 4.535_923_7).abs() < 1e-9, "{added}");
        assert_eq!(word("+10kg", Units::Lb), Word::Added(10.0));
        assert_eq!(word("225lb", Units::Kg), Word::Mass(102.058_283_25));
    }
}
