//! What is known of the pairs of each day: few sets of classes come again and again.

use std::sync::Arc;

use super::pairing::{Able, DayLoad, DayPairing, Two, Way};

/// Ways to pair that runs hand on, at most.
const MOST_KNOWN: usize = 1 << 15;

/// What is known of each day's pairs. It follows from the model alone, so that runs may hand it on.
#[derive(Clone, Default)]
pub(in crate::search) struct Memos {
    /// By earlier runs: shared, as a copy for each run would cost more than it saves.
    known: Arc<Vec<Memo>>,
    /// By this one, or by runs whose finds are not known as yet.
    found: Vec<Memo>,
}

impl Memos {
    pub(super) fn for_days(&mut self, days: usize) {
        self.found.resize(days, Memo::default());
    }

    /// The best way to pair some exercises of a day, where something else leads it or nothing does.
    pub(super) fn way(
        &mut self,
        pairing: &DayPairing,
        able: &Able,
        is_led: bool,
        load: &DayLoad,
    ) -> Way {
        let key = DayPairing::key(able, is_led);
        let known = self.known.get(pairing.like).and_then(|known| known.two(key));
        let two = known.unwrap_or_else(|| {
            let found = &mut self.found[pairing.like];
            found.two_or(key, || Two::of(pairing.best_two(able, is_led)))
        });
        pairing.chosen(two, load)
    }

    /// What a run may know: what was found and is not shared as yet is kept apart.
    pub(in crate::search) fn handed_on(&self) -> Memos {
        Memos { known: Arc::clone(&self.known), found: Vec::new() }
    }

    /// Takes in what a run has found. It is shared once it is much: for a little the copy would cost more than to find it
    /// again.
    pub(in crate::search) fn take_in(&mut self, run: Memos) {
        let known = count(&self.known);
        if known + count(&run.found) > MOST_KNOWN {
            return;
        }
        add_all(&mut self.found, &run.found);
        let found = count(&self.found);
        if found > 0 && found * 8 >= known {
            add_all(Arc::make_mut(&mut self.known), &self.found);
            self.found.clear();
        }
    }
}

fn add_all(to: &mut Vec<Memo>, more: &[Memo]) {
    to.resize(to.len().max(more.len()), Memo::default());
    for (memo, more) in to.iter_mut().zip(more) {
        for two in more.slots.iter().filter(|two| two.key != 0) {
            memo.two_or(two.key, || *two);
        }
    }
}

fn count(memos: &[Memo]) -> usize {
    memos.iter().map(|memo| memo.taken).sum()
}

/// How the classes met so far are best paired on days that are alike. A table with open addressing, as it is asked for nearly
/// every proposal; a slot without a key is free.
#[derive(Clone, Default)]
struct Memo {
    slots: Vec<Two>,
    taken: usize,
}

impl Memo {
    fn two(&self, key: u128) -> Option<&Two> {
        self.slots.get(self.slot(key)).filter(|two| two.key == key)
    }

    /// What is known of a key, or is put there.
    fn two_or(&mut self, key: u128, two: impl FnOnce() -> Two) -> &Two {
        if (self.taken + 1) * 2 > self.slots.len() {
            self.grow();
        }
        let slot = self.slot(key);
        if self.slots[slot].key != key {
            self.slots[slot] = two();
            self.taken += 1;
        }
        &self.slots[slot]
    }

    fn grow(&mut self) {
        let slots = (self.slots.len() * 2).max(64);
        let before = std::mem::replace(&mut self.slots, vec![Two::NONE; slots]);
        for before in before.into_iter().filter(|two| two.key != 0) {
            let slot = self.slot(before.key);
            self.slots[slot] = before;
        }
    }

    /// Where a key stands or may be put. The number of slots is a power of two, or nought.
    fn slot(&self, key: u128) -> usize {
        const MIXER: u64 = 0x9E37_79B9_7F4A_7C15;
        #[allow(clippy::cast_possible_truncation, reason = "all bits are mixed")]
        let mixed = (key as u64 ^ (key >> 64) as u64).wrapping_mul(MIXER);
        let mask = self.slots.len().saturating_sub(1);
        #[allow(clippy::cast_possible_truncation, reason = "masked")]
        let mut slot = (mixed >> 32) as usize & mask;
        while self.slots.get(slot).is_some_and(|two| two.key != 0 && two.key != key) {
            slot = (slot + 1) & mask;
        }
        slot
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(keys: impl IntoIterator<Item = u128>) -> Memos {
        let mut memo = Memo::default();
        for key in keys {
            memo.two_or(key, || Two::of_key(key));
        }
        Memos { found: vec![memo], ..Memos::default() }
    }

    #[test]
    fn each_key_keeps_its_ways_as_the_table_grows() {
        let Memos { found, .. } = found((1..=1000).map(|key| key << 60 | key));
        assert_eq!(found[0].taken, 1000);
        for key in (1..=1000).map(|key| key << 60 | key) {
            assert_eq!(found[0].two(key).map(|two| two.key), Some(key));
        }
        assert!(found[0].two(7).is_none());
    }

    #[test]
    fn runs_hand_on_what_is_new_where_it_is_much() {
        let mut known = Memos::default();
        known.take_in(found(1..=100));
        known.take_in(found(90..=120));
        assert_eq!(count(&known.known), 120, "each once");
        known.take_in(found(500..=505));
        assert_eq!(count(&known.known), 120, "a few are not worth a copy");
        known.take_in(found(503..=520));
        assert_eq!(count(&known.known), 141, "but they are not lost");
        known.take_in(found(1000..=1000 + MOST_KNOWN as u128));
        assert_eq!(count(&known.known), 141, "too many are");
    }
}
