//! What a change can gain at most by what is not looked at yet: where that is too little, it is refused at once.
//!
//! Near a good week most numbers are worth about as much as they ever are, so that little is ahead, and a change that
//! loses more than that at first needs no look at the rest.

use super::Evaluator;
use super::hand::{DayInHand, Moving};
use super::pairing::DayPairing;
use super::tables::{ABLE, LATER, Marked, Movers, Node, Tables, Worth, at, signed};
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
    /// The same of those that each mover can raise or lower, by being raised or lowered so.
    moved_by: Vec<Rooms>,
    /// What the pairs of each day are worth.
    pairs: Vec<f64>,
}

/// What some numbers can gain at most, from each of the first stages on.
pub(super) type Rooms = [f64; LATER];

impl Weights {
    /// What a number at some place of its table can gain at most by being raised, by being lowered, and by any of these.
    #[inline]
    fn room(&self, number: usize, place: usize) -> [f64; 3] {
        let (now, most, [above, below]) =
            (self.scores[place], self.most[number], self.beyond[place]);
        [above.min(most) - now, below.min(most) - now, most - now]
    }
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
        self.moved_by.clear();
    }

    fn add_up(&mut self) {
        let mut sum = SLACK;
        for (from, room) in self.from.iter_mut().zip(&self.room).rev() {
            sum += room;
            *from = sum;
        }
    }

    /// A number can gain so much more by being raised, by being lowered, and by any of these.
    fn add(&mut self, tables: &Tables, number: usize, [raised, lowered, any]: [f64; 3]) {
        let stage = tables.kept[number].stage as usize;
        self.room[stage] += any;
        let Movers { raising, lowering, .. } = &tables.movers;
        for (movers, more) in [(raising, raised), (lowering, lowered)] {
            if more == 0.0 {
                continue;
            }
            let from: Rooms = std::array::from_fn(|place| if place <= stage { more } else { 0.0 });
            for mover in movers.of(number) {
                let rooms = &mut self.moved_by[*mover as usize];
                for (room, more) in rooms.iter_mut().zip(&from) {
                    *room += more;
                }
            }
        }
    }
}

impl Evaluator<'_> {
    /// Finds out what is ahead of the week by some weights, which changes are weighed with until another week is gone to.
    pub(in crate::search) fn look_ahead(&mut self, weights: &Weights) {
        let tables = self.tables;
        let room = vec![0.0; tables.stages.len() + 1];
        let pairs = (0..tables.days.len()).map(|day| self.worth_of_pairs(day, weights)).collect();
        let from = room.clone();
        let moved_by = vec![Rooms::default(); tables.movers.count];
        let mut ahead = Ahead { room, from, moved_by, pairs };
        for (number, (node, kept)) in self.nodes.iter().zip(&tables.kept).enumerate() {
            match kept.worth {
                Worth::Nothing => {}
                Worth::Table(place) => {
                    ahead.add(tables, number, weights.room(number, at(place, node.value)));
                }
                Worth::Readings(_) => ahead.add(tables, number, [f64::INFINITY; 3]),
            }
        }
        ahead.add_up();
        self.ahead = ahead;
    }

    /// The same where so few changes are taken that to keep it up is less work than it saves; else it is forgotten.
    pub(in crate::search) fn look_ahead_if(&mut self, pays: bool, weights: &Weights) {
        if !pays {
            self.ahead.forget();
        } else if self.ahead.room.is_empty() {
            self.look_ahead(weights);
        }
    }

    /// Keeps up with the change in hand, which was weighed to the end.
    pub(super) fn keep_up(&mut self, weights: &Weights) {
        if self.ahead.room.is_empty() {
            return;
        }
        for number in self.hand.numbers() {
            let Node { value, delta, place, .. } = self.nodes[number];
            let (before, after) = (at(place, value), at(place, value.wrapping_add(delta)));
            if delta != 0 && before.max(after) < weights.scores.len() {
                let [was, is] = [weights.room(number, before), weights.room(number, after)];
                self.ahead.add(
                    self.tables,
                    number,
                    [is[0] - was[0], is[1] - was[1], is[2] - was[2]],
                );
            }
        }
        for DayInHand { day, gain, .. } in &self.hand.days {
            self.ahead.pairs[*day] += gain;
        }
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

    /// What the change in hand can gain at most by the numbers from each of the first stages on, and by pairs, before they are
    /// looked for.
    pub(super) fn ahead_of_change(&self, weights: &Weights) -> (Rooms, f64) {
        let Ahead { moved_by, pairs, .. } = &self.ahead;
        if moved_by.is_empty() {
            return ([f64::INFINITY; LATER], f64::INFINITY);
        }
        let mut rooms = [SLACK; LATER];
        let mut add = |mover: usize| {
            for (room, more) in rooms.iter_mut().zip(&moved_by[mover]) {
                *room += more;
            }
        };
        for Moving { pick, steps: [once, further] } in &self.hand.picks {
            add(Movers::of_pick(*pick, once.wrapping_add(*further) < 0));
        }
        let mut of_pairs = 0.0;
        for day in self.hand.days.iter().filter(|day| self.is_paired_anew(day)) {
            let able = signed(self.able[day.day].len()) + day.more[ABLE];
            of_pairs += weights.most_of_pair[day.day] * f64::from(able / 2) - pairs[day.day];
            add(self.tables.movers.of_day(day.day));
        }
        (rooms, of_pairs)
    }
}
