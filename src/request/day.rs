//! One training day: its place in the week and its minutes.

use crate::input::profile::SessionSlot;
use crate::words::Weekday;

/// Hours of grace in every count of recovery hours.
pub const GRACE_H: f64 = 3.0;
/// From start to start the day before and the day after, with some hours' grace.
pub const A_DAY_H: f64 = 36.0;
const WEEK_H: f64 = 7.0 * 24.0;
/// Sessions without a clock time count as the same hour.
const USUAL_START_MIN: u32 = 18 * 60;

/// One training day.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// The weekday.
    pub weekday: Weekday,
    /// When it starts, as written.
    pub at: Option<String>,
    /// Minutes from Monday 00:00 to its start.
    pub start_min: u32,
    /// Minutes the client has.
    pub minutes: u32,
    /// Seconds kept for preparation.
    pub prep_s: u32,
    /// Seconds kept for conditioning or a finisher.
    pub closing_s: u32,
}

impl Day {
    /// A day from its slot; preparation follows the minutes there are.
    #[must_use]
    pub fn new(slot: &SessionSlot, closing_s: u32) -> Day {
        let weekday_min = u32::try_from(slot.day.index()).unwrap_or(0) * 24 * 60;
        let clock = slot.at.as_deref().and_then(clock_min).unwrap_or(USUAL_START_MIN);
        Day {
            weekday: slot.day,
            at: slot.at.clone(),
            start_min: weekday_min + clock,
            minutes: slot.minutes,
            prep_s: prep_s(slot.minutes),
            closing_s,
        }
    }

    /// The same for who needs longer to get warm: from 65 on a short session has three minutes and a half. Common practice.
    #[must_use]
    pub(super) fn with_time_to_get_warm(self) -> Day {
        const WARM_S: u32 = 210;
        Day { prep_s: if self.prep_s == 0 { 0 } else { self.prep_s.max(WARM_S) }, ..self }
    }

    /// Seconds left for working exercises.
    #[must_use]
    pub fn work_s(&self) -> u32 {
        (self.minutes * 60).saturating_sub(self.prep_s + self.closing_s)
    }

    /// The day as part of a variable's name: letters, digits and `_` only.
    #[must_use]
    pub fn name_part(&self) -> String {
        self.label().replace(['@', ':'], "_")
    }

    /// The shorter way round the week from start to start, in hours; what has no clock time counts as the same hour.
    #[must_use]
    pub fn hours_to(&self, other: &Day) -> f64 {
        let apart = self.hours_before(other).abs();
        apart.min(WEEK_H - apart)
    }

    /// Hours from this day's start to the next start of another, over the turn of the week.
    #[must_use]
    pub fn hours_until(&self, next: &Day) -> f64 {
        let hours = self.hours_before(next);
        if hours < 0.0 { hours + WEEK_H } else { hours }
    }

    /// Whether the next start of another is within so many hours, on the same day of the week or the one after it: an evening
    /// and the morning after next have two nights between them.
    #[must_use]
    pub fn is_eve_of(&self, next: &Day, within_h: f64) -> bool {
        const WEEK: usize = 7;
        let days = (next.weekday.index() + WEEK - self.weekday.index()) % WEEK;
        days <= 1 && self.hours_until(next) <= within_h
    }

    /// Hours by which this day's start comes before another's in the calendar week.
    fn hours_before(&self, other: &Day) -> f64 {
        let place = |day: &Day| f64::from(u32::try_from(day.weekday.index()).unwrap_or(0));
        match (&self.at, &other.at) {
            (Some(_), Some(_)) => (f64::from(other.start_min) - f64::from(self.start_min)) / 60.0,
            _ => 24.0 * (place(other) - place(self)),
        }
    }

    /// The day's name as messages use it: `tue`, or `tue@07:30` where a clock time is given.
    #[must_use]
    pub fn label(&self) -> String {
        match &self.at {
            Some(at) => format!("{}@{at}", self.weekday.id()),
            None => self.weekday.id().to_owned(),
        }
    }
}

/// Preparation by session length: none to three minutes up to half an hour (Iversen et al. 2021), then
/// four to eight (within the 5-10 min of ACSM and NSCA summaries).
#[must_use]
pub const fn prep_s(minutes: u32) -> u32 {
    match minutes {
        0..=20 => 0,
        21..=30 => 180,
        31..=45 => 270,
        46..=60 => 360,
        61..=80 => 420,
        _ => 480,
    }
}

/// Minutes after midnight of a clock time such as `18:30`.
#[must_use]
pub fn clock_min(at: &str) -> Option<u32> {
    let (hours, minutes) = at.split_once(':')?;
    let (hours, minutes) = (hours.parse::<u32>().ok()?, minutes.parse::<u32>().ok()?);
    (hours < 24 && minutes < 60).then_some(hours * 60 + minutes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(weekday: Weekday, at: &str) -> Day {
        Day::new(&SessionSlot { day: weekday, at: Some(at.to_owned()), minutes: 60 }, 0)
    }

    /// Monday 18:00 to Wednesday 18:00 is 48 h (ACSM guideline summaries), and the week wraps.
    #[test]
    fn hours_run_from_start_to_start_and_over_sunday() {
        let close = |hours: f64, wanted: f64| (hours - wanted).abs() < 1e-9;
        assert!(close(day(Weekday::Mon, "18:00").hours_to(&day(Weekday::Wed, "18:00")), 48.0));
        assert!(close(day(Weekday::Sun, "18:00").hours_to(&day(Weekday::Mon, "07:00")), 13.0));
        let open = Day::new(&SessionSlot { day: Weekday::Sat, at: None, minutes: 60 }, 0);
        assert!(close(day(Weekday::Thu, "18:30").hours_to(&open), 48.0), "the same hour");
    }

    /// An evening and the morning after next have two nights between them; a morning and the next evening are a day apart.
    #[test]
    fn the_eve_is_the_day_before() {
        let eve = |one: Day, next: Day| one.is_eve_of(&next, A_DAY_H);
        assert!(eve(day(Weekday::Sun, "09:00"), day(Weekday::Mon, "18:30")));
        assert!(!eve(day(Weekday::Tue, "20:15"), day(Weekday::Thu, "06:30")));
        assert!(!eve(day(Weekday::Sun, "06:00"), day(Weekday::Mon, "20:00")), "38 hours");
    }

    #[test]
    fn older_clients_have_longer_to_get_warm_in_a_short_session() {
        let day = |minutes| Day::new(&SessionSlot { day: Weekday::Mon, at: None, minutes }, 0);
        assert_eq!(day(30).with_time_to_get_warm().prep_s, 210);
        assert_eq!(day(60).with_time_to_get_warm().prep_s, day(60).prep_s);
        assert_eq!(day(15).with_time_to_get_warm().prep_s, 0);
    }
}
