//! Whether an answer is still wanted: a search whose turn is over ends soon, and its answer is thrown away. It is over where
//! nobody waits any more, or where it has taken more work than it may.

use std::sync::atomic::{AtomicU64, Ordering};

/// A place in a queue in which only the newest is served, and the work that may be taken. Without either a search runs to
/// its end.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Turn {
    place: Option<Mark>,
    meter: Option<Mark>,
}

/// A counter with the number that it is held against.
#[derive(Debug, Clone, Copy)]
struct Mark(&'static AtomicU64, u64);

impl Mark {
    fn counted(self) -> u64 {
        self.0.load(Ordering::Relaxed)
    }
}

impl PartialEq for Mark {
    fn eq(&self, other: &Mark) -> bool {
        (std::ptr::from_ref(self.0), self.1) == (std::ptr::from_ref(other.0), other.1)
    }
}

impl Turn {
    /// Takes the next turn at a counter; every earlier one is over.
    #[must_use]
    pub fn take(counter: &'static AtomicU64) -> Turn {
        let place = Mark(counter, counter.fetch_add(1, Ordering::Relaxed) + 1);
        Turn { place: Some(place), meter: None }
    }

    /// Shares the turn that is served at a counter.
    #[must_use]
    pub fn share(counter: &'static AtomicU64) -> Turn {
        Turn { place: Some(Mark(counter, counter.load(Ordering::Relaxed))), meter: None }
    }

    /// A turn that is over once so much work is taken. Work is counted in changes of a week that are tried; what a solver
    /// does counts as many as take about as long. It is counted before it is done, by what it may come to, so that neither
    /// cores nor a clock change the sum.
    #[must_use]
    pub fn metered(counter: &'static AtomicU64, most: u64) -> Turn {
        counter.store(0, Ordering::Relaxed);
        Turn { place: None, meter: Some(Mark(counter, most)) }
    }

    /// Counts work that is about to be done.
    pub fn takes(self, work: u64) {
        if let Some(Mark(counter, _)) = self.meter {
            counter.fetch_add(work, Ordering::Relaxed);
        }
    }

    /// The work that was taken so far.
    #[must_use]
    pub fn taken(self) -> u64 {
        self.meter.map_or(0, Mark::counted)
    }

    /// The work that is allowed, where more was taken.
    #[must_use]
    pub fn spent(self) -> Option<u64> {
        self.meter.filter(|meter| meter.counted() > meter.1).map(|Mark(_, most)| most)
    }

    /// Whether a newer turn was taken, or too much work.
    #[must_use]
    pub fn is_over(self) -> bool {
        self.place.is_some_and(|place| place.counted() != place.1) || self.spent().is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_turn_ends_the_others() {
        static COUNTER: AtomicU64 = AtomicU64::new(0);
        let first = Turn::take(&COUNTER);
        assert!(!first.is_over() && !Turn::default().is_over());
        let second = Turn::take(&COUNTER);
        assert!(first.is_over() && !second.is_over() && first != second);
        assert_eq!(Turn::share(&COUNTER), second);
    }

    #[test]
    fn a_turn_is_over_once_more_work_is_taken_than_is_allowed() {
        static TAKEN: AtomicU64 = AtomicU64::new(0);
        let turn = Turn::metered(&TAKEN, 100);
        turn.takes(60);
        turn.takes(40);
        assert!(!turn.is_over() && turn.taken() == 100);
        turn.takes(1);
        assert_eq!((turn.is_over(), turn.spent()), (true, Some(100)));
        assert!(!Turn::metered(&TAKEN, 100).is_over(), "the next line begins anew");
        Turn::default().takes(u64::MAX);
        assert_eq!(Turn::default().taken(), 0);
    }
}
