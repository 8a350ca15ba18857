//! The pairs of the days that a change touches.

use smallvec::SmallVec;

use super::pairing::{Class, DayLoad, DayPairing, Pair, Pairs};
use super::tables::Term;
use super::weights::Weights;
use super::{Change, Evaluator};

impl Evaluator<'_> {
    /// Pairs the days of the change in hand anew.
    pub(super) fn pair_days(&mut self, change: &Change) {
        for place in 0..self.hand.days.len() {
            let (day, mut load) = self.hand.days[place];
            (load.pairs, load.saved) = self.paired(day, &load, change);
            self.hand.days[place].1 = load;
            let before = self.loads[day];
            let (pairs, saved) = (load.pairs - before.pairs, load.saved - before.saved);
            if pairs != 0 || saved != 0 {
                for Term { to, by } in &self.tables.moved[day] {
                    self.move_by(*to, pairs * by[0] + saved * by[1]);
                }
            }
            if self.tables.is_marked[day] {
                self.mark(day, &load, change);
            }
        }
    }

    pub(super) fn gain_of_pairs(&self, weights: &Weights) -> f64 {
        let days = self.hand.days.iter();
        let pairs = days.map(|(day, load)| {
            weights.pairs[*day] * f64::from(load.pairs - self.loads[*day].pairs)
        });
        let marks = self.hand.marks.iter().filter_map(|(var, by)| {
            Some(weights.of(self.tables.mark_scores.get(var)?) * f64::from(*by))
        });
        pairs.sum::<f64>() + marks.sum::<f64>()
    }

    /// The number of pairs of a day after a change, and the seconds that they save.
    fn paired(&mut self, day: usize, load: &DayLoad, change: &Change) -> (i32, i32) {
        let pairing = &self.tables.days[day];
        if DayPairing::is_crowded(load) {
            return (0, 0);
        }
        let mut classes: SmallVec<[Class; 10]> =
            self.able(day, change).into_iter().map(|(_, class)| class).collect();
        classes.sort_unstable();
        pairing.wanted(&mut self.memos[day], &classes)
    }

    /// The picks of a day after a change that can be paired, with their classes.
    fn able(&self, day: usize, change: &Change) -> SmallVec<[(usize, Class); 10]> {
        let tables = self.tables;
        let rounds = tables.days[day].rounds;
        let new = |pick: &usize| change.iter().find(|(other, _)| other == pick).map(|(_, to)| *to);
        let stays =
            self.done[day].iter().map(|pick| (*pick, new(pick).unwrap_or(self.sets[*pick])));
        let comes = change
            .iter()
            .copied()
            .filter(|(pick, _)| self.sets[*pick] == 0 && tables.picks[*pick].day as usize == day);
        let able = stays.chain(comes).filter(|(_, sets)| *sets == rounds);
        able.filter_map(|(pick, _)| Some((pick, tables.picks[pick].class?))).collect()
    }

    /// Who is paired before and after a change, where a row asks for it.
    fn mark(&mut self, day: usize, load: &DayLoad, change: &Change) {
        let before = self.pairs(day, &self.loads[day], &Change::new());
        let after = self.pairs(day, load, change);
        for (pairs, by) in [(before, -1), (after, 1)] {
            for (one, other, count) in pairs {
                let who = [one, other].map(|pick| self.tables.paired_var[pick]);
                for var in who.into_iter().flatten().chain([count]) {
                    self.hand.marks.push((var, by));
                    for Term { to, by: [once, _] } in
                        self.tables.marks.get(&var).into_iter().flatten()
                    {
                        self.move_by(*to, by * once);
                    }
                }
            }
        }
    }

    /// The pairs of a day after a change, with so many as its load says.
    fn pairs(&self, day: usize, load: &DayLoad, change: &Change) -> Pairs {
        let mut able = self.able(day, change);
        able.sort_unstable();
        self.tables.days[day].pairs(&able, load.pairs, load.saved)
    }

    /// All pairs of the week as it stands.
    pub(super) fn all_pairs(&self) -> impl Iterator<Item = Pair> {
        let days = 0..self.loads.len();
        days.flat_map(|day| self.pairs(day, &self.loads[day], &Change::new()))
    }
}
