//! The sums of plates on a bar. Many exercises of a place share a bar and its plates, so that they are made once.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::{KG_PER_LB, MOST_GRAMS, Rungs, Side, whole_grams};
use crate::input::place::Plates;
use crate::words::Units;

/// The most plates on one end of a bar: the sleeve is full. Common practice.
const MOST_PLATES: usize = 12;
/// The most sizes of plates that are searched, the heaviest first; a full competition set has thirteen.
const MOST_SIZES: usize = 16;
/// The most bars whose sums are remembered: a place has few.
const MOST_KNOWN: usize = 16;

/// A bar and what goes on it, in thousandths of the unit that they are made in.
pub(super) struct Loadable<'p> {
    pub(super) made_in: Units,
    pub(super) bar: u32,
    pub(super) plates: &'p Plates,
    /// How many ends share the pieces.
    pub(super) ends: u32,
}

/// One whose sums are remembered, with its own plates.
struct Known {
    made_in: Units,
    bar: u32,
    plates: Plates,
    ends: u32,
    rungs: Arc<Rungs>,
}

static KNOWN: Mutex<Vec<Known>> = Mutex::new(Vec::new());

impl Known {
    fn is(&self, one: &Loadable) -> bool {
        let Loadable { made_in, bar, plates, ends } = *one;
        (self.made_in, self.bar, self.ends) == (made_in, bar, ends) && self.plates == *plates
    }
}

impl Loadable<'_> {
    /// What it can weigh, remembered for the last few: it follows from bar and plates alone.
    pub(super) fn rungs(&self) -> Arc<Rungs> {
        let known = || KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = known().iter().find(|known| known.is(self)) {
            return Arc::clone(&known.rungs);
        }
        let rungs = Arc::new(self.made());
        let Loadable { made_in, bar, plates, ends } = *self;
        let mut known = known();
        if known.len() == MOST_KNOWN {
            known.remove(0);
        }
        let plates = plates.clone();
        known.push(Known { made_in, bar, plates, ends, rungs: Arc::clone(&rungs) });
        rungs
    }

    fn made(&self) -> Rungs {
        let in_grams = |mass: u32| match self.made_in {
            Units::Kg => mass,
            Units::Lb => whole_grams(f64::from(mass) / 1000.0 * KG_PER_LB),
        };
        side_sums(self.plates, self.ends)
            .into_iter()
            .map(|(sum, side)| (in_grams(self.bar.saturating_add(self.ends * sum)), side))
            .collect()
    }
}

/// Every sum that plates can make on one end, each with the fewest plates. `times` ends share the pieces.
fn side_sums(plates: &Plates, times: u32) -> BTreeMap<u32, Side> {
    let mut sums: BTreeMap<u32, Side> = BTreeMap::from([(0, Side::new())]);
    let sizes = plates.iter().rev().filter(|(mass, _)| **mass > 0);
    for (mass, pieces) in sizes.take(MOST_SIZES) {
        let most = usize::try_from(pieces / times).unwrap_or(MOST_PLATES).min(MOST_PLATES);
        let before = sums.clone();
        for (sum, side) in &before {
            let mut sum = *sum;
            let mut side = side.clone();
            for _ in 0..most {
                sum = sum.saturating_add(*mass);
                side.push(*mass);
                if side.len() > MOST_PLATES || sum > MOST_GRAMS / times {
                    break;
                }
                // Heavier plates came first, so of equal numbers the earlier way has the heavier plates.
                if sums.get(&sum).is_none_or(|known| side.len() < known.len()) {
                    sums.insert(sum, side.clone());
                }
            }
        }
    }
    sums
}
