//! From one week to the next for one exercise: repetitions first, then the load, by steps the kit really has.

use crate::input::catalog::Entry;
use crate::request::dose::{Duty, Span};
use crate::strength::ladder::Ladder;

/// The smallest raise that is worth it, as a factor (RX-04: 2-10 %).
const LEAST_RAISE: f64 = 1.02;
/// The largest raise in a week, as a factor (RX-04: 2-10 %).
pub const MOST_RAISE: f64 = 1.10;
/// Repetitions that are added to the range before a step of more than a tenth. Common practice: 3 to 4.
pub const WIDEN: u32 = 3;
/// Holds grow by this many seconds, carries by this many meters. Common practice.
pub const HOLD_STEP: u32 = 5;
/// The longest hold in seconds. Common practice.
const LONGEST_HOLD: u32 = 60;

/// Weeks at a bound set by the minutes before the load is raised instead. Common practice.
const HELD_WEEKS: u32 = 2;

/// The next load for an exercise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextLoad {
    /// In kilograms.
    pub load_kg: f64,
    /// Whether the kit's step is more than a tenth, so that repetitions come first (EQ-07).
    pub is_wide: bool,
}

/// The next load up: the lightest that is 2 to 10 % heavier (RX-04), else the kit's next step; `None` at the
/// heaviest or where it would pass the cap.
#[must_use]
pub fn next_load(load_kg: f64, ladder: &Ladder, cap_kg: Option<f64>) -> Option<NextLoad> {
    let worth_it = ladder.at_least(load_kg * LEAST_RAISE);
    let within = worth_it.filter(|next| *next <= load_kg * MOST_RAISE + 1e-9);
    let next = within.or_else(|| ladder.next_above(load_kg))?;
    cap_kg
        .is_none_or(|cap| next <= cap)
        .then_some(NextLoad { load_kg: next, is_wide: next > load_kg * MOST_RAISE + 1e-9 })
}

/// The most load in the week after one: a tenth more, or the kit's next step.
#[must_use]
pub fn most_after(load_kg: f64, ladder: &Ladder) -> f64 {
    (load_kg * MOST_RAISE).max(ladder.next_above(load_kg).unwrap_or(load_kg)) + 1e-9
}

/// What a missed reserve takes off the load: two hundredths for each half point of effort, so four for each repetition
/// (RM-23, Helms et al. 2018; the figure from memory).
const OFF_THE_MARK: f64 = 0.04;

/// The load of the next set where one repetition fewer was left than planned; `None` under the lightest of the place.
#[must_use]
pub fn eased(load_kg: f64, ladder: &Ladder) -> Option<f64> {
    ladder.at_most(load_kg * (1.0 - OFF_THE_MARK) + 1e-9)
}

/// Where an exercise stands in its double progression.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    /// The range of a set.
    pub low: u32,
    /// The top of the range.
    pub high: u32,
    /// What a set asks for this week.
    pub amount: u32,
    /// The load this week, where it is known.
    pub load_kg: Option<f64>,
    /// Where the load is the client's own to find: what every set had reached before it goes up, in the week that it does.
    pub step_from: Option<u32>,
    duty: Duty,
    most: u32,
    held: u32,
}

impl Track {
    /// The start: the low end of the range at the first load.
    #[must_use]
    pub fn start(
        entry: &Entry,
        duty: Duty,
        span: Span,
        planned: u32,
        load_kg: Option<f64>,
    ) -> Track {
        let low = span.low.min(planned);
        let high = match duty {
            // Speed is what grows, not the number.
            Duty::Explosive => span.aim.max(planned),
            Duty::Hold => span.high.max(planned).min(LONGEST_HOLD.max(planned)),
            _ => span.high.max(planned),
        };
        let own_most = entry.reps.last().copied().unwrap_or(high);
        let most = own_most.max(high);
        Track { low, high, amount: low, load_kg, step_from: None, duty, most, held: 0 }
    }

    /// How much a set grows at a time.
    #[must_use]
    pub const fn step(&self) -> u32 {
        match self.duty {
            Duty::Hold | Duty::Carry => HOLD_STEP,
            _ => 1,
        }
    }

