//! One way for each visit, so that nothing is held by more people than there are pieces: the whole tree of choices is
//! searched, so an answer is the best there is, or that there is none, as long as the work suffices.
//!
//! Free of plans and kit. The client with the most changes should have as few as can be, then all together, then the next
//! client; among equals the choices that cost least in small things win.

use std::cmp::Reverse;

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
    /// A choice for each seat, and whether no other is better.
    Found {
        /// Places among each seat's choices.
        picks: Vec<usize>,
        /// Whether the whole tree was seen.
        proven: bool,
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

    /// Looks at everything, up to so many looks at a choice.
    #[must_use]
    pub fn solve(&self, most_looks: u64) -> Answer {
        let mut search = Search::new(self, most_looks);
        let open = self.seats.iter().map(|seat| {
            let mut places: Vec<usize> = (0..seat.choices.len()).collect();
            places.sort_by_key(|place| (seat.choices[*place].changes, seat.choices[*place].tie));
            Some(places)
        });
        let open = search.narrowed(open.collect());
        search.descend(&open, &mut vec![0; self.seats.len()], self.borne.clone(), 0);
        match (search.best, search.looks_left > 0) {
            (Some((_, picks)), proven) => Answer::Found { picks, proven },
            (None, true) => Answer::Nothing,
            (None, false) => Answer::Open,
        }
    }
}

/// The choices left for each seat; none where the seat is taken.
type Open = Vec<Option<Vec<usize>>>;

struct Search<'a> {
    puzzle: &'a Puzzle,
    /// Pieces held, by thing and minute.
    held: Vec<Vec<u32>>,
    first: u32,
    looks_left: u64,
    best: Option<(Worth, Vec<usize>)>,
}

impl<'a> Search<'a> {
    fn new(puzzle: &'a Puzzle, looks_left: u64) -> Search<'a> {
        let spans = || {
            let choices = puzzle.seats.iter().flat_map(|seat| &seat.choices);
            choices.flat_map(|choice| &choice.spans)
        };
        let first = spans().map(|span| span.from).min().unwrap_or(0);
        let last = spans().map(|span| span.to).max().unwrap_or(0);
        let held = vec![vec![0; (last - first.min(last)) as usize]; puzzle.pieces.len()];
        Search { puzzle, held, first, looks_left, best: None }
    }

    fn range(&self, span: &Span) -> std::ops::Range<usize> {
        (span.from - self.first) as usize..(span.to.max(span.from) - self.first) as usize
    }

    fn fits(&self, choice: &Choice) -> bool {
        choice.spans.iter().all(|span| {
            let most = self.puzzle.pieces[span.thing];
            let held = &self.held[span.thing][self.range(span)];
            held.iter().all(|held| held.saturating_add(span.pieces) <= most)
        })
    }

    fn hold(&mut self, seat: usize, pick: usize, taken: bool) {
        let puzzle = self.puzzle;
        for span in &puzzle.seats[seat].choices[pick].spans {
            let range = self.range(span);
            for minute in &mut self.held[span.thing][range] {
                *minute = if taken { *minute + span.pieces } else { *minute - span.pieces };
            }
        }
    }

    /// The choices that still fit.
    fn narrowed(&mut self, mut open: Open) -> Open {
        for (seat, places) in open.iter_mut().enumerate() {
            let Some(places) = places else { continue };
            self.looks_left = self.looks_left.saturating_sub(places.len() as u64);
            places.retain(|place| self.fits(&self.puzzle.seats[seat].choices[*place]));
        }
        open
    }

    /// The least that an answer from here on can be worth.
    fn bound(&self, open: &Open, borne: &[u32], tie: u32) -> Worth {
        let mut changes = borne.to_vec();
        let mut least_tie = tie;
        for (seat, places) in open.iter().enumerate() {
            let Some(places) = places else { continue };
            let seat = &self.puzzle.seats[seat];
            let least = |of: &dyn Fn(&Choice) -> u32| {
                places.iter().map(|place| of(&seat.choices[*place])).min().unwrap_or(0)
            };
            changes[seat.client] += least(&|choice| choice.changes);
            least_tie += least(&|choice| choice.tie);
        }
        Worth::of(changes, least_tie)
    }

    fn descend(&mut self, open: &Open, picks: &mut Vec<usize>, borne: Vec<u32>, tie: u32) {
        let bound = self.bound(open, &borne, tie);
        if self.looks_left == 0 || self.best.as_ref().is_some_and(|(best, _)| *best <= bound) {
            return;
        }
        let left =
            open.iter().enumerate().filter_map(|(seat, places)| Some((seat, places.as_ref()?)));
        // The seat with the fewest choices, so that a dead end shows early.
        let Some((seat, places)) = left.min_by_key(|(seat, places)| (places.len(), *seat)) else {
            self.best = Some((bound, picks.clone()));
            return;
        };
        for &pick in places {
            let (client, choice) = {
                let seat = &self.puzzle.seats[seat];
                (seat.client, &seat.choices[pick])
            };
            let mut now = borne.clone();
            now[client] += choice.changes;
            let tie = tie + choice.tie;
            picks[seat] = pick;
            self.hold(seat, pick, true);
            let mut rest = open.clone();
            rest[seat] = None;
            let rest = self.narrowed(rest);
            let is_dead = rest.iter().flatten().any(Vec::is_empty);
            if !is_dead {
                self.descend(&rest, picks, now, tie);
            }
            self.hold(seat, pick, false);
            if self.looks_left == 0 {
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests;
