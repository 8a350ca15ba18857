//! What there is to say about the measures of a day, beside those before.

use jiff::civil::Date;

use super::change::{is_fast_loss, mass_trend, noise};
use super::estimate::{Body, Estimate, estimates};
use super::kind::Unit;
use super::{Kind, Measured};
use crate::strength::ladder::mass_text;
use crate::words::Units;

/// A measure with its change.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What.
    pub kind: Kind,
    /// `64.2 kg`.
    pub value: String,
    /// `1.4 kg less than on 2027-01-04`, `within the error of measuring since ..`; empty for the first.
    pub change: String,
}

/// A day of measures.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Each measure.
    pub lines: Vec<Line>,
    /// What may be estimated from them.
    pub estimates: Vec<Estimate>,
    /// What a careful coach would add.
    pub remarks: Vec<String>,
}

/// The report of a day; `measured` is all there is of the client, oldest first.
#[must_use]
pub fn report(measured: &[Measured], date: Date, body: &Body, units: Units) -> Report {
    let today: Vec<&Measured> = measured.iter().filter(|one| one.date == date).collect();
    let lines = today.iter().map(|one| Line {
        kind: one.kind,
        value: text(one.kind, one.value, units),
        change: change(one, measured, units),
    });
    let of = |kind| today.iter().rev().find(|one| one.kind == kind).map(|one| one.value);
    let height = measured.iter().rev().find(|one| one.kind == Kind::Height && one.date <= date);
    let body = Body { height_cm: height.map(|one| one.value).or(body.height_cm), ..*body };
    let estimates = estimates(&of, &body);
    let mut remarks = Vec::new();
    if let Some(percent) = mass_trend(measured, date).filter(|percent| is_fast_loss(*percent)) {
        remarks.push(format!(
            "body mass has fallen by {:.1} % a week over the last weeks, faster than the 0.5 to 1 % published for athletes \
             (Helms et al. 2014): a matter for the client's clinician or dietitian",
            -percent
        ));
    }
    if estimates.iter().any(|estimate| estimate.error.is_some()) {
        remarks.push(
            "estimates of body fat are for the trend: one measurer, one site, one equation; they classify nobody".to_owned(),
        );
    }
    Report { lines: lines.collect(), estimates, remarks }
}

/// The change since the last measure of the kind, at the same site and by the same method.
fn change(now: &Measured, measured: &[Measured], units: Units) -> String {
    let like = |one: &&Measured| {
        one.kind == now.kind
            && one.date < now.date
            && one.site == now.site
            && one.method == now.method
    };
    let Some(before) = measured.iter().rev().find(like) else { return String::new() };
    let by = now.value - before.value;
    if by.abs() < noise(now.kind, before.value) {
        return format!("no clear change since {}: within the error of measuring", before.date);
    }
    let which = if by < 0.0 { "less" } else { "more" };
    format!("{} {which} than on {}", text(now.kind, by.abs(), units), before.date)
}

/// A measure with its unit.
#[must_use]
pub fn text(kind: Kind, value: f64, units: Units) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    match kind.unit() {
        Unit::Mass => mass_text(value, units),
        Unit::Length => format!("{tenths} cm"),
        Unit::Fold => format!("{tenths} mm"),
        Unit::Percent => format!("{tenths} %"),
        Unit::Beats => format!("{tenths} beats a minute"),
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn one(day: i8, kind: Kind, value: f64, site: &str) -> Measured {
        let method = String::new();
        Measured { date: date(2027, 1, day), kind, site: site.to_owned(), method, value }
    }

    #[test]
    fn a_change_is_told_only_beyond_the_error_of_measuring() {
        let measured = [
            one(4, Kind::Mass, 80.0, ""),
            one(4, Kind::Waist, 90.0, "navel"),
            one(11, Kind::Mass, 79.4, ""),
            one(11, Kind::Waist, 87.0, "navel"),
            one(11, Kind::Waist, 84.0, "narrowest"),
        ];
        let report = report(&measured, date(2027, 1, 11), &Body::default(), Units::Kg);
        assert!(
            report.lines[0].change.starts_with("no clear change"),
            "0.6 kg is one weighing's noise"
        );
        assert_eq!(report.lines[1].change, "3 cm less than on 2027-01-04");
        assert_eq!(report.lines[2].change, "", "another site is another measure");
        assert!(report.estimates.is_empty() && report.remarks.is_empty());
    }
}
