//! Lighter sets on the way to the first heavy set of a pattern.
//!
//! Figures are common practice in the manner of a test warm-up (WU-07: about 50 % x 8, 75 % x 4, 90 % x 2): the
//! last step lies at 75 to 90 % of the working load, no step is wider than 35 % of it, repetitions fall, and nothing
//! is lighter than the lightest load of the place.

use crate::plan::file::RampSet;
use crate::plan::loads::Ladder;
use crate::request::dose::Duty;

/// A step: percent of the working load and repetitions.
type Step = (u32, u32);

/// For sets up to six repetitions.
const HEAVY: &[Step] = &[(45, 8), (65, 5), (85, 2)];
/// For sets of seven to twelve.
const MEDIUM: &[Step] = &[(50, 8), (80, 4)];
/// The lightest last step, in percent of the working load.
const LAST_AT_LEAST: u32 = 75;
/// The heaviest last step, in percent of the working load.
const LAST_AT_MOST: u32 = 90;

/// The widest step, as a share of the working load.
const WIDEST_GAP: f64 = 0.35;

/// Whether an exercise is ramped up to: several joints, up to twelve repetitions, muscles not yet warm.
#[must_use]
pub fn is_wanted(duty: Duty, reps: u32, already_warm: bool) -> bool {
    let big = matches!(duty, Duty::Main | Duty::Compound);
    big && reps <= 12 && !already_warm
}

/// The ramp to `working_kg` for sets of `reps`; shares of the working load where it is not known.
///
/// Without a ladder there is nothing to make lighter, so there is no ramp.
#[must_use]
pub fn ramp(working_kg: Option<f64>, ladder: Option<&Ladder>, reps: u32) -> Vec<RampSet> {
    let steps = if reps <= 6 { HEAVY } else { MEDIUM };
    match (working_kg, ladder) {
        (_, None) => Vec::new(),
        (None, Some(_)) => steps
            .iter()
            .map(|(percent, reps)| RampSet { load_kg: None, percent: Some(*percent), reps: *reps })
            .collect(),
        (Some(working), Some(ladder)) => with_loads(working, ladder, steps),
    }
}

fn with_loads(working: f64, ladder: &Ladder, steps: &[Step]) -> Vec<RampSet> {
    let mut ramp: Vec<RampSet> = Vec::new();
    for (percent, reps) in steps {
        let wanted = working * f64::from(*percent) / 100.0;
        let load = ladder.at_most(wanted).unwrap_or_else(|| ladder.lightest());
        if load <= working * share(LAST_AT_MOST) {
            push(&mut ramp, load, *reps);
        }
    }
    let last = ramp.last().and_then(|set| set.load_kg).unwrap_or(0.0);
    if last < working * share(LAST_AT_LEAST)
        && let Some(load) = ladder.at_most(working * share(LAST_AT_MOST))
        && load > last
    {
        // The kit's steps are coarse: the nearest under nine tenths is the last step.
        lead_up_to(&mut ramp, load, working);
    }
    ramp
}

fn share(percent: u32) -> f64 {
    f64::from(percent) / 100.0
}

/// Adds a step where it is heavier than the one before; of equal loads the one with more repetitions stays.
fn push(ramp: &mut Vec<RampSet>, load: f64, reps: u32) {
    if ramp.last().and_then(|set| set.load_kg).is_none_or(|last| load > last) {
        ramp.push(RampSet { load_kg: Some(load), percent: None, reps });
    }
}

/// Ends the ramp with `load`: in place of the last step where the one before is near enough, else after it.
fn lead_up_to(ramp: &mut Vec<RampSet>, load: f64, working: f64) {
    let before = ramp.len().checked_sub(2).and_then(|index| ramp[index].load_kg);
    let reps = if before.is_some_and(|before| load - before <= WIDEST_GAP * working) {
        ramp.pop().map_or(2, |set| set.reps)
    } else {
        ramp.last().map_or(5, |set| (set.reps / 2).max(1))
    };
    push(ramp, load, reps);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::timing;
    use crate::words::Units;
    use proptest::prelude::*;
    use std::collections::BTreeMap;

    fn bar() -> Ladder {
        let plates = BTreeMap::from([(20_000, 8), (10_000, 4), (5000, 4), (2500, 4), (1250, 2)]);
        Ladder::bar(20_000, &plates, false, Units::Kg)
    }

    fn sets(ramp: &[RampSet]) -> Vec<(f64, u32)> {
        ramp.iter().map(|set| (set.load_kg.unwrap(), set.reps)).collect()
    }

    /// In the manner of WU-07 (NSCA Essentials; the ramp itself from memory).
    #[test]
    fn a_heavy_set_has_three_steps_and_a_medium_one_two() {
        assert_eq!(sets(&ramp(Some(100.0), Some(&bar()), 5)), [(45.0, 8), (65.0, 5), (85.0, 2)]);
        assert_eq!(sets(&ramp(Some(60.0), Some(&bar()), 8)), [(30.0, 8), (47.5, 4)]);
    }

    #[test]
    fn a_light_bar_starts_with_the_bar_alone() {
        assert_eq!(sets(&ramp(Some(25.0), Some(&bar()), 8)), [(20.0, 8)]);
        assert!(ramp(Some(20.0), Some(&bar()), 8).is_empty());
    }

    #[test]
    fn an_unknown_load_is_ramped_in_percent() {
        let percents: Vec<_> = ramp(None, Some(&bar()), 8).iter().map(|set| set.percent).collect();
        assert_eq!(percents, [Some(50), Some(80)]);
        assert!(ramp(None, None, 8).is_empty());
    }

    #[test]
    fn isolation_and_warm_muscles_need_none() {
        assert!(is_wanted(Duty::Main, 5, false));
        assert!(!is_wanted(Duty::Main, 5, true));
        assert!(!is_wanted(Duty::Isolation, 10, false));
        assert!(!is_wanted(Duty::Compound, 15, false));
    }

    proptest! {
        #[test]
        fn steps_keep_the_coach_s_bounds(rungs in 4_u32..140, reps in 1_u32..=12) {
            let ladder = bar();
            let Some(working) = ladder.at_most(20.0 + 2.5 * f64::from(rungs)) else { return Ok(()) };
            let ramp = ramp(Some(working), Some(&ladder), reps);
            let loads: Vec<f64> = ramp.iter().filter_map(|set| set.load_kg).collect();
            let last = *loads.last().unwrap();
            // With steps of 2.5 kg something lies between 75 and 90 % from 30 kg up.
            prop_assert!(last >= 0.75 * working && last <= 0.90 * working + 1e-9, "{working} {loads:?}");
            prop_assert!(loads.windows(2).all(|pair| pair[1] - pair[0] <= 0.35 * working + 1e-9));
            prop_assert!(ramp.windows(2).all(|pair| pair[1].reps < pair[0].reps));
            prop_assert!(loads.iter().all(|load| ladder.makes(*load)));
            prop_assert!(timing::ramp_s(ramp.len()) <= timing::RAMP_MOST_S);
        }
    }
}
