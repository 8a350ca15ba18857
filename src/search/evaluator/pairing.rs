//! The pairs of a day: those that bring most points where its minutes hold them, else as many as can be formed, those that
//! save most seconds. A lift that leads, or is there for its load, is worth more alone.

use smallvec::SmallVec;

use super::score::ROUNDING;

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
    /// Whether minutes chose between two ways to pair.
    pub(super) is_chosen: bool,
}

/// How a day is paired.
#[derive(Clone)]
pub(super) struct DayPairing {
    /// Sets of an exercise that can be paired: both have as many.
    pub(super) rounds: u32,
    /// What each two classes that go together make.
    pub(super) counts: Vec<Vec<Option<Count>>>,
    /// Whether each class is of lifts that lead the day where they stand alone.
    pub(super) leads: Vec<bool>,
    /// What it is worth in the coach's view that one of them does.
    pub(super) led: f64,
    /// Seconds that the day holds.
    pub(super) room: i32,
    /// Sets that it holds, and how many fewer one in a pair counts for.
    pub(super) sets: (f64, f64),
}

/// A pair of two classes.
#[derive(Clone, Copy)]
pub(super) struct Count {
    /// The variable that counts such pairs.
    pub(super) var: usize,
    /// Seconds that one saves.
    pub(super) saves: i32,
    /// What one is worth in the coach's view.
    pub(super) points: f64,
}

impl DayPairing {
    /// Whether a day has more exercises than pairs are looked for among.
    pub(super) fn is_crowded(load: &DayLoad) -> bool {
        usize::try_from(load.items).is_ok_and(|items| items > MOST_PAIRED)
    }

    /// The best way to pair some exercises of a day, where something else leads it or nothing does.
    pub(super) fn best(&self, memo: &mut Memo, able: &Able, is_led: bool, load: &DayLoad) -> Way {
        let slot = memo.ways(self, able, is_led);
        let tight = &memo.slots[slot];
        if tight.is_only || !self.holds(load, &memo.loose[slot]) {
            *tight
        } else {
            memo.loose[slot]
        }
    }

