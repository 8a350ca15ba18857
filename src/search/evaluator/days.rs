//! The pairs of the days that a change touches.

use super::lists::small;
use super::pairing::{Able, DayLoad, DayPairing, Pair, Pairs, Way};
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
            let (is_moved, led) = self.moved_able(day, change);
            if is_same && !before.is_chosen && !is_moved {
                continue;
            }
            let able = self.able_after(day, change);
            let way = self.way(day, &load, &able, self.led[day] + led > 0);
            self.hand.ways.push((day, way));
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
                Marked::Counts if self.ways[day].key == way.key => {}
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

    /// Whether a change brings or takes anything that can be paired on a day, or leads it; and how many more lead it and are
    /// not paired.
    fn moved_able(&self, day: usize, change: &Change) -> (bool, i32) {
        let (mut is_moved, mut led) = (false, 0);
        for (pick, to) in change {
            let info = &self.tables.picks[*pick];
            if info.day as usize == day {
                let was = self.sets[*pick];
                let more = i32::from(info.leads_with(*to)) - i32::from(info.leads_with(was));
                is_moved |= more != 0 || info.is_able(*to) != info.is_able(was);
                led += more;
            }
        }
        (is_moved, led)
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
        let Some(class) = info.class else { return };
        let entry = (class, small(pick));
        if info.is_able(self.sets[pick])
            && let Ok(place) = able.binary_search(&entry)
        {
            able.remove(place);
        }
        if info.is_able(to)
            && let Err(place) = able.binary_search(&entry)
        {
            able.insert(place, entry);
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
        self.memos.way(day, &self.tables.days[day], able, is_led, load)
    }

    /// Who is paired before and after a change, where a row asks for it.
    fn mark(&mut self, day: usize, way: &Way, able: &Able) {
        let tables = self.tables;
        let before = self.pairs(day);
        let after = tables.days[day].pairs(way, able);
        for (pairs, others, by) in [(&before, &after, -1), (&after, &before, 1)] {
            // A pair that stays moves nothing.
            for (one, other, count) in pairs.iter().filter(|pair| !others.contains(pair)) {
                let who = [*one, *other].map(|pick| tables.paired_var[pick]);
                for var in who.into_iter().flatten().chain([*count]) {
                    self.hand.marks.push((var, by));
                    for Term { to, by: [once, _] } in tables.marks.of(var) {
                        self.move_by(*to, by * once);
                    }
                }
            }
        }
    }

    /// The pairs of a day as it stands.
    fn pairs(&self, day: usize) -> Pairs {
        self.tables.days[day].pairs(&self.ways[day], &self.able[day])
    }

    /// All pairs of the week as it stands.
    pub(super) fn all_pairs(&self) -> Vec<Pair> {
        (0..self.loads.len()).flat_map(|day| self.pairs(day)).collect()
    }
}
