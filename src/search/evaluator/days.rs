//! The pairs of the days that a change touches.

use super::hand::{DayInHand, Hand};
use super::lists::small;
use super::pairing::{Able, Class, Couples, DayLoad, DayPairing, Pair, Way, picks_of};
use super::tables::{LED, Marked, Term};
use super::weights::Weights;
use super::{Change, Evaluator};

impl Evaluator<'_> {
    /// Pairs the days of the change in hand anew, where it moves anything that can be paired.
    pub(super) fn pair_days(&mut self, change: &Change) {
        for place in 0..self.hand.days.len() {
            if self.is_paired_anew(&self.hand.days[place]) {
                self.pair_day(place, change);
            }
            self.hand.days[place].marks = self.hand.marks.len();
        }
    }

    fn pair_day(&mut self, place: usize, change: &Change) {
        let tables = self.tables;
        let DayInHand { day, mut load, more, .. } = self.hand.days[place];
        let before = self.loads[day];
        let able = self.able_after(day, change);
        let way = self.way(day, &load, &able, self.led[day] + more[LED] > 0);
        let couples = match tables.marked[day] {
            Marked::Nothing => Couples::default(),
            _ => Couples::of(&way, &able),
        };
        self.hand.ways.push((day, way, couples));
        (load.pairs, load.saved) = (i32::from(way.pairs), way.saved);
        load.is_chosen = !way.is_only;
        self.hand.days[place].load = load;
        let (pairs, saved) = (load.pairs - before.pairs, load.saved - before.saved);
        if pairs != 0 || saved != 0 {
            for Term { to, by } in &tables.moved[day] {
                self.move_by(*to, pairs * by[0] + saved * by[1]);
            }
        }
        match tables.marked[day] {
            Marked::Nothing => {}
            Marked::Counts if self.ways[day].key == way.key => {}
            _ => self.mark(day, &couples),
        }
    }

    /// What the pairs of the change in hand gain, of each day and of all.
    pub(super) fn gain_of_pairs(&mut self, weights: &Weights) -> f64 {
        let (mut gain, mut from) = (0.0, 0);
        let Hand { days, marks, .. } = &mut self.hand;
        for day in days {
            let more = day.load.pairs - self.loads[day.day].pairs;
            let of_marks = marks[from..day.marks].iter();
            let of_marks = of_marks.map(|(var, by)| weights.marks[*var] * f64::from(*by));
            day.gain = weights.pairs[day.day] * f64::from(more) + of_marks.sum::<f64>();
            (from, gain) = (day.marks, gain + day.gain);
        }
        gain
    }

    /// What can be paired on a day after a change.
    fn able_after(&self, day: usize, change: &Change) -> Able {
        let mut able = Able::from_slice(&self.able[day]);
        for (pick, to) in change {
            if self.tables.picks[*pick].day as usize == day {
                self.enable(&mut able, *pick, *to);
            }
        }
        able
    }

    /// What can be paired once a pick has other sets.
    fn enable(&self, able: &mut Able, pick: usize, to: u32) {
        let info = &self.tables.picks[pick];
        if let Some(class) = info.class_with(self.sets[pick])
            && let Ok(place) = able.binary_search(&(class, small(pick)))
        {
            able.remove(place);
        }
        if let Some(class) = info.class_with(to)
            && let Err(place) = able.binary_search(&(class, small(pick)))
        {
            able.insert(place, (class, small(pick)));
        }
    }

    /// Keeps what can be paired, and how many lead, once a change is made; before its sets are.
    pub(super) fn keep_able(&mut self, pick: usize, to: u32) {
        let info = &self.tables.picks[pick];
        let day = info.day as usize;
        let led = i32::from(info.leads_with(to)) - i32::from(info.leads_with(self.sets[pick]));
        self.led[day] += led;
        let mut able = std::mem::take(&mut self.able[day]);
        self.enable(&mut able, pick, to);
        self.able[day] = able;
    }

    /// The best way to pair some exercises of a day; none where it is crowded.
    fn way(&mut self, day: usize, load: &DayLoad, able: &Able, is_led: bool) -> Way {
        if DayPairing::is_crowded(load) {
            return Way::NONE;
        }
        let pairing = &self.tables.days[day];
        if able.len() < 2 {
            return Way::of_nobody(DayPairing::key(able, is_led));
        }
        self.memos.way(pairing, able, is_led, load)
    }

    /// Who is paired before and after a change, where a row asks for it.
    fn mark(&mut self, day: usize, after: &Couples) {
        let before = self.couples[day];
        for (couples, others, by) in [(&before, after, -1), (after, &before, 1)] {
            // A pair that stays moves nothing.
            for couple in couples.all().iter().filter(|couple| !others.all().contains(couple)) {
                for var in self.marks_of(day, *couple) {
                    self.mark_by(var, by);
                }
            }
        }
    }

    /// The variables that say that a couple of a day is paired.
    pub(super) fn marks_of(&self, day: usize, couple: u64) -> impl Iterator<Item = usize> + use<> {
        let of = |(class, pick): (Class, usize)| {
            self.tables.paired_var[pick][self.tables.picks[pick].way_of(class)]
        };
        let count = self.pair(day, couple).1;
        picks_of(couple).map(of).into_iter().flatten().chain([count])
    }

    fn mark_by(&mut self, var: usize, by: i32) {
        self.hand.marks.push((var, by));
        for Term { to, by: [once, _] } in self.tables.marks.of(var) {
            self.move_by(*to, by * once);
        }
    }

    /// The picks of a couple of a day, and the model's count of such pairs.
    fn pair(&self, day: usize, couple: u64) -> ([usize; 2], usize) {
        let [(class, one), (with, other)] = picks_of(couple);
        ([one, other], self.tables.days[day].count_of(class, with))
    }

    /// All pairs of the week as it stands.
    pub(super) fn all_pairs(&self) -> Vec<Pair> {
        let of_day = |day: usize| {
            let couples = Couples::of(&self.ways[day], &self.able[day]);
            let pair = |couple: &u64| {
                let ([one, other], count) = self.pair(day, *couple);
                (one, other, count)
            };
            couples.all().iter().map(pair).collect::<Vec<Pair>>()
        };
        (0..self.loads.len()).flat_map(of_day).collect()
    }
}
