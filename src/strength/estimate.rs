//! What a set to failure says about the most that could be lifted once, and back.
//!
//! Seven published estimators (ids RM-01 to RM-07) agree within 6 to 13 %; the plan names one and prints the range.

use thiserror::Error;

/// A published equation from load and repetitions to a one-repetition maximum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::Display, strum::VariantArray)]
pub enum Estimator {
    /// Epley 1985.
    Epley,
    /// Brzycki 1993.
    Brzycki,
    /// Lander 1985.
    Lander,
    /// Lombardi 1989.
    Lombardi,
    /// Mayhew et al. 1992, fitted on the bench press.
    Mayhew,
    /// O'Conner, Simmons and O'Shea 1989.
    #[strum(to_string = "O'Conner")]
    OConner,
    /// Wathan 1994.
    Wathan,
}

/// Why no estimate is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum StrengthError {
    /// A set has at least one repetition.
    #[error("a set of 0 repetitions says nothing about strength")]
    NoRepetitions,
    /// RM-10: beyond fifteen repetitions the equations part ways.
    #[error(
        "{0} repetitions to failure are too many to estimate strength from (up to {MOST_REPS})"
    )]
    TooManyRepetitions(u32),
    /// The load is not a positive number a person could lift.
    #[error("the load is not between 0 and {MOST_KG} kg")]
    ImpossibleLoad,
}

/// How heavy a set should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ask {
    /// Repetitions of the set.
    pub reps: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// The most in percent of the maximum, where age or a long break asks for it.
    pub most_percent: Option<f64>,
}

/// More repetitions than this are refused (RM-10, the limit is the project's choice).
pub const MOST_REPS: u32 = 15;
/// More repetitions than this carry a warning (RM-10).
pub const WARN_REPS: u32 = 10;
/// No known lift is heavier than this. Common practice.
pub const MOST_KG: f64 = 500.0;

impl Estimator {
    /// All seven, in the order of the handbook.
    pub const ALL: &'static [Estimator] = <Estimator as strum::VariantArray>::VARIANTS;

    /// The one that is used unless another is named: up to ten repetitions it gives the same shares as the
    /// table of [`percent_of_max`], and it is among the lower ones there.
    pub const DEFAULT: Estimator = Estimator::Brzycki;

    /// The most that could be lifted once, in the unit of `load`, from `reps` repetitions to failure.
    ///
    /// # Errors
    /// For 0 or more than 15 repetitions, and for a load that is not between 0 and 500 kg.
    pub fn one_rep_max(self, load: f64, reps: u32) -> Result<f64, StrengthError> {
        if reps == 0 {
            return Err(StrengthError::NoRepetitions);
        }
        if reps > MOST_REPS {
            return Err(StrengthError::TooManyRepetitions(reps));
        }
        if !(load > 0.0 && load <= MOST_KG * POUNDS_IN_KG) {
            return Err(StrengthError::ImpossibleLoad);
        }
        // RM-08: a true single is the maximum; five of the equations would inflate it.
        Ok(if reps == 1 { load } else { self.equation(load, f64::from(reps)) })
    }

    fn equation(self, load: f64, reps: f64) -> f64 {
        match self {
            Estimator::Epley => load * (1.0 + reps / 30.0),
            Estimator::Brzycki => load * 36.0 / (37.0 - reps),
            Estimator::Lander => 100.0 * load / (101.3 - 2.671_23 * reps),
            Estimator::Lombardi => load * libm::pow(reps, 0.10),
            Estimator::Mayhew => 100.0 * load / (52.2 + 41.9 * libm::exp(-0.055 * reps)),
            Estimator::OConner => load * (1.0 + 0.025 * reps),
            Estimator::Wathan => 100.0 * load / (48.8 + 53.8 * libm::exp(-0.075 * reps)),
        }
    }
}

/// Pounds in a kilogram, so that the limit holds for either unit.
const POUNDS_IN_KG: f64 = 1.0 / crate::strength::ladder::KG_PER_LB;

/// A one-repetition maximum with the range of the seven estimators.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// By [`Estimator::DEFAULT`], in the unit of the load.
    pub one_rep_max: f64,
    /// The lowest of the seven.
    pub low: f64,
    /// The highest of the seven.
    pub high: f64,
    /// Repetitions that it stands on: those done and those left in reserve.
    pub reps: u32,
}

impl Estimate {
    /// The estimate from a set of `reps` that left `rir` in reserve.
    ///
    /// # Errors
    /// As [`Estimator::one_rep_max`], for the sum of both.
    pub fn from_set(load: f64, reps: u32, rir: u32) -> Result<Estimate, StrengthError> {
        if reps == 0 {
            return Err(StrengthError::NoRepetitions);
        }
        let reps = reps.saturating_add(rir);
        let mut estimate = Estimate {
            one_rep_max: Estimator::DEFAULT.one_rep_max(load, reps)?,
            low: f64::INFINITY,
            high: 0.0,
            reps,
        };
        for estimator in Estimator::ALL {
            let value = estimator.one_rep_max(load, reps)?;
            estimate.low = estimate.low.min(value);
            estimate.high = estimate.high.max(value);
        }
        Ok(estimate)
    }

    /// Whether the estimate stands on more than ten repetitions (RM-10).
    #[must_use]
    pub const fn is_rough(&self) -> bool {
        self.reps > WARN_REPS
    }
}

/// Percent of the maximum that allows so many repetitions to failure: NSCA Essentials, 4th ed., Table 17.7; 11 and 12
/// from the older load chart (RM-14, RM-15). The table has no 13 and 14; they lie on the line to 15.
const PERCENT: [f64; 15] = [
    100.0,
    95.0,
    93.0,
    90.0,
    87.0,
    85.0,
    83.0,
    80.0,
    77.0,
    75.0,
    70.0,
    67.0,
    66.0 + 1.0 / 3.0,
    65.0 + 2.0 / 3.0,
    65.0,
];

/// Percent of the maximum for so many repetitions to failure; `None` outside 1 to 15.
#[must_use]
pub fn percent_of_max(reps: u32) -> Option<f64> {
    let index = usize::try_from(reps.checked_sub(1)?).ok()?;
    PERCENT.get(index).copied()
}

/// The repetitions that go with so many percent of the maximum: none over it, at most as many as the table has.
#[must_use]
pub fn reps_at_percent(percent: f64) -> u32 {
    let goes = PERCENT.iter().take_while(|of_max| **of_max >= percent).count();
    u32::try_from(goes).unwrap_or(MOST_REPS)
}

/// Percent of the maximum for `reps` repetitions with `rir` left in reserve (RM-22).
#[must_use]
pub fn percent_at_reserve(reps: u32, rir: u32) -> Option<f64> {
    percent_of_max(reps.checked_add(rir)?)
}

/// The repetitions-in-reserve scale of effort, 1 to 10, for so many left (RM-18, Zourdos et al. 2016).
#[must_use]
pub const fn effort_of_reserve(rir: u32) -> u32 {
    10_u32.saturating_sub(rir)
}

#[cfg(test)]
mod tests;
