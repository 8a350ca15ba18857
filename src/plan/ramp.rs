//! Lighter sets on the way to the first heavy set of a pattern.
//!
//! Figures are common practice in the manner of a test warm-up (WU-07: about 50 % x 8, 75 % x 4, 90 % x 2): the
//! last step lies at 75 to 90 % of the working load, no step is wider than 35 % of it, repetitions fall, and nothing
//! is lighter than the lightest load of the place. A bar out of the rack begins bare where that leaves no wide step.

use crate::plan::file::RampSet;
use crate::request::dose::Duty;
use crate::strength::ladder::Ladder;

/// Shares of the working load for sets up to six repetitions, and with a load that asks for one step more.
const HEAVY: &[f64] = &[0.45, 0.70, 0.90];
const VERY_HEAVY: &[f64] = &[0.40, 0.60, 0.78, 0.90];
/// From so much on a bar is very heavy.
const VERY_HEAVY_KG: f64 = 70.0;
/// Shares of the working load for sets of seven to twelve.
const MEDIUM: &[f64] = &[0.50, 0.80];
/// The same where only two steps have their time, and for any set where only one has.
const TWO_STEPS: &[f64] = &[0.55, 0.85];
const ONE_STEP: &[f64] = &[0.80];
/// What hangs from the body: a few with the body alone come first, then, from so much on, fewer with half of it.
const BODY_REPS: u32 = 4;
const HALF_REPS: u32 = 2;
const HALF_FROM_KG: f64 = 15.0;
/// Shares after the bare bar, by the number of steps.
const AFTER_THE_BAR: [&[f64]; 3] = [&[0.78], &[0.62, 0.87], &[0.50, 0.72, 0.88]];
/// The lightest and the heaviest last step, as shares of the working load.
const LAST: [f64; 2] = [0.75, 0.90];
/// A bar whose plates make no last step is still led up to from here.
const LEAST_LAST: f64 = 0.5;
/// The widest step, as a share of the working load.
const WIDEST_GAP: f64 = 0.35;
/// Repetitions by the number of steps: before heavy sets, and before others.
const REPS: [&[&[u32]]; 2] =
    [&[&[4], &[6, 3], &[8, 5, 2], &[8, 5, 3, 1]], &[&[6], &[8, 4], &[8, 5, 3], &[8, 5, 3, 2]]];
/// The narrowest last step, as a share of the working load.
const NARROWEST_GAP: f64 = 0.10;
const ROUNDING: f64 = 1e-6;

/// Whether an exercise is ramped up to: several joints, up to twelve repetitions.
#[must_use]
pub fn is_wanted(duty: Duty, reps: u32) -> bool {
    let big = matches!(duty, Duty::Main | Duty::Compound | Duty::Explosive);
    big && reps <= 12
}

/// The ramp to `working_kg` for sets of `reps`, in up to `most` steps that the kit makes.
///
/// Where the load is to be found, its start is the working load. Without a load, or with a single one in the place,
/// there is nothing to make lighter, so there is no ramp.
#[must_use]
pub fn ramp(
    working_kg: Option<f64>,
    ladder: Option<&Ladder>,
    reps: u32,
    most: usize,
) -> Vec<RampSet> {
    let Some((working, ladder)) = working_kg.zip(ladder) else { return Vec::new() };
    if ladder.is_on_the_body() {
        return from_the_body_alone(working, ladder, most);
    }
    let shares = match reps {
        _ if most == ONE_STEP.len() => ONE_STEP,
        ..=6 if working >= VERY_HEAVY_KG && most > HEAVY.len() => VERY_HEAVY,
        ..=6 if most == TWO_STEPS.len() => TWO_STEPS,
        ..=6 => HEAVY,
        _ => MEDIUM,
    };
    let mut loads = loads(working, ladder, shares);
    let surplus = loads.len().saturating_sub(most.min(REPS[0].len()));
    loads.drain(..surplus);
    let mut loads = from_the_bare_bar(working, ladder, loads.len()).unwrap_or(loads);
    from_large_plates(&mut loads, working, ladder);
    let reps: &[u32] = match loads.len() {
        0 => return Vec::new(),
        count => REPS[usize::from(reps > 6)][count - 1],
    };
    loads.into_iter().zip(reps).map(|(load, reps)| step(load, *reps)).collect()
}

