//! The two best ways to pair some exercises, as they are kept.

use super::{LOOSE, MOST_PAIRED, Way};

/// The two best ways to pair some exercises, in half a line of the cache, as a search keeps thousands of them.
#[derive(Clone, Copy)]
#[repr(align(32))]
pub(in crate::search::evaluator) struct Two {
    /// That of the first; nought where nothing is kept.
    pub(in crate::search::evaluator) key: u128,
    ways: [Packed; 2],
}

/// A way apart from its key.
#[derive(Clone, Copy)]
struct Packed {
    saved: u16,
    /// How many there are, and whether none other brings more points.
    pairs: u8,
    places: [u8; MOST_PAIRED / 2],
}

/// Beside a number of pairs: none other brings more points.
const ONLY: u8 = 1 << 7;

impl Two {
    pub(in crate::search::evaluator) const NONE: Two =
        Two { key: 0, ways: [Packed { saved: 0, pairs: 0, places: [0; MOST_PAIRED / 2] }; 2] };

    pub(in crate::search::evaluator) fn of(ways: [Way; 2]) -> Two {
        let packed = |Way { saved, pairs, is_only, places, .. }: Way| Packed {
            saved: u16::try_from(saved).unwrap_or(u16::MAX),
            pairs: if is_only { pairs | ONLY } else { pairs },
            places,
        };
        Two { key: ways[0].key, ways: ways.map(packed) }
    }

    /// The first or the second.
    pub(super) fn way(&self, place: usize) -> Way {
        let Packed { saved, pairs, places } = self.ways[place];
        Way {
            key: if place == 0 { self.key } else { self.key | LOOSE },
            saved: i32::from(saved),
            pairs: pairs & !ONLY,
            is_only: pairs & ONLY > 0,
            places,
        }
    }

    /// Some of a key, for tests of where ways are kept.
    #[cfg(test)]
    pub(in crate::search::evaluator) fn of_key(key: u128) -> Two {
        Two { key, ..Two::NONE }
    }
}
