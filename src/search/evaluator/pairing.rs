//! The pairs of a day: as many as can be formed, those that save most seconds.

use std::collections::BTreeSet;

use smallvec::SmallVec;

use crate::model::pairing::PairClass;
use crate::model::{Weekly, paired_sets};

/// Exercises of a day up to which pairs are looked for; no session may have more.
const MOST_PAIRED: usize = 10;

/// A class of exercises that are alike for pairing, by its place among those of the week.
pub(super) type Class = u8;

/// Two picks in turn, and the model's count of such pairs.
pub(super) type Pair = (usize, usize, usize);

/// The pairs of a day.
pub(super) type Pairs = SmallVec<[Pair; 5]>;

/// What a day holds, as far as pairs depend on it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct DayLoad {
    /// Seconds without pairs.
    pub(super) seconds: i32,
    pub(super) sets: i32,
    pub(super) items: i32,
    pub(super) pairs: i32,
    /// Seconds that the pairs save.
    pub(super) saved: i32,
}

/// How a day is paired.
#[derive(Clone)]
pub(super) struct DayPairing {
    /// Sets of an exercise that can be paired: both have as many.
    pub(super) rounds: u32,
    /// The count variable and saved seconds of each two classes that go together.
    counts: Vec<Vec<Option<(usize, i32)>>>,
}

/// The classes of a week's picks, and how each of its days is paired.
pub(super) fn of_week(weekly: &Weekly) -> (Vec<Option<Class>>, Vec<DayPairing>) {
    let class = |pick: &crate::model::Pick| {
        pick.paired.and_then(|_| PairClass::of(weekly.request, weekly.candidate(pick)))
    };
    let of_picks: Vec<Option<PairClass>> = weekly.picks.iter().map(class).collect();
    let known: BTreeSet<PairClass> = of_picks.iter().flatten().copied().collect();
    let known: Vec<PairClass> = known.into_iter().take(usize::from(Class::MAX)).collect();
    let place = |class: &PairClass| known.binary_search(class).ok();
    let classes = of_picks.iter().map(|class| {
        let place = place(class.as_ref()?)?;
        Class::try_from(place).ok()
    });
    let day = |day: usize| {
        let rounds = paired_sets(weekly.request, day);
        let mut counts = vec![vec![None; known.len()]; known.len()];
        for pair in weekly.pairs.iter().filter(|pair| pair.day == day) {
            if let (Some(one), Some(other)) = (place(&pair.classes.0), place(&pair.classes.1)) {
                let count = Some((pair.count.0, seconds(pair.saves_s)));
                (counts[one][other], counts[other][one]) = (count, count);
            }
        }
        DayPairing { rounds, counts }
    };
    (classes.collect(), weekly.days().map(day).collect())
}

fn seconds(seconds: u32) -> i32 {
    i32::try_from(seconds).unwrap_or(i32::MAX)
}

impl DayPairing {
    /// Whether a day has more exercises than pairs are looked for among.
    pub(super) fn is_crowded(load: &DayLoad) -> bool {
        usize::try_from(load.items).is_ok_and(|items| items > MOST_PAIRED)
    }

    /// The most pairs that a day with some exercises can have, and the most seconds that so many save. The classes are
    /// those of the exercises that can be paired, in order.
    pub(super) fn wanted(&self, memo: &mut Memo, classes: &[Class]) -> (i32, i32) {
        let saved = memo.saved(self, classes);
        (i32::from(saved.most), saved.by_number[usize::from(saved.most)])
    }

    /// The first of the ways in which some picks, with their classes, make a number of pairs that save some seconds.
    pub(super) fn pairs(&self, able: &[(usize, Class)], number: i32, saved: i32) -> Pairs {
        let mut pairs = Pairs::new();
        let is_found = self.extend(able, 0, 0, number, saved, &mut pairs);
        debug_assert!(is_found, "a number of pairs that is wanted can be made");
        pairs
    }

    /// Whether some more pairs of those that are not taken, from a place on, save some more seconds.
    fn extend(
        &self,
        able: &[(usize, Class)],
        from: usize,
        taken: u32,
        number: i32,
        saves: i32,
        pairs: &mut Pairs,
    ) -> bool {
        if number == 0 {
            return saves == 0;
        }
        for (one, other) in open_pairs(able.len(), from, taken) {
            let [(first, class), (second, with)] = [able[one], able[other]];
            let Some((count, saved)) = self.saves(class, with) else { continue };
            if saved > saves {
                continue;
            }
            pairs.push((first, second, count));
            let taken = taken | 1 << one | 1 << other;
            if self.extend(able, one + 1, taken, number - 1, saves - saved, pairs) {
                return true;
            }
            pairs.pop();
        }
        false
    }