fn step(load_kg: f64, reps: u32) -> RampSet {
    RampSet { load_kg: Some(load_kg), load_lb: None, percent: None, reps }
}

/// The steps to a load that hangs from the body: the body alone is a load of nothing.
fn from_the_body_alone(working: f64, ladder: &Ladder, most: usize) -> Vec<RampSet> {
    let half = ladder.at_most(working / 2.0).filter(|_| working >= HALF_FROM_KG);
    let steps = [Some((0.0, BODY_REPS)), half.map(|half| (half, HALF_REPS))];
    let steps = steps.into_iter().flatten().take(if working > 0.0 { most } else { 0 });
    steps.map(|(load, reps)| step(load, reps)).collect()
}

/// The loads of a ramp, from the lightest up: the last one first, then those before it.
fn loads(working: f64, ladder: &Ladder, shares: &[f64]) -> Vec<f64> {
    let Some((last, before)) = shares.split_last() else { return Vec::new() };
    let Some(last) = last_step(working, ladder, *last) else { return Vec::new() };
    let mut loads: Vec<f64> = before
        .iter()
        .map(|share| ladder.at_most(working * share).unwrap_or_else(|| ladder.lightest()))
        .filter(|load| *load < last)
        .chain([last])
        .collect();
    loads.dedup();
    // A step that hardly differs from the next is not worth its minute.
    let nearest = NARROWEST_GAP * working;
    while loads.len() > 1 && loads[loads.len() - 1] - loads[loads.len() - 2] < nearest {
        loads.remove(loads.len() - 2);
    }
    close_gaps(&mut loads, working, ladder);
    loads
}

/// As many steps from the bare bar, where none of them is too wide.
fn from_the_bare_bar(working: f64, ladder: &Ladder, count: usize) -> Option<Vec<f64>> {
    let shares = AFTER_THE_BAR.get(count.checked_sub(2)?)?;
    let widest = WIDEST_GAP * working + ROUNDING;
    let mut loads = vec![ladder.lightest()];
    for share in *shares {
        let before = *loads.last()?;
        let wanted = (share * working).min(before + widest);
        loads.push(ladder.at_most(wanted).filter(|load| load - before > ROUNDING)?);
    }
    let in_window = (LAST[0] * working..=LAST[1] * working).contains(loads.last()?);
    (ladder.starts_bare() && in_window).then_some(loads)
}

/// A bar off the floor lies at its height with the largest plates: the first step has those, where that is no wide step.
fn from_large_plates(loads: &mut [f64], working: f64, ladder: &Ladder) {
    let Some(low) = ladder.on_large_plates() else { return };
    if let [first, second, ..] = loads {
        let rises = *first < low && low < *second && low <= working * LEAST_LAST;
        let falls = *first > low && *second - low <= WIDEST_GAP * working + ROUNDING;
        if rises || falls {
            *first = low;
        }
    }
}

/// The last step: as near its share as the kit allows.
fn last_step(working: f64, ladder: &Ladder, share: f64) -> Option<f64> {
    let [least, most] = LAST.map(|share| working * share);
    let in_window = |load: &f64| (least - ROUNDING..=most + ROUNDING).contains(load);
    let near = ladder.at_most(working * share).filter(in_window);
    near.or_else(|| ladder.at_least(least - ROUNDING).filter(in_window)).or_else(|| {
        let under = ladder.at_most(most).filter(|load| *load >= working * LEAST_LAST);
        under.filter(|_| ladder.is_bar())
    })
}

