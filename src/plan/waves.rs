//! Heavy weeks of main lifts for strength past novice: repetitions and reserve by week, the load from the maximum.
//!
//! Which scheme is used matters little beside the load itself (RX-09, RX-10); these two are common practice. Linear, for
//! the intermediate: a repetition less in each block. Wave, for the advanced: a repetition less in each week of a block.

use crate::input::profile::Profile;
use crate::plan::steps::{MOST_RAISE, most_after, next_load};
use crate::request::dose::{Duty, Span};
use crate::strength::estimate::percent_at_reserve;
use crate::strength::ladder::Ladder;
use crate::words::{Goal, Status};

/// What a heavy set asks for in one week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Heavy {
    /// Repetitions.
    pub reps: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// Whether the load is a step above what the maximum alone gives.
    pub step_up: bool,
}

/// Whether a lift follows its block's heavy loads, once its maximum is known.
#[must_use]
pub fn is_for(profile: &Profile, duty: Duty) -> bool {
    let by_goal = matches!(profile.goal, Goal::Strength | Goal::Power);
    duty == Duty::Main
        && match profile.training_status {
            Status::Novice => false,
            Status::Intermediate => by_goal,
            // A repetition more each week is too fast for the advanced: the load moves instead (common practice).
            Status::Advanced => by_goal || profile.goal != Goal::Endurance,
        }
}

/// The heavy set of a week; `light` weeks go back to the load of the block's first.
#[must_use]
pub fn heavy(
    status: Status,
    span: Span,
    rir: u32,
    block: usize,
    in_block: u32,
    light: bool,
) -> Heavy {
    let block = u32::try_from(block).unwrap_or(0);
    let floor = span.low.min(span.aim);
    if status == Status::Advanced {
        let down = if light { 0 } else { in_block };
        let reps = span.aim.saturating_sub(down).max(floor);
        let rir = if light { rir + 1 } else { rir };
        // Where the range has no fewer repetitions, the load alone goes up.
        let step_up = !light && in_block > 1 && reps == span.aim;
        return Heavy { reps, rir, step_up };
    }
    let cycle = span.aim - floor + 1;
    let reps = span.aim - block % cycle;
    match (light, in_block) {
        (true, _) | (_, 0) => Heavy { reps, rir: rir + 1, step_up: false },
        (_, 1) => Heavy { reps, rir, step_up: false },
        _ => Heavy { reps, rir, step_up: true },
    }
}

/// How much the maximum is taken to grow by block. Common practice, on the low side.
const fn growth(status: Status) -> f64 {
    match status {
        Status::Advanced => 0.01,
        Status::Novice | Status::Intermediate => 0.02,
    }
}

/// The most for one repetition, and what the body itself is of it where it is lifted too.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Maximum {
    /// With the body where it is lifted.
    pub total_kg: f64,
    /// The body's part.
    pub body_kg: f64,
}

impl Maximum {
    /// What is put on for a share of it, in percent.
    #[must_use]
    pub fn load_kg(self, percent: f64) -> f64 {
        self.total_kg * percent / 100.0 - self.body_kg
    }

    /// The most in the week after a load: a tenth more. With the body on the bar a step of the belt is less than a tenth of
    /// what goes up.
    #[must_use]
    pub fn most_after(self, load_kg: f64, ladder: &Ladder) -> f64 {
        let lifts_the_body = self.body_kg > 0.0;
        if lifts_the_body { most_after(load_kg, ladder) } else { load_kg * MOST_RAISE + 1e-9 }
    }
}

