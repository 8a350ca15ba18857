//! A pick, as tables know it.

use crate::search::evaluator::pairing::Class;

/// What a pick with some sets is to its week, by the places below; as wide as a machine adds at once.
pub(in crate::search::evaluator) type Standing = [i32; 8];

/// Whether it is done.
pub(in crate::search::evaluator) const ITEMS: usize = 0;
/// Its sets above the fewest.
pub(in crate::search::evaluator) const FURTHER: usize = 1;
/// All of its sets.
pub(in crate::search::evaluator) const SETS: usize = 2;
/// How long it takes, where it is not paired.
pub(in crate::search::evaluator) const SECONDS: usize = 3;
/// Whether it leads its day and is not paired.
pub(in crate::search::evaluator) const LED: usize = 4;
/// Whether it can be paired.
pub(in crate::search::evaluator) const ABLE: usize = 5;
/// Of how many rounds.
pub(in crate::search::evaluator) const ROUNDS: usize = 6;

/// By how much one is more than another.
#[inline]
pub(in crate::search::evaluator) fn less(one: &Standing, other: &Standing) -> Standing {
    std::array::from_fn(|place| one[place].wrapping_sub(other[place]))
}

/// A pick, as far as it is asked for at every change.
#[derive(Clone, Copy)]
pub(in crate::search) struct PickInfo {
    pub(in crate::search) candidate: u32,
    pub(in crate::search) day: u32,
    /// Fewest and most sets.
    pub(in crate::search) sets: [u32; 2],
    /// Seconds of its being done, and of each set.
    pub(in crate::search::evaluator) seconds: [i32; 2],
    /// Its classes in pairs of more and of fewer rounds.
    pub(in crate::search::evaluator) classes: [Option<Class>; 2],
    /// Sets with which it can be paired so; none has so many where it never can.
    pub(in crate::search::evaluator) rounds: [u32; 2],
    /// Whether it leads its day where it stands alone.
    pub(in crate::search::evaluator) leads: bool,
}

impl PickInfo {
    /// Whether it can be paired with so many sets.
    #[inline]
    pub(in crate::search::evaluator) fn is_able(&self, sets: u32) -> bool {
        sets == self.rounds[0] || sets == self.rounds[1]
    }

    /// Its class in a pair of so many rounds.
    #[inline]
    pub(in crate::search::evaluator) fn class_with(&self, sets: u32) -> Option<Class> {
        let way = self.rounds.iter().position(|rounds| *rounds == sets)?;
        self.classes[way]
    }

    /// Which of its ways to be paired a class is.
    #[inline]
    pub(in crate::search::evaluator) fn way_of(&self, class: Class) -> usize {
        usize::from(self.classes[0] != Some(class))
    }

    /// What it is to its week with so many sets.
    pub(in crate::search::evaluator) fn standing(&self, sets: u32) -> Standing {
        let mut standing = Standing::default();
        let [items, all] = [i32::from(sets > 0), sets.cast_signed()];
        standing[ITEMS] = items;
        standing[FURTHER] = sets.saturating_sub(self.sets[0]).cast_signed();
        standing[SETS] = all;
        standing[SECONDS] = items * self.seconds[0] + all * self.seconds[1];
        standing[LED] = i32::from(self.leads_with(sets));
        standing[ABLE] = i32::from(self.is_able(sets));
        standing[ROUNDS] = standing[ABLE] * all;
        standing
    }

    /// Whether it leads its day and is not paired with so many sets.
    #[inline]
    pub(in crate::search::evaluator) fn leads_with(&self, sets: u32) -> bool {
        self.leads && sets > 0 && !self.is_able(sets)
    }
}

/// What each pick is to its week with each number of sets that any has, looked up.
pub(super) struct Standings {
    standings: Vec<Standing>,
    /// How many of them each pick has, none first.
    count: u32,
}

impl Standings {
    pub(super) fn new(picks: &[PickInfo]) -> Standings {
        let count = picks.iter().map(|pick| pick.sets[1] + 1).max().unwrap_or(0);
        let standings = picks.iter().flat_map(|pick| (0..count).map(|sets| pick.standing(sets)));
        Standings { standings: standings.collect(), count }
    }

    #[inline]
    pub(super) fn of(&self, pick: usize, sets: u32) -> Option<Standing> {
        let place = pick.wrapping_mul(self.count as usize).wrapping_add(sets as usize);
        if sets < self.count { self.standings.get(place).copied() } else { None }
    }
}