    fn saves(&self, one: Class, other: Class) -> Option<(usize, i32)> {
        self.counts[usize::from(one)][usize::from(other)]
    }

    /// The most seconds that each number of pairs saves, over every way to pair some classes.
    fn every_way(
        &self,
        classes: &[Class],
        from: usize,
        taken: u32,
        now: (u8, i32),
        found: &mut Saved,
    ) {
        let (number, saved) = now;
        let most = &mut found.by_number[usize::from(number)];
        *most = saved.max(*most);
        found.most = found.most.max(number);
        for (one, other) in open_pairs(classes.len(), from, taken) {
            if let Some((_, more)) = self.saves(classes[one], classes[other]) {
                let taken = taken | 1 << one | 1 << other;
                self.every_way(classes, one + 1, taken, (number + 1, saved + more), found);
            }
        }
    }
}

/// Two places that are not taken, the first of them from some place on.
fn open_pairs(count: usize, from: usize, taken: u32) -> impl Iterator<Item = (usize, usize)> {
    let open = move |place: &usize| taken & 1 << *place == 0;
    (from..count)
        .filter(open)
        .flat_map(move |one| (one + 1..count).filter(open).map(move |other| (one, other)))
}

/// For each number of pairs that some classes can make, the most seconds that these save.
#[derive(Clone, Copy)]
struct Saved {
    /// The classes in order, a byte each, behind a one; nought where the slot is free.
    key: u128,
    most: u8,
    by_number: [i32; MOST_PAIRED / 2 + 1],
}

const FREE: Saved = Saved { key: 0, most: 0, by_number: [0; MOST_PAIRED / 2 + 1] };

/// What the classes met so far can save on a day: few sets of classes come again and again. A table with open
/// addressing, as it is asked for nearly every proposal.
#[derive(Clone)]
pub(super) struct Memo {
    slots: Vec<Saved>,
    taken: usize,
}

impl Default for Memo {
    fn default() -> Memo {
        Memo { slots: vec![FREE; 64], taken: 0 }
    }
}

impl Memo {
    fn saved(&mut self, pairing: &DayPairing, classes: &[Class]) -> Saved {
        let key = classes.iter().fold(1_u128, |key, class| key << 8 | u128::from(*class));
        let slot = self.slot(key);
        if self.slots[slot].key == key {
            return self.slots[slot];
        }
        let mut found = Saved { key, ..FREE };
        pairing.every_way(classes, 0, 0, (0, 0), &mut found);
        self.slots[slot] = found;
        self.taken += 1;
        if self.taken * 2 > self.slots.len() {
            let grown = vec![FREE; self.slots.len() * 4];
            for old in std::mem::replace(&mut self.slots, grown) {
                if old.key != 0 {
                    let slot = self.slot(old.key);
                    self.slots[slot] = old;
                }
            }
        }
        found
    }

    /// Where a key stands or may be put. The number of slots is a power of two.
    fn slot(&self, key: u128) -> usize {
        const MIXER: u64 = 0x9E37_79B9_7F4A_7C15;
        #[allow(clippy::cast_possible_truncation, reason = "all bits are mixed")]
        let mixed = (key as u64 ^ (key >> 64) as u64).wrapping_mul(MIXER);
        let mask = self.slots.len() - 1;
        #[allow(clippy::cast_possible_truncation, reason = "masked")]
        let mut slot = (mixed >> 32) as usize & mask;
        while self.slots[slot].key != 0 && self.slots[slot].key != key {
            slot = (slot + 1) & mask;
        }
        slot
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two of one class, and one each of two others, of which not all go together.
    #[test]
    fn what_is_known_of_classes_is_what_their_picks_can_do() {
        let pairing = DayPairing {
            rounds: 3,
            counts: vec![
                vec![None, Some((70, 30)), Some((71, 50))],
                vec![Some((70, 30)), None, None],
                vec![Some((71, 50)), None, None],
            ],
        };
        let mut memo = Memo::default();
        let classes = [0, 0, 1, 2];
        assert_eq!(pairing.wanted(&mut memo, &classes), (2, 80), "as many as there are");
        let able = [(4, 0), (5, 1), (6, 2), (7, 0)];
        assert_eq!(pairing.pairs(&able, 0, 0).as_slice(), []);
        assert_eq!(pairing.pairs(&able, 1, 50).as_slice(), [(4, 6, 71)]);
        assert_eq!(pairing.pairs(&able, 2, 80).as_slice(), [(4, 5, 70), (6, 7, 71)]);
    }
}
