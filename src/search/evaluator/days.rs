//! The pairs of the days that a change touches.

use super::lists::small;
use super::pairing::{Able, Class, DayLoad, DayPairing, Pair, Pairs, Way};
use super::tables::{Marked, Term};
use super::weights::Weights;
use super::{Change, Evaluator};

impl Evaluator<'_> {
    /// Pairs the days of the change in hand anew, where it moves anything that can be paired.
    pub(super) fn pair_days(&mut self, change: &Change) {
        let tables = self.tables;
        for place in 0..self.hand.days.len() {
            let (day, mut load) = self.hand.days[place];
            let before = self.loads[day];
            let is_same = DayPairing::is_crowded(&load) == DayPairing::is_crowded(&before);
            if is_same && !before.is_chosen && !self.moves_able(day, change) {
                continue;
            }
            let able = self.able_after(day, change);
            let way = self.way(day, &load, &able, self.is_led_after(day, change));
            (load.pairs, load.saved) = (i32::from(way.pairs), way.saved);
            load.is_chosen = !way.is_only;
            self.hand.days[place].1 = load;
            let (pairs, saved) = (load.pairs - before.pairs, load.saved - before.saved);
            if pairs != 0 || saved != 0 {
                for Term { to, by } in &tables.moved[day] {
                    self.move_by(*to, pairs * by[0] + saved * by[1]);
                }
            }
            match tables.marked[day] {
                Marked::Nothing => {}
                Marked::Counts if self.way_now(day).key == way.key => {}
                _ => self.mark(day, &way, &able),
            }
        }
    }

    pub(super) fn gain_of_pairs(&self, weights: &Weights) -> f64 {
        let days = self.hand.days.iter();
        let pairs = days.map(|(day, load)| {
            weights.pairs[*day] * f64::from(load.pairs - self.loads[*day].pairs)
        });
        let marks = self.hand.marks.iter();
        let marks = marks.map(|(var, by)| weights.marks[*var] * f64::from(*by));
        pairs.sum::<f64>() + marks.sum::<f64>()
    }

    /// The class of a pick that can be paired with so many sets.
    fn class_with(&self, pick: usize, sets: u32) -> Option<Class> {
        let info = &self.tables.picks[pick];
        info.class.filter(|_| sets == self.tables.days[info.day as usize].rounds)
    }

    /// Whether something that is not paired with so many sets leads a day.
    fn leads_with(&self, pick: usize, sets: u32) -> bool {
        self.tables.picks[pick].leads && sets > 0 && self.class_with(pick, sets).is_none()
    }

    /// Whether something that cannot be paired leads a day.
    fn is_led(&self, day: usize) -> bool {
        self.done[day].iter().any(|pick| self.leads_with(*pick, self.sets[*pick]))
    }

    /// The same after a change.
    fn is_led_after(&self, day: usize, change: &Change) -> bool {
        let of_day = |pick: usize| self.tables.picks[pick].day as usize == day;
        let stays = |pick: &&usize| change.iter().all(|(other, _)| other != *pick);
        let old = self.done[day].iter().filter(stays).map(|pick| (*pick, self.sets[*pick]));
        let new = change.iter().copied().filter(|(pick, _)| of_day(*pick));
        old.chain(new).any(|(pick, sets)| self.leads_with(pick, sets))
    }

    /// Whether a change brings or takes anything that can be paired on a day, or leads it.
    fn moves_able(&self, day: usize, change: &Change) -> bool {
        change.iter().any(|(pick, to)| {
            self.tables.picks[*pick].day as usize == day
                && (self.class_with(*pick, *to) != self.class_with(*pick, self.sets[*pick])
                    || self.leads_with(*pick, *to) != self.leads_with(*pick, self.sets[*pick]))
        })
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
        let entry = |class: Class| (class, small(pick));
        if let Some(class) = self.class_with(pick, self.sets[pick])
            && let Ok(place) = able.binary_search(&entry(class))
        {
            able.remove(place);
        }
        if let Some(class) = self.class_with(pick, to)
            && let Err(place) = able.binary_search(&entry(class))
        {
            able.insert(place, entry(class));
        }
    }

    /// Keeps what can be paired once a change is made; before its sets are.
    pub(super) fn keep_able(&mut self, pick: usize, to: u32) {
        let day = self.tables.picks[pick].day as usize;
        let mut able = std::mem::take(&mut self.able[day]);
        self.enable(&mut able, pick, to);
        self.able[day] = able;
    }

    /// The best way to pair some exercises of a day; none where it is crowded.
    fn way(&mut self, day: usize, load: &DayLoad, able: &Able, is_led: bool) -> Way {
        if DayPairing::is_crowded(load) {
            return Way::NONE;
        }
        self.tables.days[day].best(self.memos.of(day), able, is_led, load)
    }

    /// The way in which a day is paired as it stands.
    fn way_now(&mut self, day: usize) -> Way {
        let load = self.loads[day];
        if DayPairing::is_crowded(&load) {
            return Way::NONE;
        }
        let is_led = self.is_led(day);
        self.tables.days[day].best(self.memos.of(day), &self.able[day], is_led, &load)
    }

    /// Who is paired before and after a change, where a row asks for it.
    fn mark(&mut self, day: usize, way: &Way, able: &Able) {
        let tables = self.tables;
        let before = self.pairs(day);
        let after = tables.days[day].pairs(way, able);
        for (pairs, by) in [(before, -1), (after, 1)] {
            for (one, other, count) in pairs {
                let who = [one, other].map(|pick| tables.paired_var[pick]);
                for var in who.into_iter().flatten().chain([count]) {
                    self.hand.marks.push((var, by));
                    for Term { to, by: [once, _] } in tables.marks.of(var) {
                        self.move_by(*to, by * once);
                    }
                }
            }
        }
    }

    /// The pairs of a day as it stands.
    fn pairs(&mut self, day: usize) -> Pairs {
        let way = self.way_now(day);
        self.tables.days[day].pairs(&way, &self.able[day])
    }

    /// All pairs of the week as it stands.
    pub(super) fn all_pairs(&mut self) -> Vec<Pair> {
        (0..self.loads.len()).flat_map(|day| self.pairs(day)).collect()
    }
}
