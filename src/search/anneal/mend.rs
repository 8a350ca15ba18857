//! What a rework begins with: of the week as it was, as much as the new rows let stand.
//!
//! Runs from the old week are warm, and few of them come back to it. Here a beam of weeks, each with one change more
//! than those before, goes through what a coach tries first: a set less, an exercise less, a set more elsewhere.

use std::collections::BTreeSet;

use smallvec::smallvec;

use super::{Annealer, Incumbent, Landscape};
use crate::search::evaluator::{Change, Evaluator, Weights};

impl Annealer<'_> {
    /// The best week on the way from the plan that is reworked, with so many weeks at each of so many steps; none
    /// without steps, nor where nothing is reworked.
    pub(in crate::search) fn mended(
        landscape: &Landscape,
        [width, steps]: [usize; 2],
    ) -> Option<Incumbent> {
        if steps == 0 || landscape.start.iter().all(|sets| *sets == 0) {
            return None;
        }
        let weights = landscape.weights(&landscape.tuning.cooling);
        let start = Annealer::at_start(landscape);
        let mut best = start.evaluator.clone();
        let mut seen = BTreeSet::from([landscape.start.clone()]);
        let mut beam = vec![best.clone()];
        for _ in 0..steps {
            let changes = start.changes_of_all(&mut beam, &weights);
            if landscape.turn.is_over() {
                break;
            }
            let other = |(_, place, change): (f64, usize, Change)| {
                let mut sets = beam[place].sets().to_vec();
                change.iter().for_each(|(pick, to)| sets[*pick] = *to);
                seen.insert(sets).then(|| after(&beam[place], &change))
            };
            let next: Vec<Evaluator> = changes.into_iter().filter_map(other).take(width).collect();
            for week in &next {
                if week.score().beats(&best.score()) {
                    best.clone_from(week);
                }
            }
            beam = next;
        }
        Some(start.incumbent(best.sets()))
    }

    /// Every change of a set or an exercise of some weeks, with the worth and the place of the week, the best first.
    fn changes_of_all(
        &self,
        weeks: &mut [Evaluator],
        weights: &Weights,
    ) -> Vec<(f64, usize, Change)> {
        let mut found: Vec<(f64, usize, Change)> = Vec::new();
        for (place, week) in weeks.iter_mut().enumerate() {
            let worth = weights.of(&week.score());
            let changes = self.changes_of_done(week.sets());
            self.landscape.turn.takes(changes.len() as u64);
            for change in changes {
                let gain = week.weigh(&change, weights, f64::NEG_INFINITY, f64::INFINITY);
                found.extend(gain.map(|gain| (worth + gain, place, change)));
            }
        }
        found.sort_by(|one, other| other.0.total_cmp(&one.0));
        found
    }

    /// None or other sets of each exercise that a week has.
    fn changes_of_done(&self, sets: &[u32]) -> Vec<Change> {
        let done = (0..sets.len()).filter(|pick| sets[*pick] > 0);
        let of = |pick: usize| {
            let [least, most] = self.landscape.tables.pick(pick).sets;
            let other = (least..=most).filter(move |to| *to != sets[pick]);
            std::iter::once(0).chain(other).map(move |to| -> Change { smallvec![(pick, to)] })
        };
        done.flat_map(of).collect()
    }
}

/// A week with a change made.
fn after<'t>(week: &Evaluator<'t>, change: &Change) -> Evaluator<'t> {
    let mut week = week.clone();
    week.make(change);
    week
}
