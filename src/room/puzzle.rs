//! One way for each visit, so that nothing is held by more people than there are pieces: a small mixed-integer program,
//! solved to the proof that its answer is the best there is, or that there is none, as long as the work suffices.
//!
//! Free of plans and kit. The client with the most changes should have as few as can be, then all together, then the next
//! client; among equals the choices that cost least in small things win.

mod fits;
mod program;

use std::cmp::Reverse;

use program::Program;

/// All that is asked for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Puzzle {
    /// Pieces of each thing.
    pub pieces: Vec<u32>,
    /// Changes that each client bears already.
    pub borne: Vec<u32>,
    /// Who comes.
    pub seats: Vec<Seat>,
}

/// A visit with its choices.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Seat {
    /// Whose, as a place in `borne`.
    pub client: usize,
    /// What may be chosen.
    pub choices: Vec<Choice>,
}

/// One way to do a visit.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Choice {
    /// Changes against the plan.
    pub changes: u32,
    /// What decides among equals, less is better.
    pub tie: u32,
    /// What is held, and when; spans of one thing do not meet.
    pub spans: Vec<Span>,
}

/// A thing held for some minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Span {
    /// Its place in `pieces`.
    pub thing: usize,
    /// How many pieces.
    pub pieces: u32,
    /// From this minute.
    pub from: u32,
    /// Up to this one.
    pub to: u32,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// A choice for each seat.
    Found {
        /// Places among each seat's choices.
        picks: Vec<usize>,
        /// Whether no other has fewer changes.
        proven: bool,
        /// Changes that the best answer has at least.
        at_least: u32,
    },
    /// It is proven that nothing fits.
    Nothing,
    /// The work ended before anything was found, which proves nothing.
    Open,
}

/// How good an answer is, what counts most first. Less is better.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Worth {
    /// Changes of the most burdened client.
    pub most: u32,
    /// Changes in all.
    pub all: u32,
    /// Changes of each client, most first.
    pub changes: Vec<u32>,
    /// What decides among equals.
    pub tie: u32,
}

impl Worth {
    fn of(mut changes: Vec<u32>, tie: u32) -> Worth {
        changes.sort_by_key(|one| Reverse(*one));
        let most = changes.first().copied().unwrap_or(0);
        Worth { most, all: changes.iter().sum(), changes, tie }
    }
}

impl Puzzle {
    /// What an answer is worth.
    #[must_use]
    pub fn worth(&self, picks: &[usize]) -> Worth {
        let mut changes = self.borne.clone();
        let mut tie = 0;
        for (seat, pick) in self.seats.iter().zip(picks) {
            changes[seat.client] += seat.choices[*pick].changes;
            tie += seat.choices[*pick].tie;
        }
        Worth::of(changes, tie)
    }

    /// How many choices all seats have.
    #[must_use]
    pub fn choices(&self) -> u64 {
        let choices: usize = self.seats.iter().map(|seat| seat.choices.len()).sum();
        u64::try_from(choices).unwrap_or(u64::MAX)
    }

    /// The best answer, with at most so many nodes of a search tree for each question.
    #[must_use]
    pub fn solve(&self, nodes: u64) -> Answer {
        Program::of(self, nodes).best()
    }

    /// Any answer at all, which says whether there is one.
    #[must_use]
    pub fn any(&self, nodes: u64) -> Answer {
        Program::of(self, nodes).any()
    }
}

#[cfg(test)]
mod tests;
