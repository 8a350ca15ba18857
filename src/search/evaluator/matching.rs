//! Pairs of some exercises: the most seconds that each number of pairs saves, and the pairs that do.

use std::collections::BTreeMap;

use smallvec::SmallVec;

use super::pairing::{Pairs, Table};

/// Exercises of a day up to which pairs are looked for.
pub(in crate::search) const MOST_PAIRED: usize = 10;

/// Picks that can be paired, with the places of their classes.
pub(in crate::search) type Able = SmallVec<[(usize, usize); MOST_PAIRED]>;

/// The places of some classes, in order.
type Classes = SmallVec<[usize; MOST_PAIRED]>;

/// For each number of pairs, from none up, the most seconds that they save.
type Saved = SmallVec<[u32; 6]>;

/// What classes can save on a day, whichever exercises they are: few come again and again.
#[derive(Clone, Default)]
pub(in crate::search) struct Memo {
    known: BTreeMap<Classes, Saved>,
}

impl Memo {
    /// For each number of pairs that some picks can make, the most seconds saved.
    pub(in crate::search) fn saved(&mut self, counts: &Table, able: &Able) -> Saved {
        let mut classes: Classes = able.iter().map(|(_, class)| *class).collect();
        classes.sort_unstable();
        if let Some(saved) = self.known.get(&classes) {
            return saved.clone();
        }
        let mut every = EveryWay { counts, classes: &classes, saved: Saved::new() };
        every.extend(0, 0, 0, 0);
        let saved = every.saved;
        self.known.insert(classes, saved.clone());
        saved
    }
}

/// Some classes, paired in every way.
struct EveryWay<'w> {
    counts: &'w Table,
    classes: &'w Classes,
    saved: Saved,
}

impl EveryWay<'_> {
    /// Pairs those that are not taken, from a place on.
    fn extend(&mut self, from: usize, taken: u32, number: usize, saved: u32) {
        match self.saved.get_mut(number) {
            None => self.saved.push(saved),
            Some(most) => *most = saved.max(*most),
        }
        let count = self.classes.len();
        for one in (from..count).filter(|one| taken & 1 << one == 0) {
            for other in (one + 1..count).filter(|other| taken & 1 << other == 0) {
                if let Some((_, saves)) = self.counts[self.classes[one]][self.classes[other]] {
                    let taken = taken | 1 << one | 1 << other;
                    self.extend(one + 1, taken, number + 1, saved + saves);
                }
            }
        }
    }
}

/// The first so many pairs that save so much.
pub(in crate::search) struct Wanted<'w> {
    counts: &'w Table,
    able: &'w Able,
    /// The most seconds that a pair of any of them saves.
    most_saved: u32,
    pairs: Pairs,
}

impl<'w> Wanted<'w> {
    /// The first of the ways to make a number of pairs that save some seconds, of which there is one.
    pub(in crate::search) fn pairs(
        counts: &'w Table,
        able: &'w Able,
        number: usize,
        saves: u32,
    ) -> Pairs {
        let all = able.iter().flat_map(|(_, one)| able.iter().map(|(_, other)| (*one, *other)));
        let saved = all.filter_map(|(one, other)| counts[one][other]).map(|(_, saves)| saves);
        let most_saved = saved.max().unwrap_or(0);
        let mut wanted = Wanted { counts, able, most_saved, pairs: Pairs::new() };
        wanted.are_found(0, 0, number, saves);
        wanted.pairs
    }

    /// Whether some more pairs of those that are not taken, from a place on, save some more seconds.
    fn are_found(&mut self, from: usize, taken: u32, number: usize, saves: u32) -> bool {
        if number == 0 {
            return saves == 0;
        }
        if saves > self.most_saved * u32::try_from(number).unwrap_or(u32::MAX) {
            return false;
        }
        let count = self.able.len();
        for one in (from..count).filter(|one| taken & 1 << one == 0) {
            for other in (one + 1..count).filter(|other| taken & 1 << other == 0) {
                let [(first, class), (second, with)] = [self.able[one], self.able[other]];
                let Some((pairs, saved)) = self.counts[class][with] else { continue };
                let Some(left) = saves.checked_sub(saved) else { continue };
                self.pairs.push((first, second, pairs));
                if self.are_found(one + 1, taken | 1 << one | 1 << other, number - 1, left) {
                    return true;
                }
                self.pairs.pop();
            }
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two of one class, and one each of two others, of which not all go together.
    #[test]
    fn what_is_known_of_classes_is_what_their_picks_can_do() {
        let counts: Table = vec![
            vec![None, Some((70, 30)), Some((71, 50))],
            vec![Some((70, 30)), None, None],
            vec![Some((71, 50)), None, None],
        ];
        let able = Able::from_slice(&[(4, 0), (5, 1), (6, 2), (7, 0)]);
        let mut memo = Memo::default();
        let saved = memo.saved(&counts, &able);
        assert_eq!(saved.as_slice(), [0, 50, 80]);
        let turned = Able::from_slice(&[(9, 2), (2, 0), (1, 0), (8, 1)]);
        assert_eq!(memo.saved(&counts, &turned), saved, "whichever picks they are");
        let pairs = |number| Wanted::pairs(&counts, &able, number, saved[number]);
        assert_eq!(pairs(0).as_slice(), []);
        assert_eq!(pairs(1).as_slice(), [(4, 6, 71)]);
        assert_eq!(pairs(2).as_slice(), [(4, 5, 70), (6, 7, 71)], "the first of two ways");
    }
}
