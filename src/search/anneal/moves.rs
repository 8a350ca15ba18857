//! The moves: another exercise, other sets, another day.

use std::sync::Arc;

use rand::Rng as _;
use rand_chacha::ChaCha8Rng;
use smallvec::smallvec;

use super::neighbors::Neighbors;
use crate::search::budget::Tuning;
use crate::search::evaluator::{Change, Evaluator, Tables};

/// Draws changes of a week.
#[derive(Clone)]
pub(in crate::search) struct Proposer<'t> {
    pub(super) tables: &'t Tables,
    pub(super) tuning: &'t Tuning,
    pub(super) neighbors: Arc<Neighbors>,
    /// What kind of move each draw of a hundred makes.
    pub(super) kinds: [u8; 100],
    pub(super) draws: Draws,
}

/// Where the draws come from: apart from the lists that are drawn from, so that these need not be held to draw.
#[derive(Clone)]
pub(super) struct Draws {
    pub(super) random: ChaCha8Rng,
    /// Of sixteen draws, how many favor the front of the lists, where what stood long in earlier runs is.
    pub(super) favored: u32,
}

/// What kind of move each draw of a hundred makes, by their shares.
pub(super) fn kinds(shares: &[u32; 10]) -> [u8; 100] {
    let mut kinds = [u8::MAX; 100];
    let all = (0..).zip(shares).flat_map(|(kind, share)| (0..*share).map(move |_| kind));
    kinds.iter_mut().zip(all).for_each(|(place, kind)| *place = kind);
    kinds
}

impl Draws {
    /// Inlined, as a division by what is known beforehand is none.
    #[inline]
    fn below(&mut self, count: u32) -> u32 {
        self.drawn() % count.max(1)
    }

    fn drawn(&mut self) -> u32 {
        self.random.next_u32()
    }

    fn one_of(&mut self, list: &[usize]) -> Option<usize> {
        let count = u32::try_from(list.len()).ok().filter(|count| *count > 0)?;
        Some(list[self.below(count) as usize])
    }

    /// One of a list; in a run that knows of others mostly one of the first, which stood long in them.
    fn early_one_of(&mut self, list: &[usize]) -> Option<usize> {
        let count = u32::try_from(list.len()).ok().filter(|count| *count > 0)?;
        let mut place = self.below(count);
        if self.favored > 0 && self.below(16) < self.favored {
            // The product of three even draws lies near the front.
            place = place * self.below(count) / count * self.below(count) / count;
        }
        Some(list[place as usize])
    }
}

