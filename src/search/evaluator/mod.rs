//! The incremental evaluator: what a week is worth, and what a change would make of it, without making it.
//!
//! A model's rows are compiled into whole numbers, each a sum of decisions with a table of what it is worth
//! (`compile`, `sums`, `reading`, `tables`). A change moves some numbers; its gain is looked up at their values before
//! and after. `rows` counts a week by the rows themselves, from nothing: exact, slow, and what the tables are checked
//! against.

mod ahead;
mod compile;
mod days;
mod hand;
mod kinds;
mod lists;
mod memo;
mod pairing;
mod reading;
pub(super) mod rows;
mod score;
mod settling;
mod sums;
mod tables;
#[cfg(test)]
mod tests;
mod weights;

use smallvec::SmallVec;

use self::ahead::Ahead;
use self::hand::{DayInHand, Hand, Moving};
pub(super) use self::memo::Memos;
use self::pairing::{Able, Couples, DayLoad, Way};
pub(super) use self::score::{ROUNDING, Score};
pub(super) use self::tables::Tables;
use self::tables::{ABLE, FURTHER, ITEMS, LED, ROUNDS, SECONDS, SETS, at, less};
use self::tables::{BREAKING, COSTS, LATER, Node, PAIRED, REST, SILENT, SOURCES, Worth};
pub(super) use self::weights::Weights;
use crate::program::Var;

/// More points than numbers of the first stages gain, or than pairs do. What else they gain is hoped for, so a change is refused
/// in their midst only if it would be later.
const MOST_POINTS: f64 = 400.0;

/// Picks with their new sets; none means that a pick goes.
pub(super) type Change = SmallVec<[(usize, u32); 4]>;

/// The picks that are done on a day.
pub(super) type Done = SmallVec<[usize; 12]>;

/// A week, and the change in hand.
#[derive(Clone)]
pub(super) struct Evaluator<'t> {
    tables: &'t Tables,
    nodes: Vec<Node>,
    /// Sets of each pick; none is not done.
    sets: Vec<u32>,
    /// What is done on each day.
    done: Vec<Done>,
    loads: Vec<DayLoad>,
    /// What can be paired on each day.
    able: Vec<Able>,
    /// How each day is paired.
    ways: Vec<Way>,
    /// Who is paired on each day that asks for it.
    couples: Vec<Couples>,
    /// How many on each day lead it and are not paired.
    led: Vec<i32>,
    memos: Memos,
    score: Score,
    ahead: Ahead,
    hand: Hand,
}