    /// Whether a day holds its exercises, paired in a way.
    fn holds(&self, load: &DayLoad, way: &Way) -> bool {
        let (most, less) = self.sets;
        let sets = f64::from(load.sets) - 2.0 * less * f64::from(way.pairs);
        load.seconds - way.saved <= self.room && sets <= most + ROUNDING
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

    /// Looks at every way that goes on from one, and keeps the best two: the first of those that have most pairs, save
    /// most seconds, and bring most points, and the one that brings most points.
    fn every_way(&self, able: &Able, from: usize, taken: u32, now: Way, best: &mut [Way; 2]) {
        if now.beats(&best[0]) {
            best[0] = now;
        }
        if now.brings_more(&best[1]) {
            best[1] = now;
        }
        for (one, other) in open_pairs(able.len(), from, taken) {
            let [class, with] = [one, other].map(|place| usize::from(able[place].0));
            if let Some(count) = self.counts[class][with] {
                let taken = taken | 1 << one | 1 << other;
                let mut next = now.with(one, other, count);
                next.leads -= u8::from(self.leads[class]) + u8::from(self.leads[with]);
                if next.leads == 0 && now.leads > 0 {
                    next.points -= self.led;
                }
                self.every_way(able, one + 1, taken, next, best);
            }
        }
    }

    /// Nobody is paired. Where something else leads the day, none of those who can be paired need to.
    fn nobody(&self, able: &Able, is_led: bool) -> Way {
        let leads = able.iter().filter(|(class, _)| self.leads[usize::from(*class)]).count();
        let leads = u8::try_from(leads).unwrap_or(u8::MAX);
        // One that is never paired.
        Way { leads: leads + u8::from(is_led), ..Way::NONE }
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
    /// Lifts that lead the day, as they stand alone.
    leads: u8,
    /// Whether none other brings more points.
    pub(super) is_only: bool,
    /// Who is paired, by place.
    places: [(u8, u8); MOST_PAIRED / 2],
}

impl Way {
    /// Nobody is paired.
    pub(super) const NONE: Way = Way {
        key: 0,
        pairs: 0,
        saved: 0,
        points: 0.0,
        leads: 0,
        is_only: true,
        places: [(0, 0); MOST_PAIRED / 2],
    };

    /// Nothing can be paired.
    pub(super) const EMPTY: Way = Way { key: 1, ..Way::NONE };

    fn beats(&self, other: &Way) -> bool {
        let order = self.pairs.cmp(&other.pairs).then(self.saved.cmp(&other.saved));
        order.then(self.points.total_cmp(&other.points)).is_gt()
    }

    fn brings_more(&self, other: &Way) -> bool {
        let order = self.points.total_cmp(&other.points).then(self.pairs.cmp(&other.pairs));
        order.then(self.saved.cmp(&other.saved)).is_gt()
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
    /// Beside each the way that brings most points.
    loose: Vec<Way>,
    taken: usize,
}

/// In a key: something that is never paired leads the day.
const LED: u128 = 1 << 127;
/// In a key: the way that brings most points.
const LOOSE: u128 = 1 << 126;

impl Default for Memo {
    fn default() -> Memo {
        Memo { slots: vec![Way::NONE; 64], loose: vec![Way::NONE; 64], taken: 0 }
    }
}

impl Memo {
    /// Where the way that saves most stands, and the one that brings most.
    fn ways(&mut self, pairing: &DayPairing, able: &Able, is_led: bool) -> usize {
        let key = able.iter().fold(1_u128, |key, (class, _)| key << 8 | u128::from(*class));
        let key = if is_led { key | LED } else { key };
        let slot = self.slot(key);
        if self.slots[slot].key == key {
            return slot;
        }
        let mut found = [pairing.nobody(able, is_led); 2];
        pairing.every_way(able, 0, 0, found[0], &mut found);
        let [mut tight, mut loose] = found;
        tight.is_only = !loose.brings_more(&tight);
        loose.is_only = tight.is_only;
        (tight.key, loose.key) = (key, key | LOOSE);
        (self.slots[slot], self.loose[slot]) = (tight, loose);
        self.taken += 1;
        if self.taken * 2 > self.slots.len() {
            self.grow();
            return self.slot(key);
        }
        slot
    }

    fn grow(&mut self) {
        let grown = vec![Way::NONE; self.slots.len() * 4];
        let loose = std::mem::replace(&mut self.loose, grown.clone());
        let tight = std::mem::replace(&mut self.slots, grown);
        for (tight, loose) in tight.into_iter().zip(loose).filter(|(tight, _)| tight.key != 0) {
            let slot = self.slot(tight.key);
            (self.slots[slot], self.loose[slot]) = (tight, loose);
        }
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
            leads: vec![false; 3],
            led: 0.0,
            room: 0,
            sets: (99.0, 0.0),
            counts: vec![
                vec![None, count(70, 30, 1.0), count(71, 50, 1.0)],
                vec![count(70, 30, 1.0), None, None],
                vec![count(71, 50, 1.0), None, None],
            ],
        };
        let mut memo = Memo::default();
        let mut pairs = |able: &[(Class, u32)]| {
            let able = Able::from(able);
            let way = pairing.best(
                &mut memo,
                &able,
                false,
                &DayLoad { seconds: 1000, ..DayLoad::default() },
            );
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
            leads: vec![false; 3],
            led: 0.0,
            room: 0,
            sets: (99.0, 0.0),
            counts: vec![vec![None, count(70, 3.0), count(71, 8.0)], vec![None; 3], vec![None; 3]],
        };
        let able = Able::from(&[(0, 4), (1, 5), (2, 6)][..]);
        let way = pairing.best(
            &mut Memo::default(),
            &able,
            false,
            &DayLoad { seconds: 1000, ..DayLoad::default() },
        );
        assert_eq!(pairing.pairs(&way, &able).as_slice(), [(4, 6, 71)]);
    }

    /// A lead that is worth more alone than its pair stays alone, where the day's minutes hold that.
    #[test]
    fn a_lead_stands_alone_where_the_minutes_hold_it() {
        let count = |var, points| Some(Count { var, saves: 20, points });
        let pairing = DayPairing {
            rounds: 3,
            leads: vec![true, false],
            led: 60.0,
            room: 1000,
            sets: (99.0, 0.0),
            counts: vec![vec![None, count(70, 8.0)], vec![count(70, 8.0), None]],
        };
        let able = Able::from(&[(0, 4), (1, 5)][..]);
        let pairs = |seconds, is_led| {
            let load = DayLoad { seconds, ..DayLoad::default() };
            pairing.best(&mut Memo::default(), &able, is_led, &load).pairs
        };
        assert_eq!(pairs(1000, false), 0);
        assert_eq!(pairs(1001, false), 1, "the minutes ask for the pair");
        assert_eq!(pairs(1000, true), 1, "something else leads");
    }
}