    /// The top that must be reached before a step of more than a tenth.
    #[must_use]
    pub fn widened_top(&self) -> u32 {
        (self.high + WIDEN * self.step()).min(self.most.max(self.high))
    }

    /// A week's progress: one more in each set up to the top, then the next load from the low end again.
    ///
    /// Where there is something to load and the load is the client's own to find, the next load is one step above what
    /// is written down. Without anything to load the top is kept and the plan's `next` line says what to do. `most`
    /// bounds the amount where the session's minutes do; held there for two weeks, a load within a tenth is taken all
    /// the same.
    pub fn advance(&mut self, ladder: Option<&Ladder>, cap_kg: Option<f64>, most: Option<u32>) {
        let next = match (self.load_kg, ladder) {
            (Some(load), Some(ladder)) if self.duty != Duty::Explosive => {
                next_load(load, ladder, cap_kg)
            }
            _ => None,
        };
        let is_wide = next.is_some_and(|next| next.is_wide);
        let top = if is_wide { self.widened_top() } else { self.high };
        let bound = most.map_or(top, |most| most.max(self.low).min(top));
        if self.amount < bound {
            self.amount = (self.amount + self.step()).min(bound);
            self.held = 0;
            return;
        }
        self.amount = bound;
        self.held += 1;
        let ready = bound == top || (!is_wide && self.held >= HELD_WEEKS);
        let is_own = self.load_kg.is_none() && ladder.is_some() && self.duty != Duty::Explosive;
        if ready && (next.is_some() || is_own) {
            self.step_from = is_own.then_some(self.amount);
            self.load_kg = next.map(|next| next.load_kg);
            self.amount = self.low;
            self.held = 0;
        }
    }

