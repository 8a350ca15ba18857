//! The pairs of a day: as many as can be formed, those that save most seconds.

use std::collections::BTreeSet;

use smallvec::SmallVec;

use crate::model::pairing::PairClass;
use crate::model::tier::Tier;
use crate::model::{Weekly, paired_sets};

/// Exercises of a day up to which pairs are looked for; no session may have more.
const MOST_PAIRED: usize = 10;

/// A class of exercises that are alike for pairing, by its place among those of the week.
pub(super) type Class = u8;

/// Picks of a day that can be paired, in order, each behind its class.
pub(super) type Able = SmallVec<[(Class, u32); MOST_PAIRED]>;

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
    /// What each two classes that go together make.
    counts: Vec<Vec<Option<Count>>>,
}

/// A pair of two classes.
#[derive(Clone, Copy)]
struct Count {
    /// The variable that counts such pairs.
    var: usize,
    /// Seconds that one saves.
    saves: i32,
    /// What one is worth in the coach's view.
    points: f64,
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
                let goals = weekly.goals_of(Tier::View).filter(|goal| goal.var == pair.count);
                let points = goals.map(|goal| goal.weight).sum();
                let saves = seconds(pair.saves_s);
                let count = Some(Count { var: pair.count.0, saves, points });
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

    /// The best way to pair some exercises.
    pub(super) fn best(&self, memo: &mut Memo, able: &Able) -> Way {
        memo.way(self, able)
    }

    /// The pairs of a way, which is one of these exercises.
    pub(super) fn pairs(&self, way: &Way, able: &Able) -> Pairs {
        let pair = |(one, other): &(u8, u8)| {
            let [(class, first), (with, second)] = [*one, *other].map(|at| able[usize::from(at)]);
            let count = self.counts[usize::from(class)][usize::from(with)];
            (first as usize, second as usize, count.expect("a way pairs what goes together").var)
        };
        way.places[..usize::from(way.pairs)].iter().map(pair).collect()
    }

    /// Looks at every way that goes on from one, and keeps the best: the first of those that have most pairs, save most
    /// seconds, and bring most points.
    fn every_way(&self, able: &Able, from: usize, taken: u32, now: Way, best: &mut Way) {
        if now.beats(best) {
            *best = now;
        }
        for (one, other) in open_pairs(able.len(), from, taken) {
            let [class, with] = [one, other].map(|place| usize::from(able[place].0));
            if let Some(count) = self.counts[class][with] {
                let taken = taken | 1 << one | 1 << other;
                self.every_way(able, one + 1, taken, now.with(one, other, count), best);
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

/// A way to pair the exercises of a day.
#[derive(Clone, Copy)]
pub(super) struct Way {
    /// The classes in order, a byte each, behind a one; nought where the slot is free.
    pub(super) key: u128,
    pub(super) pairs: u8,
    /// Seconds that the pairs save.
    pub(super) saved: i32,
    points: f64,
    /// Who is paired, by place.
    places: [(u8, u8); MOST_PAIRED / 2],
}

impl Way {
    /// Nobody is paired.
    pub(super) const NONE: Way =
        Way { key: 0, pairs: 0, saved: 0, points: 0.0, places: [(0, 0); MOST_PAIRED / 2] };

    fn beats(&self, other: &Way) -> bool {
        let order = self.pairs.cmp(&other.pairs).then(self.saved.cmp(&other.saved));
        order.then(self.points.total_cmp(&other.points)).is_gt()
    }

    /// The same with one more pair.
    #[allow(clippy::cast_possible_truncation, reason = "a day has few exercises")]
    fn with(mut self, one: usize, other: usize, count: Count) -> Way {
        self.places[usize::from(self.pairs)] = (one as u8, other as u8);
        self.pairs += 1;
        self.saved += count.saves;
        self.points += count.points;
        self
    }
}

/// What is known of each day's pairs. It follows from the model alone, so that runs may hand it on.
#[derive(Clone, Default)]
pub(in crate::search) struct Memos(Vec<Memo>);

impl Memos {
    pub(super) fn for_days(&mut self, days: usize) {
        self.0.resize(days, Memo::default());
    }

    pub(super) fn of(&mut self, day: usize) -> &mut Memo {
        &mut self.0[day]
    }

    /// How many ways are known.
    pub(in crate::search) fn known(&self) -> usize {
        self.0.iter().map(|memo| memo.taken).sum()
    }
}

/// How the classes met so far are best paired on a day: few sets of classes come again and again. A table with open
/// addressing, as it is asked for nearly every proposal.
#[derive(Clone)]
pub(super) struct Memo {
    slots: Vec<Way>,
    taken: usize,
}

impl Default for Memo {
    fn default() -> Memo {
        Memo { slots: vec![Way::NONE; 64], taken: 0 }
    }
}

impl Memo {
    fn way(&mut self, pairing: &DayPairing, able: &Able) -> Way {
        let key = able.iter().fold(1_u128, |key, (class, _)| key << 8 | u128::from(*class));
        let slot = self.slot(key);
        if self.slots[slot].key == key {
            return self.slots[slot];
        }
        let mut found = Way { key, ..Way::NONE };
        pairing.every_way(able, 0, 0, found, &mut found);
        self.slots[slot] = found;
        self.taken += 1;
        if self.taken * 2 > self.slots.len() {
            let grown = vec![Way::NONE; self.slots.len() * 4];
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
        let count = |var, saves, points| Some(Count { var, saves, points });
        let pairing = DayPairing {
            rounds: 3,
            counts: vec![
                vec![None, count(70, 30, 1.0), count(71, 50, 1.0)],
                vec![count(70, 30, 1.0), None, None],
                vec![count(71, 50, 1.0), None, None],
            ],
        };
        let mut memo = Memo::default();
        let mut pairs = |able: &[(Class, u32)]| {
            let able = Able::from(able);
            let way = pairing.best(&mut memo, &able);
            (way.saved, pairing.pairs(&way, &able).to_vec())
        };
        assert_eq!(pairs(&[(0, 4), (0, 7)]), (0, vec![]));
        assert_eq!(pairs(&[(0, 4), (1, 5), (2, 6)]), (50, vec![(4, 6, 71)]), "the seconds count");
        let all = pairs(&[(0, 4), (0, 7), (1, 5), (2, 6)]);
        assert_eq!(all, (80, vec![(4, 5, 70), (7, 6, 71)]), "as many as there are");
        assert_eq!(pairs(&[(0, 1), (0, 2), (1, 8), (2, 9)]).1, [(1, 8, 70), (2, 9, 71)]);
    }

    /// Where pairs are as many and save as much, points tell.
    #[test]
    fn of_equal_ways_the_one_with_more_points_is_taken() {
        let count = |var, points| Some(Count { var, saves: 20, points });
        let pairing = DayPairing {
            rounds: 3,
            counts: vec![vec![None, count(70, 3.0), count(71, 8.0)], vec![None; 3], vec![None; 3]],
        };
        let able = Able::from(&[(0, 4), (1, 5), (2, 6)][..]);
        let way = pairing.best(&mut Memo::default(), &able);
        assert_eq!(pairing.pairs(&way, &able).as_slice(), [(4, 6, 71)]);
    }
}
