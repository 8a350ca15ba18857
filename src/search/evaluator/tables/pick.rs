//! A pick, as tables know it.

use crate::search::evaluator::pairing::Class;

/// A pick, as far as it is asked for at every change.
#[derive(Clone, Copy)]
pub(in crate::search) struct PickInfo {
    pub(in crate::search) candidate: u32,
    pub(in crate::search) day: u32,
    /// Fewest and most sets.
    pub(in crate::search) sets: [u32; 2],
    /// Seconds of its being done, and of each set.
    pub(in crate::search::evaluator) seconds: [i32; 2],
    pub(in crate::search::evaluator) class: Option<Class>,
    /// Sets with which it can be paired; none has so many where it never can.
    pub(in crate::search::evaluator) rounds: u32,
    /// Whether it leads its day where it stands alone.
    pub(in crate::search::evaluator) leads: bool,
}

impl PickInfo {
    /// Whether pairs may depend on it.
    #[inline]
    pub(in crate::search::evaluator) fn is_ever_paired(&self) -> bool {
        self.leads || self.class.is_some()
    }

    /// Whether it can be paired with so many sets.
    #[inline]
    pub(in crate::search::evaluator) fn is_able(&self, sets: u32) -> bool {
        sets == self.rounds
    }

    /// What other sets change: whether it is done, and its sets above the fewest.
    #[inline]
    pub(in crate::search::evaluator) fn steps(&self, was: u32, to: u32) -> [i32; 2] {
        let further = |sets: u32| sets.saturating_sub(self.sets[0]).cast_signed();
        [i32::from(to > 0) - i32::from(was > 0), further(to) - further(was)]
    }

    /// Whether it leads its day and is not paired with so many sets.
    #[inline]
    pub(in crate::search::evaluator) fn leads_with(&self, sets: u32) -> bool {
        self.leads && sets > 0 && !self.is_able(sets)
    }
}
