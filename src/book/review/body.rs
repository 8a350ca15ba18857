//! Body measures of the span with a smoothed line, and what of them is more than the error of measuring.

use jiff::civil::Date;
use serde::Serialize;

use super::About;
use crate::book::body::change::{is_fast_loss, mass_trend, noise};
use crate::book::body::report::text;
use crate::book::body::{Kind, Measured};
use crate::words::Units;

/// Days on either side whose readings make a smoothed one (BM-26: a week together).
const AROUND: i32 = 3;

/// A measure over time.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BodyTrend {
    /// What: `mass`, `waist`.
    pub kind: &'static str,
    /// The words for it.
    pub name: String,
    /// Where, where that was told.
    pub site: String,
    /// Each reading: days from the first day of the span, and the value.
    pub points: Vec<(i32, f64)>,
    /// The mean of the readings around each.
    pub smoothed: Vec<(i32, f64)>,
    /// From the first smoothed value to the last.
    pub change: f64,
    /// Under this a change is the error of measuring.
    pub noise: f64,
    /// The change in words.
    pub told: String,
    /// The last reading in words.
    pub last: String,
}

pub(super) fn trends(about: &About<'_>) -> Vec<BodyTrend> {
    let units = about.profile.map_or(Units::Kg, |profile| profile.units);
    let within = |one: &&Measured| (about.from..=about.to).contains(&one.date);
    let mut keys: Vec<(Kind, &str)> =
        about.measured.iter().filter(within).map(|one| (one.kind, one.site.as_str())).collect();
    keys.sort_unstable();
    keys.dedup();
    let of = |(kind, site): (Kind, &str)| {
        let readings: Vec<&Measured> = about
            .measured
            .iter()
            .filter(within)
            .filter(|one| one.kind == kind && one.site == site)
            .collect();
        trend(kind, site, &readings, about.from, units)
    };
    keys.into_iter().filter_map(of).collect()
}

fn trend(
    kind: Kind,
    site: &str,
    readings: &[&Measured],
    from: Date,
    units: Units,
) -> Option<BodyTrend> {
    let days = |one: &Measured| (one.date - from).get_days();
    let points: Vec<(i32, f64)> = readings.iter().map(|one| (days(one), one.value)).collect();
    let smoothed: Vec<(i32, f64)> = points
        .iter()
        .map(|(day, _)| {
            let near = points.iter().filter(|(other, _)| (other - day).abs() <= AROUND);
            let (count, sum) =
                near.fold((0.0, 0.0), |(count, sum), (_, value)| (count + 1.0, sum + value));
            (*day, sum / count)
        })
        .collect();
    let (first, last) = (smoothed.first()?.1, smoothed.last()?.1);
    let change = last - first;
    let noise = noise(kind, first);
    let told = match () {
        () if points.len() < 2 => "one reading".to_owned(),
        () if change.abs() < noise => "no clear change: within the error of measuring".to_owned(),
        () if change < 0.0 => format!("{} less", text(kind, -change, units)),
        () => format!("{} more", text(kind, change, units)),
    };
    Some(BodyTrend {
        kind: kind.id(),
        name: kind.name(),
        site: site.to_owned(),
        last: text(kind, points.last()?.1, units),
        points,
        smoothed,
        change,
        noise,
        told,
    })
}

/// A loss that is faster than what is published for athletes.
pub(super) fn remarks(about: &About<'_>) -> Vec<String> {
    let trend = mass_trend(about.measured, about.to).filter(|percent| is_fast_loss(*percent));
    let told = |percent: f64| {
        format!(
            "body mass has fallen by {:.1} % a week over four weeks, faster than the 0.5 to 1 % published for athletes (Helms \
             et al. 2014): a matter for the client's clinician or dietitian",
            -percent
        )
    };
    trend.map(told).into_iter().collect()
}