/// Puts a load of the kit into every gap that is too wide, where it has one.
fn close_gaps(loads: &mut Vec<f64>, working: f64, ladder: &Ladder) {
    let widest = WIDEST_GAP * working + ROUNDING;
    let mut place = 1;
    while place < loads.len() {
        let [low, high] = [loads[place - 1], loads[place]];
        let between = ladder.at_least(high - widest).filter(|load| *load > low && *load < high);
        match between.filter(|_| high - low > widest) {
            // The first step of two may come nearer; a third step is worth its time only after that.
            Some(load) if place == 1 => loads[0] = load,
            Some(load) => loads.insert(place, load),
            None => {}
        }
        place += 1;
    }
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
        assert_eq!(sets(&ramp(Some(100.0), Some(&bar()), 5, 3)), [(20.0, 8), (55.0, 5), (85.0, 2)]);
        assert_eq!(sets(&ramp(Some(60.0), Some(&bar()), 8, 3)), [(30.0, 8), (47.5, 4)]);
    }

    #[test]
    fn a_light_bar_starts_with_the_bar_alone() {
        assert_eq!(sets(&ramp(Some(25.0), Some(&bar()), 8, 2)), [(20.0, 6)]);
        assert!(ramp(Some(20.0), Some(&bar()), 8, 2).is_empty());
    }

    #[test]
    fn a_bar_out_of_the_rack_begins_bare_and_one_off_the_floor_on_large_plates() {
        let heavy = ramp(Some(70.0), Some(&bar()), 5, 4);
        assert_eq!(sets(&heavy), [(20.0, 8), (35.0, 5), (50.0, 3), (60.0, 1)]);
        let floor = bar().off_the_floor();
        let low = sets(&ramp(Some(120.0), Some(&floor), 5, 4));
        assert_eq!(low[0], (60.0, 8), "{low:?}");
    }

    #[test]
    fn without_a_lighter_load_there_is_none() {
        assert!(ramp(None, Some(&bar()), 8, 2).is_empty());
        assert!(ramp(Some(60.0), None, 8, 2).is_empty());
        let one = Ladder::implements(vec![16_000], Units::Kg);
        assert!(ramp(Some(16.0), Some(&one), 8, 2).is_empty());
    }

    #[test]
    fn coarse_kit_gives_the_steps_that_it_has() {
        let bells = Ladder::implements([8, 12, 16, 20, 24].map(|kg| kg * 1000).into(), Units::Kg);
        assert_eq!(sets(&ramp(Some(20.0), Some(&bells), 8, 1)), [(16.0, 6)]);
        assert!(ramp(Some(12.0), Some(&bells), 8, 1).is_empty(), "8 kg is no last step to 12");
        let twenties = Ladder::bar(20_000, &BTreeMap::from([(20_000, 4)]), false, Units::Kg);
        assert_eq!(sets(&ramp(Some(100.0), Some(&twenties), 5, 3)), [(20.0, 6), (60.0, 3)]);
    }

    #[test]
    fn isolation_and_long_sets_need_none() {
        assert!(is_wanted(Duty::Main, 5));
        assert!(!is_wanted(Duty::Isolation, 10));
        assert!(!is_wanted(Duty::Compound, 15));
    }

    #[test]
    fn a_single_step_lies_at_about_four_fifths() {
        assert_eq!(sets(&ramp(Some(100.0), Some(&bar()), 4, 1)), [(80.0, 4)]);
        assert_eq!(sets(&ramp(Some(60.0), Some(&bar()), 10, 1)), [(47.5, 6)]);
    }

    #[test]
    fn before_a_belt_comes_the_body_alone_and_then_half_of_it() {
        let plates = BTreeMap::from([(10_000, 2), (5000, 2), (2500, 2)]);
        let belt = Ladder::bar(0, &plates, true, Units::Kg).above_nothing().on_the_body();
        assert_eq!(sets(&ramp(Some(20.0), Some(&belt), 5, 2)), [(0.0, 4), (10.0, 2)]);
        assert_eq!(sets(&ramp(Some(20.0), Some(&belt), 5, 1)), [(0.0, 4)]);
        assert_eq!(sets(&ramp(Some(7.5), Some(&belt), 5, 2)), [(0.0, 4)]);
        assert!(ramp(Some(0.0), Some(&belt), 5, 2).is_empty());
    }

    proptest! {
        #[test]
        fn steps_keep_the_coach_s_bounds(rungs in 4_u32..140, reps in 1_u32..=12) {
            let ladder = bar();
            let Some(working) = ladder.at_most(20.0 + 2.5 * f64::from(rungs)) else { return Ok(()) };
            let ramp = ramp(Some(working), Some(&ladder), reps, 3);
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
