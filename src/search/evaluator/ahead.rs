//! What a change can gain at most by what is not looked at yet: where that is too little, it is refused at once.
//!
//! Near a good week most numbers are worth about as much as they ever are, so that little is ahead, and a change that
//! loses more than that at first needs no look at the rest.

use super::Evaluator;
use super::hand::DayInHand;
use super::pairing::DayPairing;
use super::tables::{Marked, Worth, at, signed};
use super::weights::Weights;

/// What sums may be off by after thousands of steps: more than that must be missing.
const SLACK: f64 = 1e-6;

/// What is ahead of a week that is changed step by step, by the weights of one phase.
#[derive(Clone, Default)]
pub(super) struct Ahead {
    /// What the numbers of each stage can gain at most; nothing where it is not known.
    room: Vec<f64>,
    /// The same of a stage and all after it.
    from: Vec<f64>,
    /// What the pairs of each day are worth.
    pairs: Vec<f64>,
}

impl Ahead {
    /// What numbers from a stage on can gain at most.
    #[inline]
    pub(super) fn from(&self, stage: usize) -> f64 {
        self.from.get(stage).copied().unwrap_or(f64::INFINITY)
    }

    pub(super) fn forget(&mut self) {
        self.room.clear();
        self.from.clear();
    }

    /// Keeps up with a change that was weighed to the end.
    pub(super) fn keep_up(&mut self, gains: &[f64], days: &[DayInHand]) {
        for (room, gain) in self.room.iter_mut().zip(gains) {
            *room -= gain;
        }
        for DayInHand { day, gain, .. } in days {
            if let Some(pairs) = self.pairs.get_mut(*day) {
                *pairs += gain;
            }
        }
        self.add_up();
    }

    fn add_up(&mut self) {
        let mut sum = SLACK;
        for (from, room) in self.from.iter_mut().zip(&self.room).rev() {
            sum += room;
            *from = sum;
        }
    }
}

impl Evaluator<'_> {
    /// Finds out what is ahead of the week by some weights, which changes are weighed with until another week is gone to.
    pub(in crate::search) fn look_ahead(&mut self, weights: &Weights) {
        let tables = self.tables;
        let mut room = vec![0.0; tables.stages.len() + 1];
        for ((node, kept), most) in self.nodes.iter().zip(&tables.kept).zip(&weights.most) {
            room[kept.stage as usize] += match kept.worth {
                Worth::Nothing => 0.0,
                Worth::Table(place) => most - weights.scores[at(place, node.value)],
                Worth::Readings(_) => f64::INFINITY,
            };
        }
        let pairs = (0..tables.days.len()).map(|day| self.worth_of_pairs(day, weights)).collect();
        let from = room.clone();
        self.ahead = Ahead { room, from, pairs };
        self.ahead.add_up();
    }

    fn worth_of_pairs(&self, day: usize, weights: &Weights) -> f64 {
        let pairs = weights.pairs[day] * f64::from(self.loads[day].pairs);
        if self.tables.marked[day] == Marked::Nothing {
            return pairs;
        }
        let marks = self.couples[day].all().iter().flat_map(|couple| self.marks_of(day, *couple));
        pairs + marks.map(|var| weights.marks[var]).sum::<f64>()
    }

    /// Whether a day of the change in hand is paired anew.
    pub(super) fn is_paired_anew(&self, day: &DayInHand) -> bool {
        let before = &self.loads[day.day];
        day.is_moved
            || before.is_chosen
            || DayPairing::is_crowded(&day.load) != DayPairing::is_crowded(before)
    }

    /// What the pairs of the change in hand can gain at most, before they are looked for.
    pub(super) fn pairs_ahead(&self, weights: &Weights) -> f64 {
        let of_day = |day: &DayInHand| {
            let now = self.ahead.pairs.get(day.day).copied().unwrap_or_default();
            let able = signed(self.able[day.day].len()) + day.able;
            weights.most_of_pair[day.day] * f64::from(able / 2) - now
        };
        self.hand.days.iter().filter(|day| self.is_paired_anew(day)).map(of_day).sum()
    }
}
