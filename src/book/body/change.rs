//! What is a change and what is the error of measuring.

use jiff::civil::Date;

use super::{Kind, Measured};
use crate::book::slope::theil_sen;

/// A single weighing says nothing under this change (BM-25: 6 % of day-to-day changes reach it).
const MASS_NOISE_KG: f64 = 1.0;
/// A waist within this is within the error of the tape (BM-27, Verweij et al. 2013).
const WAIST_NOISE_CM: f64 = 2.0;
/// Other girths and lengths: what a trained hand repeats to, a hundredth (BM-29), as a smallest change of 2.77 errors.
const GIRTH_SHARE: f64 = 0.0277;
/// Skinfolds: five hundredths (BM-29), as a smallest change.
const FOLD_SHARE: f64 = 0.139;
/// Estimates of body fat (BM-10).
const FAT_POINTS: f64 = 4.0;
/// Beats from one morning to the next. Common practice.
const BEATS: f64 = 5.0;

/// The smallest change that is more than the error of measuring, from a value.
#[must_use]
pub fn noise(kind: Kind, value: f64) -> f64 {
    use super::kind::Unit;
    match (kind, kind.unit()) {
        (Kind::Mass, _) => MASS_NOISE_KG,
        (Kind::Waist, _) => WAIST_NOISE_CM,
        (_, Unit::Fold) => value * FOLD_SHARE,
        (_, Unit::Percent) => FAT_POINTS,
        (_, Unit::Beats) => BEATS,
        _ => value * GIRTH_SHARE,
    }
}

/// The technical error of measurement from pairs of readings (BM-28, Ulijaszek and Kerr 1999).
#[must_use]
pub fn technical_error(pairs: &[(f64, f64)]) -> f64 {
    let squares: f64 = pairs.iter().map(|(one, other)| (one - other) * (one - other)).sum();
    (squares / (2.0 * count(pairs.len()))).sqrt()
}

/// The smallest change that a technical error lets one be 95 % sure of (BM-28).
#[must_use]
pub fn smallest_sure_change(technical_error: f64) -> f64 {
    1.96 * std::f64::consts::SQRT_2 * technical_error
}

/// The mean of readings within seven days, from four of them on (BM-26).
#[must_use]
pub fn weekly_mean(readings: &[f64]) -> Option<f64> {
    const LEAST: usize = 4;
    (readings.len() >= LEAST).then(|| readings.iter().sum::<f64>() / count(readings.len()))
}

/// Percent of the first mass a week, from one mass to another so many weeks later (BM-22: it compounds).
#[must_use]
pub fn weekly_percent(first_kg: f64, last_kg: f64, weeks: f64) -> f64 {
    (libm::pow(last_kg / first_kg, 1.0 / weeks) - 1.0) * 100.0
}

/// Days whose weighings make the trend, and what they must span and hold. Common practice.
const TREND_DAYS: i32 = 28;
const LEAST_SPAN: i32 = 14;
const LEAST_READINGS: usize = 4;

/// The trend of the last four weeks in percent of body mass a week; `None` where too little was weighed.
#[must_use]
pub fn mass_trend(measured: &[Measured], as_of: Date) -> Option<f64> {
    let days = |date: Date| (as_of - date).get_days();
    let recent: Vec<(f64, f64)> = measured
        .iter()
        .filter(|one| one.kind == Kind::Mass && (0..=TREND_DAYS).contains(&days(one.date)))
        .map(|one| (f64::from(-days(one.date)), one.value))
        .collect();
    let first = recent.first()?;
    let last = recent.last()?;
    if recent.len() < LEAST_READINGS || last.0 - first.0 < f64::from(LEAST_SPAN) {
        return None;
    }
    let line = theil_sen(&recent)?;
    Some(line.slope * 7.0 / (line.intercept + line.slope * first.0) * 100.0)
}

/// A loss in percent a week that goes past what is published for athletes (BM-22 and BM-23: 0.5 to 1).
#[must_use]
pub fn is_fast_loss(percent_a_week: f64) -> bool {
    const MOST: f64 = 1.0;
    percent_a_week < -MOST
}

