//! What each week is for: where the easier weeks, the weeks of measures and the new blocks lie.

use jiff::ToSpan;
use jiff::civil::Date;

pub use crate::request::WEEKS_OF_BLOCK as BLOCK;
use crate::words::{Status, WeekKind};

/// Courses shorter than this have no week of measures. Common practice.
const MEASURED_FROM: u32 = 6;
/// Courses shorter than this are measured only at the end. Common practice.
const MEASURED_TWICE_FROM: u32 = 8;

/// One week on the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeekPlan {
    /// From 1.
    pub week: u32,
    /// The block, from 0.
    pub block: usize,
    /// The week inside its block, from 0.
    pub in_block: u32,
    /// What it is for.
    pub kind: WeekKind,
    /// Whether it is lighter than the week as planned.
    pub is_light: bool,
}

/// The weeks of a course.
///
/// Easier weeks stand every four weeks, inside the four to six that coaches report (VO-13): for a novice the first week
/// of a block, when exercises are new; for others the last, when fatigue is highest. A week of measures stands in the
/// middle and at the end of longer courses.
#[must_use]
pub fn calendar(status: Status, weeks: u32) -> Vec<WeekPlan> {
    (1..=weeks.clamp(1, 52)).map(|week| week_plan(status, week, weeks)).collect()
}

fn week_plan(status: Status, week: u32, weeks: u32) -> WeekPlan {
    let in_block = (week - 1) % BLOCK;
    let is_light = match status {
        Status::Novice => in_block == 0,
        Status::Intermediate | Status::Advanced => in_block == BLOCK - 1,
    };
    let measured = (weeks >= MEASURED_FROM && week == weeks)
        || (weeks >= MEASURED_TWICE_FROM && week == weeks / 2);
    let kind = match (measured, week, is_light, in_block) {
        (true, ..) => WeekKind::Test,
        (_, 1, ..) => WeekKind::Base,
        (_, _, true, _) => WeekKind::Easy,
        (_, _, _, 0) => WeekKind::Base,
        _ => WeekKind::Build,
    };
    let block = usize::try_from((week - 1) / BLOCK).unwrap_or(0);
    WeekPlan { week, block, in_block, kind, is_light }
}

/// The first day of a week, ISO 8601; `None` beyond the end of the calendar.
#[must_use]
pub fn week_date(start: Date, week: u32) -> Option<String> {
    let days = i64::from(week.checked_sub(1)?).checked_mul(7)?;
    start.checked_add(days.days()).ok().map(|date| date.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn light(status: Status, weeks: u32) -> Vec<u32> {
        calendar(status, weeks).iter().filter(|week| week.is_light).map(|week| week.week).collect()
    }

    fn of_kind(status: Status, weeks: u32, kind: WeekKind) -> Vec<u32> {
        let weeks = calendar(status, weeks);
        weeks.iter().filter(|week| week.kind == kind).map(|week| week.week).collect()
    }

    /// VO-13 (Bell et al. 2022): every 4 to 6 weeks, for 12 weeks {4, 8, 12}; VO-14 (Rogerson et al. 2024): every 5.6 +/- 2.3.
    #[test]
    fn easier_weeks_are_four_to_six_apart() {
        assert_eq!(light(Status::Advanced, 12), [4, 8, 12], "VO-13");
        for status in Status::ALL {
            let weeks = light(*status, 52);
            assert!(weeks.windows(2).all(|pair| (4..=6).contains(&(pair[1] - pair[0]))), "VO-13");
        }
    }

    #[test]
    fn a_novice_s_month_starts_easy_and_does_not_end_easy() {
        assert_eq!(light(Status::Novice, 4), [1]);
        assert_eq!(of_kind(Status::Novice, 4, WeekKind::Easy), Vec::<u32>::new());
        assert_eq!(of_kind(Status::Novice, 12, WeekKind::Easy), [5, 9]);
    }

    #[test]
    fn measures_stand_in_the_middle_and_at_the_end() {
        assert_eq!(of_kind(Status::Novice, 4, WeekKind::Test), Vec::<u32>::new());
        assert_eq!(of_kind(Status::Novice, 12, WeekKind::Test), [6, 12]);
        assert_eq!(of_kind(Status::Intermediate, 6, WeekKind::Test), [6]);
    }

    #[test]
    fn weeks_are_seven_days_apart() {
        let start = jiff::civil::date(2027, 1, 4);
        assert_eq!(week_date(start, 1).as_deref(), Some("2027-01-04"));
        assert_eq!(week_date(start, 9).as_deref(), Some("2027-03-01"));
        assert_eq!(week_date(jiff::civil::date(9999, 12, 30), 52), None);
    }
}