impl<'t> Evaluator<'t> {
    /// An empty week.
    pub(super) fn new(tables: &'t Tables) -> Evaluator<'t> {
        Evaluator::knowing(tables, Memos::default())
    }

    /// The same with pairs that were looked for before.
    pub(super) fn knowing(tables: &'t Tables, mut memos: Memos) -> Evaluator<'t> {
        let days = tables.days.len();
        memos.for_days(days);
        let mut evaluator = Evaluator {
            tables,
            nodes: tables.nodes.clone(),
            sets: vec![0; tables.picks.len()],
            done: vec![Done::new(); days],
            loads: vec![DayLoad::default(); days],
            able: vec![Able::new(); days],
            ways: vec![Way::EMPTY; days],
            couples: vec![Couples::default(); days],
            led: vec![0; days],
            memos,
            score: tables.constant,
            ahead: Ahead::default(),
            hand: Hand::new(tables),
        };
        for (number, node) in tables.nodes.iter().enumerate() {
            evaluator.score.add(&tables.score(number, node.value), 1.0);
        }
        evaluator
    }

    /// Another week, from an empty one on, so that no rounding is carried over.
    pub(super) fn go_to(&mut self, sets: &[u32]) {
        let memos = std::mem::take(&mut self.memos);
        *self = Evaluator::knowing(self.tables, memos);
        let done = sets.iter().copied().enumerate().filter(|(_, sets)| *sets > 0);
        self.make(&done.collect());
    }

    /// The pairs that were looked for so far.
    pub(super) fn into_memos(self) -> Memos {
        self.memos
    }

    /// Sets of each pick; none is not done.
    pub(super) fn sets(&self) -> &[u32] {
        &self.sets
    }

    /// What is done on each day.
    pub(super) fn done(&self) -> &[Done] {
        &self.done
    }

    /// What the week is worth.
    pub(super) fn score(&self) -> Score {
        self.score
    }

    /// By how many seconds a change lengthens a day, pairs apart.
    pub(super) fn seconds_more(&self, day: usize, change: &Change) -> i32 {
        let on_day = change.iter().filter(|(pick, _)| self.tables.pick(*pick).day as usize == day);
        let seconds = on_day.map(|(pick, to)| {
            let [once, each] = self.tables.pick(*pick).seconds;
            let was = self.sets[*pick];
            let items = i32::from(*to > 0) - i32::from(was > 0);
            items * once + (count(*to) - count(was)) * each
        });
        seconds.sum()
    }

    /// The value of a variable that is a sum.
    pub(super) fn sum(&self, var: Var) -> Option<f64> {
        let (node, [factor, constant]) = self.tables.linear(var)?;
        Some(factor * f64::from(self.nodes[node].value) + constant)
    }

    /// The same with the change in hand.
    pub(super) fn sum_in_hand(&self, var: Var) -> Option<f64> {
        let (node, [factor, constant]) = self.tables.linear(var)?;
        Some(factor * f64::from(self.now(node)) + constant)
    }

    /// Makes a change, whatever it is worth; not where it overfills a day.
    pub(super) fn make(&mut self, change: &Change) {
        if !self.load_days(change) {
            return;
        }
        for stage in BREAKING..LATER {
            self.move_picks(stage);
        }
        self.hand.clear_later();
        self.move_later();
        self.pair_days(change);
        for stage in 0..self.tables.stages.len() {
            self.choose(stage);
            self.hand_on(stage);
        }
        self.commit(change);
    }

    /// What a change gains, which stays in hand; `None` as soon as it is known to gain less than is wanted. All that
    /// it may yet save or bring is hoped for until everything is looked at.
    pub(super) fn weigh(
        &mut self,
        change: &Change,
        weights: &Weights,
        wanted: f64,
        hope: f64,
    ) -> Option<f64> {
        if !self.load_days(change) {
            return None;
        }
        let (ahead, of_pairs) = self.ahead_of_change(weights);
        if self.gain_of_picks(0.0, weights) + ahead[BREAKING] + of_pairs < wanted {
            return None;
        }
        self.move_picks(BREAKING);
        let mut gain = self.gain(BREAKING, weights, wanted - hope - MOST_POINTS);
        if gain + hope < wanted {
            return None;
        }
        gain = self.gain_of_picks(gain, weights);
        let hope_yet = hope + MOST_POINTS;
        for stage in [COSTS, REST, SOURCES, PAIRED] {
            if gain + hope_yet.min(ahead[stage] + of_pairs) < wanted {
                return None;
            }
            self.move_picks(stage);
            if stage < PAIRED {
                gain += self.gain(stage, weights, f64::MIN);
            }
        }
        self.hand.clear_later();
        self.pair_days(change);
        gain += self.gain_of_pairs(weights) + self.gain(PAIRED, weights, f64::MIN);
        if gain + hope.min(ahead[SILENT]) < wanted {
            return None;
        }
        self.move_picks(SILENT);
        for stage in [SOURCES, PAIRED, SILENT] {
            self.hand_on(stage);
        }
        self.move_later();
        for stage in LATER..self.tables.stages.len() {
            self.choose(stage);
            gain += self.gain(stage, weights, f64::MIN);
            if gain + hope.min(self.ahead.from(stage + 1)) < wanted {
                return None;
            }
            self.hand_on(stage);
        }
        (gain >= wanted).then_some(gain)
    }

    /// What the picks of the change in hand gain by themselves, after some gain.
    fn gain_of_picks(&self, mut gain: f64, weights: &Weights) -> f64 {
        for Moving { pick, steps } in &self.hand.picks {
            let [once, further] = steps.map(f64::from);
            let [each, set] = weights.picks[*pick];
            gain += once * each + further * set;
        }
        gain
    }

    /// What the change in hand, which was weighed to the end, makes of the week's worth.
    pub(super) fn score_in_hand(&self) -> Score {
        let tables = self.tables;
        let mut score = self.score;
        for number in self.hand.numbers() {
            let Node { value, delta, .. } = self.nodes[number];
            let [before, after] = [value, value.wrapping_add(delta)];
            match tables.kept[number].worth {
                Worth::Table(place) if delta != 0 => {
                    let [before, after] = [before, after].map(|value| at(place, value));
                    score.change(&tables.scores[before], &tables.scores[after]);
                }
                Worth::Readings(_) if delta != 0 => {
                    score.change(&tables.score(number, before), &tables.score(number, after));
                }
                _ => {}
            }
        }
        for Moving { pick, steps } in &self.hand.picks {
            let [once, further] = steps.map(f64::from);
            score.add(&tables.pick_scores[*pick][0], once);
            score.add(&tables.pick_scores[*pick][1], further);
        }
        for DayInHand { day, load, .. } in &self.hand.days {
            score.add(&tables.pair_scores[*day], f64::from(load.pairs - self.loads[*day].pairs));
        }
        for (var, by) in &self.hand.marks {
            score.add(&tables.mark_scores[*var], f64::from(*by));
        }
        score
    }

    /// Makes the change in hand, which was weighed to the end by some weights, and keeps up what is ahead by these.
    pub(super) fn take(&mut self, change: &Change, weights: &Weights) {
        self.keep_up(weights);
        self.settle(change);
    }

    /// Makes the change in hand, which was weighed to the end.
    pub(super) fn commit(&mut self, change: &Change) {
        self.ahead.forget();
        self.settle(change);
    }

    fn settle(&mut self, change: &Change) {
        self.score = self.score_in_hand();
        for number in self.hand.numbers() {
            let node = &mut self.nodes[number];
            node.value += node.delta;
            node.delta = 0;
        }
        for DayInHand { day, load, .. } in &self.hand.days {
            self.loads[*day] = *load;
        }
        for (day, way, couples) in &self.hand.ways {
            self.ways[*day] = *way;
            self.couples[*day] = *couples;
        }
        for (pick, to) in change {
            self.keep_able(*pick, *to);
            let done = &mut self.done[self.tables.picks[*pick].day as usize];
            match (self.sets[*pick] > 0, *to > 0) {
                (false, true) => done.push(*pick),
                (true, false) => done.retain(|other| other != pick),
                _ => {}
            }
            self.sets[*pick] = *to;
        }
    }

    /// Takes a new change in hand: what it makes of picks and days. Whether no day is overfilled.
    fn load_days(&mut self, change: &Change) -> bool {
        self.hand.clear();
        for (pick, to) in change {
            let was = self.tables.standing(*pick, self.sets[*pick]);
            let more = less(&self.tables.standing(*pick, *to), &was);
            self.hand.picks.push(Moving { pick: *pick, steps: [more[ITEMS], more[FURTHER]] });
            let day = self.hand.day(self.tables.picks[*pick].day as usize, &self.loads);
            day.is_moved |= (more[LED] | more[ABLE] | more[ROUNDS]) != 0;
            day.more.iter_mut().zip(more).for_each(|(sum, more)| *sum = sum.wrapping_add(more));
        }
        for DayInHand { load, more, .. } in &mut self.hand.days {
            load.items += more[ITEMS];
            load.sets += more[SETS];
            load.seconds += more[SECONDS];
        }
        self.hand.days.iter().all(|day| day.load.items <= self.tables.most_items)
    }
}

/// A number of sets, which is small.
fn count(sets: u32) -> i32 {
    sets.cast_signed()
}
