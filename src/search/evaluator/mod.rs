//! The incremental evaluator: what a week is worth, and what a change would make of it, without making it.
//!
//! A model's rows are compiled into whole numbers, each a sum of decisions with a table of what it is worth
//! (`compile`, `sums`, `reading`, `tables`). A change moves some numbers; its gain is looked up at their values before
//! and after. `rows` counts a week by the rows themselves, from nothing: exact, slow, and what the tables are checked
//! against.

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

use self::hand::Hand;
pub(super) use self::memo::Memos;
use self::pairing::{Able, Couples, DayLoad, Way};
pub(super) use self::score::{ROUNDING, Score};
pub(super) use self::tables::Tables;
use self::tables::{BREAKING, Node, PAIRED, REST};
pub(super) use self::weights::Weights;
use crate::program::Var;

/// More points than numbers of the first stage gain. What else they gain is hoped for, so a change is refused in their midst
/// only if it would be later.
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
            hand: Hand::new(tables),
        };
        for node in &tables.nodes {
            evaluator.score.add(&tables.score(node, node.value), 1.0);
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
        for stage in [BREAKING, PAIRED, REST] {
            self.move_picks(change, stage);
        }
        self.move_later(change);
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
        self.move_picks(change, BREAKING);
        let mut gain = self.gain(BREAKING, weights, wanted - hope - MOST_POINTS);
        if gain + hope < wanted {
            return None;
        }
        for ((pick, _), steps) in change.iter().zip(&self.hand.steps) {
            let [once, further] = steps.map(f64::from);
            gain += once * weights.picks[*pick][0] + further * weights.picks[*pick][1];
        }
        self.move_picks(change, PAIRED);
        self.pair_days(change);
        gain += self.gain_of_pairs(weights);
        gain += self.gain(PAIRED, weights, f64::MIN);
        if gain + hope < wanted {
            return None;
        }
        self.hand_on(PAIRED);
        self.move_picks(change, REST);
        self.move_later(change);
        for stage in REST..self.tables.stages.len() {
            self.choose(stage);
            gain += self.gain(stage, weights, f64::MIN);
            if gain + hope < wanted {
                return None;
            }
            self.hand_on(stage);
        }
        (gain >= wanted).then_some(gain)
    }

    /// What the change in hand, which was weighed to the end, makes of the week's worth.
    pub(super) fn score_in_hand(&self, change: &Change) -> Score {
        let tables = self.tables;
        let mut score = self.score;
        for node in self.hand.numbers().map(|number| &self.nodes[number]) {
            if node.delta != 0 {
                score.add(&tables.score(node, node.value + node.delta), 1.0);
                score.add(&tables.score(node, node.value), -1.0);
            }
        }
        for (pick, to) in change {
            let [once, further] = self.steps(*pick, *to).map(f64::from);
            score.add(&tables.pick_scores[*pick][0], once);
            score.add(&tables.pick_scores[*pick][1], further);
        }
        for (day, load) in &self.hand.days {
            score.add(&tables.pair_scores[*day], f64::from(load.pairs - self.loads[*day].pairs));
        }
        for (var, by) in &self.hand.marks {
            score.add(&tables.mark_scores[*var], f64::from(*by));
        }
        score
    }

    /// Makes the change in hand, which was weighed to the end.
    pub(super) fn commit(&mut self, change: &Change) {
        self.score = self.score_in_hand(change);
        for number in self.hand.numbers() {
            let node = &mut self.nodes[number];
            node.value += node.delta;
            node.delta = 0;
        }
        for (day, load) in &self.hand.days {
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

    /// What a pick's new sets change: whether it is done, and its sets above the fewest.
    fn steps(&self, pick: usize, to: u32) -> [i32; 2] {
        let fewest = self.tables.picks[pick].sets[0];
        let was = self.sets[pick];
        let further = |sets: u32| count(sets.saturating_sub(fewest));
        [i32::from(to > 0) - i32::from(was > 0), further(to) - further(was)]
    }

    /// Takes a new change in hand: what it makes of the days. Whether none of them is overfilled.
    fn load_days(&mut self, change: &Change) -> bool {
        self.hand.clear();
        for (pick, to) in change {
            let info = &self.tables.picks[*pick];
            let steps = self.steps(*pick, *to);
            self.hand.steps.push(steps);
            let [items, _] = steps;
            let sets = count(*to) - count(self.sets[*pick]);
            let day = info.day as usize;
            let place = self.hand.days.iter().position(|(other, _)| *other == day);
            let place = place.unwrap_or_else(|| {
                self.hand.days.push((day, self.loads[day]));
                self.hand.days.len() - 1
            });
            let load = &mut self.hand.days[place].1;
            load.items += items;
            load.sets += sets;
            load.seconds += items * info.seconds[0] + sets * info.seconds[1];
        }
        self.hand.days.iter().all(|(_, load)| load.items <= self.tables.most_items)
    }
}

/// A number of sets, which is small.
fn count(sets: u32) -> i32 {
    i32::try_from(sets).unwrap_or(i32::MAX)
}
