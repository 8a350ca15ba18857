//! Whether a puzzle has any answer, without asking the solver where less will do.

use std::collections::BTreeMap;

use super::{Choice, Puzzle, Seat, Span};

impl Puzzle {
    /// The same question with fewer choices, where only the question counts whether there is an answer: a choice that holds
    /// all that another one holds, and more, is never needed.
    #[must_use]
    pub fn lean(&self) -> Puzzle {
        let lean = |seat: &Seat| Seat { client: seat.client, choices: lightest(&seat.choices) };
        Puzzle { seats: self.seats.iter().map(lean).collect(), ..self.clone() }
    }

    /// Choices taken one visit after the other, those with the fewest first, where that happens to fit. That it does not
    /// proves nothing.
    #[must_use]
    pub fn in_turn(&self) -> Option<Vec<usize>> {
        let mut order: Vec<usize> = (0..self.seats.len()).collect();
        order.sort_by_key(|seat| self.seats[*seat].choices.len());
        let mut held = Held::default();
        let mut picks = vec![0; self.seats.len()];
        for seat in order {
            picks[seat] = held.first_that_fits(self, seat)?;
            held.take(&self.seats[seat].choices[picks[seat]]);
        }
        Some(picks)
    }

    /// Whether some two visits have no two choices that fit together.
    #[must_use]
    pub fn has_two_that_clash(&self) -> bool {
        let fit = |one: &Seat, other: &Seat| {
            one.choices.iter().any(|choice| {
                let mut held = Held::default();
                held.take(choice);
                other.choices.iter().any(|choice| held.has_room(self, choice))
            })
        };
        let seats = self.seats.iter().enumerate();
        let pairs =
            seats.flat_map(|(at, one)| self.seats[at + 1..].iter().map(move |two| (one, two)));
        pairs.into_iter().any(|(one, two)| !fit(one, two))
    }
}

/// What is held of each thing at each minute.
#[derive(Default)]
struct Held(BTreeMap<(usize, u32), u32>);

impl Held {
    fn has_room(&self, puzzle: &Puzzle, choice: &Choice) -> bool {
        choice.spans.iter().all(|span| {
            let most = puzzle.pieces[span.thing];
            span.pieces <= most
                && self
                    .0
                    .range((span.thing, span.from)..(span.thing, span.to))
                    .all(|(_, held)| held + span.pieces <= most)
        })
    }

    fn first_that_fits(&self, puzzle: &Puzzle, seat: usize) -> Option<usize> {
        puzzle.seats[seat].choices.iter().position(|choice| self.has_room(puzzle, choice))
    }

    fn take(&mut self, choice: &Choice) {
        for span in &choice.spans {
            for minute in span.from..span.to {
                *self.0.entry((span.thing, minute)).or_default() += span.pieces;
            }
        }
    }
}

/// The choices that hold nothing beyond what another one holds, those that hold least first.
fn lightest(choices: &[Choice]) -> Vec<Choice> {
    let minutes = |choice: &&Choice| -> u32 {
        choice.spans.iter().map(|span| span.pieces * (span.to - span.from)).sum()
    };
    let mut by_weight: Vec<&Choice> = choices.iter().collect();
    by_weight.sort_by_key(minutes);
    let mut kept: Vec<Choice> = Vec::new();
    for choice in by_weight {
        if !kept.iter().any(|lighter| is_within(&lighter.spans, &choice.spans)) {
            kept.push(choice.clone());
        }
    }
    kept
}

/// Whether all that some spans hold is held by others as well.
fn is_within(some: &[Span], others: &[Span]) -> bool {
    some.iter().all(|span| {
        let covers = |other: &&Span, minute: u32| {
            other.thing == span.thing
                && other.pieces >= span.pieces
                && (other.from..other.to).contains(&minute)
        };
        let mut minute = span.from;
        while minute < span.to {
            match others.iter().find(|other| covers(other, minute)) {
                Some(other) => minute = other.to,
                None => return false,
            }
        }
        true
    })
}
