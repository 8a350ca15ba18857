//! The fewest visits that cannot be together: one after the other is left out while the rest still cannot, and then every
//! smaller set is asked, as far as the work goes.

use std::cell::Cell;
use std::collections::BTreeSet;

use itertools::Itertools as _;

use super::puzzle::{Answer, Puzzle};

/// Nodes of a search tree for each question about some of the visits, of large ones fewer.
const NODES: [u64; 2] = [4, 60];
/// Choices by nodes of a question that is large.
const LARGE: u64 = 120_000;
/// A question takes as long as so many nodes before its first. Measured.
const FIRST: u64 = 5;
/// Choices by nodes of all questions that go to the solver.
const WORK: u64 = 2_000_000;
/// Questions to the solver about smaller sets.
const QUESTIONS: usize = 60;

/// Visits that cannot be together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Smallest {
    /// Their places.
    pub seats: Vec<usize>,
    /// Whether it is proven that no fewer of the visits collide as well.
    pub proven: bool,
}

/// The puzzle with some of its visits; what stands after them stays.
pub(super) fn only(puzzle: &Puzzle, visits: usize, wanted: &[usize]) -> Puzzle {
    let seats = puzzle.seats.iter().enumerate();
    let kept = seats.filter(|(at, _)| *at >= visits || wanted.contains(at));
    Puzzle { seats: kept.map(|(_, seat)| seat.clone()).collect(), ..puzzle.clone() }
}

/// The work for questions whether a puzzle has an answer. It is counted by what a question may take, so that no clock and
/// no other question decides more than that there are no more.
pub(super) struct Purse(Cell<u64>);

impl Purse {
    pub(super) fn full() -> Purse {
        Purse(Cell::new(WORK))
    }

    /// Whether a puzzle has an answer, as far as the work goes.
    pub(super) fn any(&self, puzzle: &Puzzle) -> Answer {
        match puzzle.in_turn() {
            Some(picks) => Answer::Found { picks, proven: false, at_least: 0 },
            None if puzzle.has_two_that_clash() => Answer::Nothing,
            None => self.asked(puzzle),
        }
    }

    fn asked(&self, puzzle: &Puzzle) -> Answer {
        let choices = puzzle.choices();
        let nodes = (LARGE / choices.max(1)).clamp(NODES[0], NODES[1]);
        match self.0.get().checked_sub(choices.saturating_mul(FIRST + nodes)) {
            None => Answer::Open,
            Some(left) => {
                self.0.set(left);
                puzzle.any(nodes)
            }
        }
    }
}

/// The fewest of a puzzle's visits that cannot be together. The puzzle has no answer.
#[must_use]
pub fn smallest(puzzle: &Puzzle, visits: usize) -> Smallest {
    let (lean, purse) = (puzzle.lean(), Purse::full());
    let mut asked = Asked { puzzle: &lean, visits, purse, fit: Vec::new(), questions: 0 };
    let all: Vec<usize> = (0..visits).collect();
    let mut left = all.clone();
    for visit in &all {
        let without: Vec<usize> = left.iter().copied().filter(|at| at != visit).collect();
        if asked.answer(&without) == Some(false) {
            left = without;
        }
    }
    asked.questions = 0;
    let mut proven = true;
    for size in 1..left.len() {
        let mut all_known = true;
        for wanted in all.iter().copied().combinations(size) {
            match asked.answer(&wanted) {
                Some(false) => return Smallest { seats: wanted, proven },
                Some(true) => {}
                None if asked.questions > QUESTIONS => {
                    return Smallest { seats: left, proven: false };
                }
                None => all_known = false,
            }
        }
        proven &= all_known;
    }
    Smallest { seats: left, proven }
}

/// What is known of sets of visits.
struct Asked<'a> {
    puzzle: &'a Puzzle,
    visits: usize,
    purse: Purse,
    /// Sets that can be together, and so can all that lie in them.
    fit: Vec<BTreeSet<usize>>,
    questions: usize,
}

impl Asked<'_> {
    /// Whether some visits can be together; nothing where the work ended before that was known.
    fn answer(&mut self, wanted: &[usize]) -> Option<bool> {
        if self.fit.iter().any(|set| wanted.iter().all(|visit| set.contains(visit))) {
            return Some(true);
        }
        self.questions += 1;
        if self.questions > QUESTIONS {
            return None;
        }
        match self.purse.any(&only(self.puzzle, self.visits, wanted)) {
            Answer::Found { .. } => {
                self.fit.push(wanted.iter().copied().collect());
                Some(true)
            }
            Answer::Nothing => Some(false),
            Answer::Open => None,
        }
    }
}