/// The load of a heavy set: from the maximum, never over the cap, at most a tenth above `before` (where the body is
/// lifted too, a step), rounded down.
#[must_use]
pub fn load(
    heavy: Heavy,
    status: Status,
    block: usize,
    most_for_one: Maximum,
    ladder: &Ladder,
    cap_kg: Option<f64>,
    before: Option<f64>,
) -> Option<f64> {
    let blocks = f64::from(u32::try_from(block).unwrap_or(0));
    let percent = percent_at_reserve(heavy.reps, heavy.rir)?;
    let wanted = most_for_one.load_kg((1.0 + growth(status) * blocks) * percent);
    let mut load = ladder.at_most(wanted)?;
    if heavy.step_up
        && let Some(next) = next_load(load, ladder, None).filter(|next| !next.is_wide)
    {
        load = next.load_kg;
    }
    let after = before.map_or(f64::INFINITY, |before| most_for_one.most_after(before, ladder));
    let most = cap_kg.unwrap_or(f64::INFINITY).min(after);
    if load <= most { Some(load) } else { ladder.at_most(most) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;
    use std::collections::BTreeMap;

    const SPAN: Span = Span { low: 3, high: 6, aim: 5 };

    fn bar() -> Ladder {
        let plates = BTreeMap::from([(20_000, 4), (10_000, 4), (5000, 4), (2500, 4), (1250, 2)]);
        Ladder::bar(20_000, &plates, false, Units::Kg)
    }

    fn weeks(status: Status, max_kg: f64, cap: Option<f64>) -> Vec<(u32, f64)> {
        let mut before = None;
        (0_u32..12)
            .map(|week| {
                let (block, in_block) = ((week / 4) as usize, week % 4);
                let heavy = heavy(status, SPAN, 2, block, in_block, in_block == 3);
                let most_for_one = Maximum { total_kg: max_kg, body_kg: 0.0 };
                before = load(heavy, status, block, most_for_one, &bar(), cap, before);
                (heavy.reps, before.unwrap())
            })
            .collect()
    }

    #[test]
    fn linear_takes_a_repetition_off_each_block() {
        let want = [
            (5, 80.0),
            (5, 82.5),
            (5, 85.0),
            (5, 80.0),
            (4, 82.5),
            (4, 85.0),
            (4, 87.5),
            (4, 82.5),
            (3, 87.5),
            (3, 90.0),
            (3, 92.5),
            (3, 87.5),
        ];
        assert_eq!(weeks(Status::Intermediate, 100.0, None), want);
    }

    #[test]
    fn a_wave_takes_a_repetition_off_each_week() {
        let reps: Vec<u32> =
            weeks(Status::Advanced, 150.0, None).iter().map(|week| week.0).collect();
        assert_eq!(reps, [5, 4, 3, 5, 5, 4, 3, 5, 5, 4, 3, 5]);
    }

    /// RX-09: strength past novice from 80 % of the maximum (less what rounding down takes).
    #[test]
    fn heavy_weeks_are_from_80_percent_and_rise_by_a_tenth_at_most() {
        for status in [Status::Intermediate, Status::Advanced] {
            for max_kg in [60.0, 87.5, 100.0, 142.0] {
                let weeks = weeks(status, max_kg, None);
                for pair in weeks.windows(2) {
                    assert!(pair[1].1 <= pair[0].1 * MOST_RAISE + 1e-9);
                }
                for (week, (_, load)) in weeks.iter().enumerate().filter(|(week, _)| week % 4 != 3)
                {
                    assert!(*load > 0.80 * max_kg - 2.5, "RX-09 {week}");
                }
            }
        }
    }

    #[test]
    fn the_cap_holds() {
        assert!(weeks(Status::Advanced, 100.0, Some(81.0)).iter().all(|(_, load)| *load <= 81.0));
    }

    /// Half a disc more is little beside the body, and a tenth of a few kilograms is less than any disc.
    #[test]
    fn a_belt_goes_up_by_a_step() {
        let heavier = Heavy { reps: 3, rir: 0, step_up: false };
        let most_for_one = Maximum { total_kg: 180.0, body_kg: 80.0 };
        let next = |most_for_one| {
            load(heavier, Status::Advanced, 0, most_for_one, &bar(), None, Some(20.0))
        };
        assert_eq!(next(most_for_one), Some(22.5));
        assert_eq!(next(Maximum { body_kg: 0.0, ..most_for_one }), Some(20.0));
    }

    /// A belt carries what the maximum leaves over the body, never the body as well.
    #[test]
    fn what_is_put_on_is_less_by_the_body() {
        let status = Status::Advanced;
        let first = heavy(status, SPAN, 2, 0, 0, false);
        let most_for_one = Maximum { total_kg: 180.0, body_kg: 80.0 };
        let on = load(first, status, 0, most_for_one, &bar(), None, None).unwrap();
        let whole = Maximum { body_kg: 0.0, ..most_for_one };
        let lifted = load(first, status, 0, whole, &bar(), None, None).unwrap();
        assert!((on - (lifted - 80.0)).abs() < 2.6, "{on} of {lifted}");
    }
}
