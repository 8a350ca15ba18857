//! The changes that a run tries: another exercise, other sets, another day.

use std::sync::Arc;

use smallvec::{SmallVec, smallvec};

use super::Annealer;

/// One change: picks with their new sets.
pub(super) type Change = SmallVec<[(usize, u32); 4]>;

/// Of a hundred changes, how many are two at once: where minutes are short, one alone often cannot help.
const TWO_AT_ONCE: u32 = 30;

impl Annealer<'_, '_> {
    pub(super) fn propose_one_or_two(&mut self) -> Option<Change> {
        let mut change = self.propose()?;
        if self.below(100) < TWO_AT_ONCE {
            let second = self.propose().unwrap_or_default();
            let is_new = |(pick, _): &(usize, u32)| change.iter().all(|(other, _)| other != pick);
            let second: Change = second.into_iter().filter(is_new).collect();
            change.extend(second);
        }
        Some(change)
    }

    /// Another exercise for one that is done: on its day, on another day, or everywhere.
    pub(super) fn propose_other(&mut self) -> Option<Change> {
        let days = u32::try_from(self.done.len()).ok()?;
        let day = self.below(days) as usize;
        let done = self.done[day].clone();
        match self.below(10) {
            0..=4 => self.stand_in(&done),
            5..=7 => self.everywhere(&done),
            8 => self.replace(day, &done),
            _ => self.elsewhere(&done),
        }
    }

    /// A change at random, the useful ones more often.
    pub(super) fn propose(&mut self) -> Option<Change> {
        let days = u32::try_from(self.done.len()).ok()?;
        let day = self.below(days) as usize;
        let done = self.done[day].clone();
        match self.below(100) {
            0..=29 => self.stand_in(&done),
            30..=49 => self.more_or_less(&done),
            50..=61 => self.add(day),
            62..=69 => Some(smallvec![(self.one_of(&done)?, 0)]),
            70..=79 => self.replace(day, &done),
            80..=86 => self.shift_set(&done),
            87..=93 => self.elsewhere(&done),
            _ => self.everywhere(&done),
        }
    }

    /// Another exercise of the same pattern or prime mover.
    fn stand_in(&mut self, done: &[usize]) -> Option<Change> {
        let out = self.one_of(done)?;
        let lists = Arc::clone(&self.lists);
        let into = self.early_one_of(&lists.alike[out]);
        self.swap(out, into?)
    }

    fn replace(&mut self, day: usize, done: &[usize]) -> Option<Change> {
        let out = self.one_of(done)?;
        let lists = Arc::clone(&self.lists);
        let into = self.early_one_of(&lists.on_day[day]);
        self.swap(out, into?)
    }

    fn swap(&self, out: usize, into: usize) -> Option<Change> {
        let [least, most] = self.weekly.picks[into].sets;
        let sets = self.sets[out].clamp(least, most);
        (out != into && self.sets[into] == 0).then(|| smallvec![(out, 0), (into, sets)])
    }

    fn more_or_less(&mut self, done: &[usize]) -> Option<Change> {
        let pick = self.one_of(done)?;
        let more = self.below(2) == 0;
        self.stepped(pick, more).map(|change| smallvec![change])
    }

    /// One set more or less, where its range allows it.
    fn stepped(&self, pick: usize, more: bool) -> Option<(usize, u32)> {
        let [least, most] = self.weekly.picks[pick].sets;
        let sets = if more { self.sets[pick] + 1 } else { self.sets[pick].checked_sub(1)? };
        (least..=most).contains(&sets).then_some((pick, sets))
    }

    fn add(&mut self, day: usize) -> Option<Change> {
        let lists = Arc::clone(&self.lists);
        let pick = self.early_one_of(&lists.on_day[day]);
        let pick = pick.filter(|pick| self.sets[*pick] == 0)?;
        let [least, most] = self.weekly.picks[pick].sets;
        let sets = least + self.below(most - least + 1);
        Some(smallvec![(pick, sets)])
    }

    /// A set from one exercise of the day to another.
    fn shift_set(&mut self, done: &[usize]) -> Option<Change> {
        let (from, to) = (self.one_of(done)?, self.one_of(done)?);
        (from != to).then_some(())?;
        Some(smallvec![self.stepped(from, false)?, self.stepped(to, true)?])
    }

    /// The same exercise on another day.
    fn elsewhere(&mut self, done: &[usize]) -> Option<Change> {
        let out = self.one_of(done)?;
        let lists = Arc::clone(&self.lists);
        let into = self.one_of(&lists.days_of[self.weekly.picks[out].candidate]);
        self.swap(out, into?)
    }

    /// Another exercise of its kind on every day that has it.
    fn everywhere(&mut self, done: &[usize]) -> Option<Change> {
        let out = self.one_of(done)?;
        let lists = Arc::clone(&self.lists);
        let into = self.one_of(&lists.alike[out]);
        let (old, new) = (self.weekly.picks[out].candidate, self.weekly.picks[into?].candidate);
        let mut change = Change::new();
        for pick in self.lists.days_of[old].iter().copied().filter(|pick| self.sets[*pick] > 0) {
            let day = self.weekly.picks[pick].day;
            let there = self.lists.days_of[new]
                .iter()
                .copied()
                .find(|one| self.weekly.picks[*one].day == day);
            change.extend(self.swap(pick, there?)?);
        }
        Some(change)
    }

    /// One of a list; in a run that knows of others mostly one of the first, which frequency long in them.
    fn early_one_of(&mut self, list: &[usize]) -> Option<usize> {
        let count = u32::try_from(list.len()).ok().filter(|count| *count > 0)?;
        let mut place = self.below(count);
        if self.knows && self.below(16) < self.favored {
            // The product of three even draws lies near the front.
            place = place * self.below(count) / count * self.below(count) / count;
        }
        Some(list[place as usize])
    }

    fn one_of(&mut self, list: &[usize]) -> Option<usize> {
        let count = u32::try_from(list.len()).ok().filter(|count| *count > 0)?;
        let place = self.below(count) as usize;
        Some(list[place])
    }
}
