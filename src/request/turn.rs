//! Whether somebody still waits for an answer: a search whose turn is over ends soon, and its answer is thrown away.

use std::sync::atomic::{AtomicU64, Ordering};

/// A place in a queue in which only the newest is served. Without one a search runs to its end.
#[derive(Debug, Clone, Copy, Default)]
pub struct Turn(Option<(&'static AtomicU64, u64)>);

impl Turn {
    /// Takes the next turn at a counter; every earlier one is over.
    #[must_use]
    pub fn take(counter: &'static AtomicU64) -> Turn {
        Turn(Some((counter, counter.fetch_add(1, Ordering::Relaxed) + 1)))
    }

    /// Shares the turn that is served at a counter.
    #[must_use]
    pub fn share(counter: &'static AtomicU64) -> Turn {
        Turn(Some((counter, counter.load(Ordering::Relaxed))))
    }

    /// Whether a newer turn was taken.
    #[must_use]
    pub fn is_over(self) -> bool {
        self.0.is_some_and(|(counter, mine)| counter.load(Ordering::Relaxed) != mine)
    }
}

impl PartialEq for Turn {
    fn eq(&self, other: &Turn) -> bool {
        let number =
            |turn: &Turn| turn.0.map(|(counter, mine)| (std::ptr::from_ref(counter), mine));
        number(self) == number(other)
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
}