#[allow(clippy::cast_precision_loss, reason = "a few readings")]
fn count(readings: usize) -> f64 {
    readings as f64
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;
    use jiff::civil::date;

    use super::*;

    #[track_caller]
    fn near(got: f64, want: f64, tolerance: f64, row: &str) {
        assert!((got - want).abs() <= tolerance, "{row}: {got} for {want}");
    }

    /// BM-26: two weeks of weighings.
    #[test]
    fn weekly_means_tell_what_single_days_do_not() {
        let one = [82.4, 81.9, 82.6, 82.1, 81.8, 82.9, 82.5];
        let two = [81.7, 81.9, 81.2, 81.6, 81.4, 82.0, 81.5];
        let means = [weekly_mean(&one).unwrap(), weekly_mean(&two).unwrap()];
        near(means[0], 82.314, 0.001, "BM-26");
        near(means[1], 81.614, 0.001, "BM-26");
        near(means[1] - means[0], -0.700, 0.001, "BM-26");
        near((means[1] - means[0]) / means[0] * 100.0, -0.850, 0.001, "BM-26");
        assert_eq!(weekly_mean(&one[..3]), None, "four readings at least");
    }

    /// BM-28 (Ulijaszek and Kerr 1999).
    #[test]
    fn the_technical_error_and_what_it_lets_one_see() {
        let pairs = [(85.0, 85.6), (92.5, 92.1), (78.2, 79.0), (101.0, 100.2), (88.4, 88.9)];
        let error = technical_error(&pairs);
        near(error, 0.453, 0.001, "BM-28");
        let mean = pairs.iter().map(|(one, other)| one + other).sum::<f64>() / 10.0;
        near(error / mean * 100.0, 0.508, 0.001, "BM-28");
        near(smallest_sure_change(error), 1.255, 0.001, "BM-28");
    }

    /// BM-22 (Helms, Aragon and Fitschen 2014): 80 kg at 0.7 % a week for 4, 8 and 12 weeks.
    #[test]
    fn a_weekly_rate_compounds() {
        for (weeks, mass) in [(4.0, 77.78), (8.0, 75.63), (12.0, 73.53)] {
            near(weekly_percent(80.0, mass, weeks), -0.7, 0.01, "BM-22");
        }
    }

    /// BM-25, BM-27 and BM-29: 1 kg, 2 cm, and 14 mm in a sum of 100.
    #[test]
    fn changes_within_the_error_of_measuring() {
        near(noise(Kind::Mass, 80.0), 1.0, 0.0, "BM-25");
        near(noise(Kind::Waist, 90.0), 2.0, 0.0, "BM-27");
        near(noise(Kind::ThighFold, 100.0), 14.0, 0.2, "BM-29");
    }

    fn weighed(rate: f64, days: i64, every: usize) -> (Vec<Measured>, Date) {
        let start = date(2027, 1, 4);
        let one = |day: i64| Measured {
            date: start.checked_add(day.days()).unwrap(),
            kind: Kind::Mass,
            site: String::new(),
            method: String::new(),
            value: 80.0 * (1.0 + rate / 100.0 * f64::from(i32::try_from(day).unwrap()) / 7.0),
        };
        let all = (0..=days).step_by(every).map(one).collect();
        (all, start.checked_add(days.days()).unwrap())
    }

    /// BM-23 (Garthe et al. 2011): 0.7 % a week is slow, 1.4 % fast.
    #[test]
    fn a_fast_loss_is_told() {
        for (rate, is_fast) in [(-0.7, false), (-1.4, true), (0.5, false)] {
            let (measured, as_of) = weighed(rate, 28, 4);
            let trend = mass_trend(&measured, as_of).unwrap();
            near(trend, rate, 0.01, "BM-23");
            assert_eq!(is_fast_loss(trend), is_fast, "BM-23 {rate}");
        }
        let (measured, as_of) = weighed(-2.0, 10, 2);
        assert_eq!(mass_trend(&measured, as_of), None, "ten days are too few");
    }
}
