//! The last step of a search: every small change of a week is weighed, and every one that makes room for another on the
//! same day, until none is left that gains.
//!
//! Annealing draws at random and stops where it is cold; what it leaves is a set in the wrong place, or two exercises
//! that only help when both change.

use rayon::prelude::*;
use smallvec::smallvec;

use super::{Annealer, Incumbent};
use crate::search::evaluator::{Change, Weights};

/// A change that loses less than this, in points, is tried with every other one of its days.
const LOSS: f64 = 45.0;
/// So many of them, those that lose least.
const FIRSTS: usize = 40;
/// Steps of a polish, at most.
const STEPS: usize = 40;
/// Less is rounding.
const LEAST_GAIN: f64 = 1e-3;

impl Annealer<'_> {
    /// The week after every change, and every two of a day, that gain.
    pub(in crate::search) fn polished(mut self) -> Incumbent {
        let weights = self.landscape.weights(&self.landscape.tuning.cooling);
        for _ in 0..STEPS {
            if self.landscape.turn.is_over() {
                break;
            }
            let mut singles = self.weighed(&self.all_days(), &weights, -LOSS);
            singles.sort_by(|one, other| other.0.total_cmp(&one.0));
            let best = match singles.first() {
                Some((gain, change)) if *gain > LEAST_GAIN => vec![change.clone()],
                _ => match self.best_pair(&singles, &weights) {
                    Some(pair) => pair.into(),
                    None => break,
                },
            };
            for change in &best {
                self.evaluator.make(change);
            }
        }
        let sets = self.evaluator.sets().to_vec();
        self.incumbent(&sets)
    }

    fn all_days(&self) -> Vec<usize> {
        (0..self.evaluator.done().len()).collect()
    }

    /// The two changes that gain most together, the first of which loses little alone.
    fn best_pair(&self, singles: &[(f64, Change)], weights: &Weights) -> Option<[Change; 2]> {
        let firsts: Vec<&(f64, Change)> = singles.iter().take(FIRSTS).collect();
        let second = |(loss, first): &&(f64, Change)| -> Option<(f64, [Change; 2])> {
            let mut after = self.clone();
            after.evaluator.make(first);
            let days = after.days_of(first);
            let seconds = after.weighed(&days, weights, LEAST_GAIN - loss);
            let best = seconds.into_iter().max_by(|one, other| one.0.total_cmp(&other.0))?;
            Some((loss + best.0, [first.clone(), best.1]))
        };
        let pairs: Vec<Option<(f64, [Change; 2])>> = firsts.par_iter().map(second).collect();
        // The first of the best, wherever it was weighed.
        let mut best: Option<(f64, [Change; 2])> = None;
        for pair in pairs.into_iter().flatten() {
            if best.as_ref().is_none_or(|(gain, _)| pair.0 > gain + LEAST_GAIN) {
                best = Some(pair);
            }
        }
        best.filter(|(gain, _)| *gain > LEAST_GAIN).map(|(_, pair)| pair)
    }

    fn days_of(&self, change: &Change) -> Vec<usize> {
        let tables = &self.landscape.tables;
        let mut days: Vec<usize> =
            change.iter().map(|(pick, _)| tables.pick(*pick).day as usize).collect();
        days.sort_unstable();
        days.dedup();
        days
    }

    /// The changes of some days that gain more than is wanted, with their gains.
    fn weighed(&mut self, days: &[usize], weights: &Weights, wanted: f64) -> Vec<(f64, Change)> {
        let hope = self.landscape.tuning.cooling.most_gain(&self.evaluator.score());
        self.evaluator.look_ahead(weights);
        let mut found = Vec::new();
        for day in days {
            let changes = self.changes(*day);
            self.landscape.turn.takes(changes.len() as u64);
            for change in changes {
                if let Some(gain) = self.evaluator.weigh(&change, weights, wanted, hope) {
                    found.push((gain, change));
                }
            }
        }
        found
    }

    /// Other sets of what is done on a day, one less, one more, one for another, one of another day.
    fn changes(&self, day: usize) -> Vec<Change> {
        let (week, tables) = (&self.evaluator, &self.landscape.tables);
        let sets_of = |pick: usize| {
            let [least, most] = tables.pick(pick).sets;
            least..=most
        };
        let done = &week.done()[day];
        let open = |pick: &&usize| week.sets()[**pick] == 0;
        let mut changes: Vec<Change> = Vec::new();
        for out in done {
            changes.push(smallvec![(*out, 0)]);
            let other = sets_of(*out).filter(|sets| *sets != week.sets()[*out]);
            changes.extend(other.map(|sets| -> Change { smallvec![(*out, sets)] }));
            let candidate = tables.pick(*out).candidate as usize;
            for into in self.proposer.neighbors.days_of[candidate].iter().filter(open) {
                let moved =
                    sets_of(*into).map(|sets| -> Change { smallvec![(*out, 0), (*into, sets)] });
                changes.extend(moved);
            }
        }
        for into in self.proposer.neighbors.on_day[day].iter().filter(open) {
            for sets in sets_of(*into) {
                changes.push(smallvec![(*into, sets)]);
                changes.extend(
                    done.iter().map(|out| -> Change { smallvec![(*out, 0), (*into, sets)] }),
                );
            }
        }
        changes
    }
}