impl Proposer<'_> {
    pub(in crate::search) fn tables(&self) -> &Tables {
        self.tables
    }

    pub(in crate::search) fn below(&mut self, count: u32) -> u32 {
        self.draws.below(count)
    }

    /// One move, or two at once; `None` where the draw leads nowhere.
    pub(in crate::search) fn one_or_two(&mut self, week: &Evaluator) -> Option<Change> {
        let day = self.day(week);
        let mut change = self.one(week, day)?;
        if self.below(100) < self.tuning.two_at_once {
            let first = change.len();
            let second = self.second(week, day, &change);
            for (pick, sets) in second.unwrap_or_default() {
                if change[..first].iter().all(|(other, _)| *other != pick) {
                    change.push((pick, sets));
                }
            }
        }
        Some(change)
    }

    /// Another exercise for one that is done: on its day, on another day, or everywhere.
    pub(in crate::search) fn exchange(&mut self, week: &Evaluator) -> Option<Change> {
        let day = self.day(week);
        match self.below(10) {
            0..=4 => self.stand_in(week, day),
            5..=7 => self.everywhere(week, day),
            8 => self.replace(week, day),
            _ => self.elsewhere(week, day),
        }
    }

    /// The second of two moves: mostly on the day of the first, where it may pay for that in minutes.
    fn second(&mut self, week: &Evaluator, day: usize, first: &Change) -> Option<Change> {
        if self.below(100) < self.tuning.balanced {
            let seconds = week.seconds_more(day, first);
            if seconds > 0 {
                return match self.below(3) {
                    0 => Some(smallvec![(self.draws.one_of(&week.done()[day])?, 0)]),
                    _ => self.set_step(week, day, false),
                };
            }
            if seconds < 0 {
                return match self.below(2) {
                    0 => self.add(week, day),
                    _ => self.set_step(week, day, true),
                };
            }
        }
        let day = if self.below(100) < self.tuning.same_day { day } else { self.day(week) };
        self.one(week, day)
    }

    fn set_step(&mut self, week: &Evaluator, day: usize, more: bool) -> Option<Change> {
        let pick = self.draws.one_of(&week.done()[day])?;
        self.stepped(week, pick, more).map(|change| smallvec![change])
    }

    /// A move at random, the useful ones more often.
    fn one(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let drawn = self.below(100) as usize;
        match self.kinds.get(drawn) {
            Some(0) => self.stand_in(week, day),
            Some(1) => self.more_or_less(week, day),
            Some(2) => self.add(week, day),
            Some(3) => Some(smallvec![(self.draws.one_of(&week.done()[day])?, 0)]),
            Some(4) => self.replace(week, day),
            Some(5) => self.shift_set(week, day),
            Some(6) => self.elsewhere(week, day),
            Some(8) => self.trade(week, day),
            Some(9) => self.stand_in_anew(week, day),
            _ => self.everywhere(week, day),
        }
    }

    fn day(&mut self, week: &Evaluator) -> usize {
        self.below(u32::try_from(week.done().len()).unwrap_or(u32::MAX)) as usize
    }

    /// Another exercise of the same pattern or prime mover.
    fn stand_in(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let out = self.draws.one_of(&week.done()[day])?;
        let into = self.draws.early_one_of(&self.neighbors.alike[out]);
        self.swap(week, out, into?)
    }

    /// The same with any of its sets.
    fn stand_in_anew(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let mut change = self.stand_in(week, day)?;
        let (into, sets) = change.last_mut()?;
        let [least, most] = self.tables.pick(*into).sets;
        *sets = least + self.below(most - least + 1);
        Some(change)
    }

    /// Two exercises of two days change their days.
    fn trade(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let other_day = self.day(week);
        let (one, other) =
            (self.draws.one_of(&week.done()[day])?, self.draws.one_of(&week.done()[other_day])?);
        let mut change = self.swap(week, one, self.on_day(one, other_day)?)?;
        change.extend(self.swap(week, other, self.on_day(other, day)?)?);
        (day != other_day).then_some(change)
    }

    /// The pick of the same exercise on some day.
    fn on_day(&self, pick: usize, day: usize) -> Option<usize> {
        let days = &self.neighbors.days_of[self.tables.pick(pick).candidate as usize];
        days.iter().copied().find(|other| self.tables.pick(*other).day as usize == day)
    }

    /// Any other exercise of the day.
    fn replace(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let out = self.draws.one_of(&week.done()[day])?;
        let into = self.draws.early_one_of(&self.neighbors.on_day[day]);
        self.swap(week, out, into?)
    }

    fn swap(&self, week: &Evaluator, out: usize, into: usize) -> Option<Change> {
        let [least, most] = self.tables.pick(into).sets;
        let sets = week.sets()[out].clamp(least, most);
        (out != into && week.sets()[into] == 0).then(|| smallvec![(out, 0), (into, sets)])
    }

    fn more_or_less(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let pick = self.draws.one_of(&week.done()[day])?;
        let more = self.below(2) == 0;
        self.stepped(week, pick, more).map(|change| smallvec![change])
    }

    /// One set more or less, where its range allows it.
    fn stepped(&self, week: &Evaluator, pick: usize, more: bool) -> Option<(usize, u32)> {
        let [least, most] = self.tables.pick(pick).sets;
        let now = week.sets()[pick];
        let sets = if more { now + 1 } else { now.checked_sub(1)? };
        (least..=most).contains(&sets).then_some((pick, sets))
    }

    fn add(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let pick = self.draws.early_one_of(&self.neighbors.on_day[day]);
        let pick = pick.filter(|pick| week.sets()[*pick] == 0)?;
        let [least, most] = self.tables.pick(pick).sets;
        let sets = least + self.below(most - least + 1);
        Some(smallvec![(pick, sets)])
    }

    /// A set from one exercise of the day to another.
    fn shift_set(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let done = &week.done()[day];
        let (from, to) = (self.draws.one_of(done)?, self.draws.one_of(done)?);
        (from != to).then_some(())?;
        Some(smallvec![self.stepped(week, from, false)?, self.stepped(week, to, true)?])
    }

    /// The same exercise on another day.
    fn elsewhere(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let out = self.draws.one_of(&week.done()[day])?;
        let into =
            self.draws.one_of(&self.neighbors.days_of[self.tables.pick(out).candidate as usize]);
        self.swap(week, out, into?)
    }

    /// Another exercise of its kind on every day that has it.
    fn everywhere(&mut self, week: &Evaluator, day: usize) -> Option<Change> {
        let out = self.draws.one_of(&week.done()[day])?;
        let into = self.draws.one_of(&self.neighbors.alike[out])?;
        let [old, new] = [out, into].map(|pick| self.tables.pick(pick).candidate as usize);
        let mut change = Change::new();
        for pick in self.neighbors.days_of[old].iter().filter(|pick| week.sets()[**pick] > 0) {
            let day = self.tables.pick(*pick).day;
            let there =
                self.neighbors.days_of[new].iter().find(|one| self.tables.pick(**one).day == day);
            change.extend(self.swap(week, *pick, *there?)?);
        }
        Some(change)
    }
}