    /// A new block, after its easier week: where two repetitions more than at the start were done, the load is a step up and
    /// the repetitions begin again (RX-04: one or two over the target earn 2-10 %); what is fast is a step up.
    pub fn begin_block(&mut self, ladder: Option<&Ladder>, cap_kg: Option<f64>) {
        const EARNED: u32 = 2;
        let fast = self.duty == Duty::Explosive;
        let earned = self.step() == 1 && self.amount >= self.low + EARNED;
        let next = self.load_kg.zip(ladder).and_then(|(kg, ladder)| next_load(kg, ladder, cap_kg));
        if let Some(next) = next.filter(|next| !next.is_wide && (fast || earned)) {
            self.load_kg = Some(next.load_kg);
            self.amount = self.low;
            self.held = 0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Units;
    use std::collections::BTreeMap;

    fn bar(smallest: u32) -> Ladder {
        let plates = BTreeMap::from([(20_000, 4), (10_000, 4), (5000, 4), (smallest, 6)]);
        Ladder::bar(20_000, &plates, false, Units::Kg)
    }

    fn dumbbells(masses: &[u32]) -> Ladder {
        Ladder::implements(masses.iter().map(|kg| kg * 1000).collect(), Units::Kg)
    }

    /// RX-04 (ACSM 2009): from 60 kg to 61.2-66.0, with 2.5 kg steps 62.5 or 65. RX-13 (NSCA Essentials): a novice's 40 kg
    /// press to 41-42 kg where the kit has it. EQ-07: 10 to 12.5 kg dumbbells is a quarter more, so repetitions first.
    #[test]
    fn steps_give_the_handbook_s_examples() {
        let next = |load: f64, ladder: &Ladder| next_load(load, ladder, None).unwrap();
        assert_eq!(next(60.0, &bar(1250)), NextLoad { load_kg: 62.5, is_wide: false }, "RX-04");
        assert_eq!(next(40.0, &bar(500)), NextLoad { load_kg: 41.0, is_wide: false }, "RX-13");
        let rack = Ladder::implements(vec![10_000, 12_500], Units::Kg);
        assert_eq!(next(10.0, &rack), NextLoad { load_kg: 12.5, is_wide: true }, "EQ-07");
    }

    #[test]
    fn caps_and_the_end_of_the_rack_stop_the_load() {
        assert_eq!(next_load(60.0, &bar(1250), Some(61.0)), None);
        assert_eq!(next_load(24.0, &dumbbells(&[20, 24]), None), None);
    }

    fn track(load_kg: Option<f64>) -> Track {
        let (duty, step_from) = (Duty::Main, None);
        Track { low: 8, high: 12, amount: 8, load_kg, step_from, duty, most: 20, held: 0 }
    }

    fn course(mut track: Track, ladder: Option<&Ladder>, weeks: usize) -> Vec<(u32, Option<f64>)> {
        (0..weeks)
            .map(|_| {
                let now = (track.amount, track.load_kg);
                track.advance(ladder, None, None);
                now
            })
            .collect()
    }

    #[test]
    fn repetitions_rise_to_the_top_and_then_the_load() {
        let weeks = course(track(Some(50.0)), Some(&bar(1250)), 6);
        let want = [(8, 50.0), (9, 50.0), (10, 50.0), (11, 50.0), (12, 50.0), (8, 52.5)];
        assert_eq!(weeks, want.map(|(reps, load)| (reps, Some(load))));
    }

    /// RX-04 (ACSM 2009): 2-10 % more once one or two repetitions over the target are done at the load.
    #[test]
    fn a_new_block_begins_with_the_load_that_the_last_has_earned() {
        let begun = |amount: u32, ladder: &Ladder| {
            let mut track = Track { amount, ..track(Some(50.0)) };
            track.begin_block(Some(ladder), None);
            (track.amount, track.load_kg)
        };
        assert_eq!(begun(10, &bar(1250)), (8, Some(52.5)), "RX-04");
        assert_eq!(begun(9, &bar(1250)), (9, Some(50.0)));
        assert_eq!(begun(10, &dumbbells(&[50, 60])), (10, Some(50.0)));
        let mut fast = Track { duty: Duty::Explosive, ..track(Some(50.0)) };
        fast.begin_block(Some(&bar(1250)), Some(51.0));
        assert_eq!(fast.load_kg, Some(50.0), "the cap holds");
        fast.begin_block(Some(&bar(1250)), None);
        assert_eq!(
            (fast.amount, fast.load_kg),
            (8, Some(52.5)),
            "what is fast does not grow by repetitions"
        );
    }

    #[test]
    fn a_wide_step_waits_for_three_more_repetitions() {
        let weeks = course(track(Some(10.0)), Some(&dumbbells(&[10, 12])), 9);
        assert_eq!(weeks[7], (15, Some(10.0)));
        assert_eq!(weeks[8], (8, Some(12.0)));
    }

    /// RM-23 (Helms et al. 2018, from memory): 100 kg, effort 8 wanted and 9 felt, so 96 kg for the next set.
    #[test]
    fn a_missed_reserve_takes_four_hundredths_off() {
        assert_eq!(eased(100.0, &dumbbells(&[94, 96, 98])), Some(96.0), "RM-23");
        assert_eq!(eased(100.0, &bar(1250)), Some(95.0), "rounded down to what the bar can make");
        assert_eq!(eased(20.0, &bar(500)), None);
    }

    #[test]
    fn an_unknown_load_goes_up_by_the_client_s_own_step() {
        let mut own = track(None);
        for _ in 0..4 {
            own.advance(Some(&bar(1250)), None, None);
        }
        assert_eq!((own.amount, own.step_from), (12, None));
        own.advance(Some(&bar(1250)), None, None);
        assert_eq!((own.amount, own.load_kg, own.step_from), (8, None, Some(12)));
    }

    #[test]
    fn without_anything_to_load_the_top_is_kept() {
        assert_eq!(course(track(None), None, 9)[8], (12, None));
    }

    #[test]
    fn planned_minutes_hold_the_repetitions_back() {
        let mut held = track(Some(50.0));
        for _ in 0..3 {
            held.advance(Some(&bar(1250)), None, Some(10));
        }
        assert_eq!((held.amount, held.load_kg), (10, Some(50.0)));
        held.advance(Some(&bar(1250)), None, Some(10));
        assert_eq!((held.amount, held.load_kg), (8, Some(52.5)));
    }
}
