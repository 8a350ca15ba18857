//! The program against every combination, and its answers against the meaning of holding a thing.

use itertools::Itertools as _;
use proptest::prelude::*;

use super::*;
use crate::room::smallest::{only, smallest};

const MUCH: u64 = 100_000;

fn puzzle() -> impl Strategy<Value = Puzzle> {
    let span = (0..2_usize, 1..3_u32, 0..12_u32, 1..6_u32)
        .prop_map(|(thing, pieces, from, long)| Span { thing, pieces, from, to: from + long });
    let choice = (0..3_u32, 0..4_u32, prop::collection::vec(span, 0..3));
    let choice = choice.prop_map(|(changes, tie, spans)| {
        let mut apart: Vec<Span> = Vec::new();
        for span in spans {
            let meets = |other: &Span| {
                other.thing == span.thing && other.from < span.to && span.from < other.to
            };
            if !apart.iter().any(meets) {
                apart.push(span);
            }
        }
        Choice { changes, tie, spans: apart }
    });
    let seat = (0..3_usize, prop::collection::vec(choice, 1..5));
    let seat = seat.prop_map(|(client, choices)| Seat { client, choices });
    (
        prop::collection::vec(1..3_u32, 2),
        prop::collection::vec(seat, 1..5),
        prop::collection::vec(0..2_u32, 3),
    )
        .prop_map(|(pieces, seats, borne)| Puzzle { pieces, borne, seats })
}

/// Counted minute by minute, without the program's rows.
fn holds_together(puzzle: &Puzzle, picks: &[usize]) -> bool {
    (0..20).all(|minute| {
        (0..puzzle.pieces.len()).all(|thing| {
            let chosen = puzzle.seats.iter().zip(picks).map(|(seat, pick)| &seat.choices[*pick]);
            let spans = chosen.flat_map(|choice| &choice.spans);
            let held =
                spans.filter(|span| span.thing == thing && (span.from..span.to).contains(&minute));
            held.map(|span| span.pieces).sum::<u32>() <= puzzle.pieces[thing]
        })
    })
}

/// Every combination of choices.
fn best_of_all(puzzle: &Puzzle) -> Option<Worth> {
    let all = puzzle.seats.iter().map(|seat| 0..seat.choices.len()).multi_cartesian_product();
    all.filter(|picks| holds_together(puzzle, picks)).map(|picks| puzzle.worth(&picks)).min()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn the_answer_is_the_best_of_all_combinations(puzzle in puzzle()) {
        match (puzzle.solve(MUCH), best_of_all(&puzzle)) {
            (Answer::Found { picks, proven, at_least }, Some(best)) => {
                prop_assert!(proven && holds_together(&puzzle, &picks));
                prop_assert_eq!(puzzle.worth(&picks), best.clone());
                prop_assert_eq!(at_least + puzzle.borne.iter().sum::<u32>(), best.all);
            }
            (Answer::Nothing, None) => {}
            (answer, best) => prop_assert!(false, "{answer:?} where the best is {best:?}"),
        }
    }

    #[test]
    fn little_work_finds_something_that_holds_or_says_nothing(puzzle in puzzle(), nodes in 1..4_u64) {
        match (puzzle.solve(nodes), best_of_all(&puzzle)) {
            (Answer::Found { picks, proven, at_least }, Some(best)) => {
                prop_assert!(holds_together(&puzzle, &picks));
                let changes = |worth: &Worth| worth.all - puzzle.borne.iter().sum::<u32>();
                prop_assert!(at_least <= changes(&puzzle.worth(&picks)));
                prop_assert!(!proven || puzzle.worth(&picks).changes == best.changes);
            }
            (Answer::Nothing, None) | (Answer::Open, _) => {}
            (answer, best) => prop_assert!(false, "{answer:?} where the best is {best:?}"),
        }
    }

    /// Whether there is any answer is asked without looking for the best.
    #[test]
    fn any_answer_holds_and_there_is_one_where_there_is_a_best(puzzle in puzzle()) {
        match puzzle.any(MUCH) {
            Answer::Found { picks, .. } => prop_assert!(holds_together(&puzzle, &picks)),
            Answer::Nothing => prop_assert_eq!(best_of_all(&puzzle), None),
            Answer::Open => prop_assert!(false, "the work is enough"),
        }
    }
}

/// Two on one rack: one of them makes way, and it is the one who has not done so before.
#[test]
fn the_burden_is_shared() {
    let span = |from: u32| Span { thing: 0, pieces: 1, from, to: from + 10 };
    let choice = |changes: u32, from: u32| Choice { changes, tie: 0, spans: vec![span(from)] };
    let seat = |client: usize| Seat { client, choices: vec![choice(0, 0), choice(1, 10)] };
    let puzzle = Puzzle { pieces: vec![1], borne: vec![1, 0], seats: vec![seat(0), seat(1)] };
    assert_eq!(puzzle.solve(MUCH), Answer::Found { picks: vec![0, 1], proven: true, at_least: 1 });
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, max_global_rejects: 60_000, ..ProptestConfig::default() })]

    /// With fewer choices the question has the same answer, and nothing is left that holds all that another holds.
    #[test]
    fn who_can_be_together_can_with_the_lightest_choices(puzzle in puzzle()) {
        let lean = puzzle.lean();
        prop_assert_eq!(best_of_all(&lean).is_some(), best_of_all(&puzzle).is_some());
        for (seat, all) in lean.seats.iter().zip(&puzzle.seats) {
            prop_assert!(seat.choices.iter().all(|choice| all.choices.contains(choice)));
            for (at, one) in seat.choices.iter().enumerate() {
                let others = seat.choices[..at].iter().chain(&seat.choices[at + 1..]);
                for other in others {
                    let within = each_minute(other).all(|(key, held)| holds(one, key) >= held);
                    prop_assert!(!within, "{one:?} holds all of {other:?}");
                }
            }
        }
    }

    /// What is taken in turn holds; that two clash means that nothing fits.
    #[test]
    fn quick_answers_are_true(puzzle in puzzle()) {
        let best = best_of_all(&puzzle);
        if let Some(picks) = puzzle.in_turn() {
            prop_assert!(holds_together(&puzzle, &picks));
        }
        prop_assert!(!(puzzle.has_two_that_clash() && best.is_some()));
        let choices = || puzzle.seats.iter().flat_map(|seat| &seat.choices);
        let fits_alone = |span: &Span| span.pieces <= puzzle.pieces[span.thing];
        if puzzle.seats.len() == 2 && choices().flat_map(|choice| &choice.spans).all(fits_alone) {
            prop_assert_eq!(puzzle.has_two_that_clash(), best.is_none());
        }
    }

    /// The fewest who cannot be together, against every set of visits, with some that stay whoever comes.
    #[test]
    fn the_smallest_set_is_the_smallest_of_all_sets(puzzle in puzzle(), stay in 0..2_usize) {
        let visits = puzzle.seats.len() - stay.min(puzzle.seats.len() - 1);
        prop_assume!(best_of_all(&puzzle).is_none());
        let cannot = |wanted: &[usize]| best_of_all(&only(&puzzle, visits, wanted)).is_none();
        prop_assume!(!cannot(&[]));
        let fewest = (1..=visits).find(|size| (0..visits).combinations(*size).any(|set| cannot(&set)));
        let told = smallest(&puzzle, visits);
        prop_assert!(told.proven && cannot(&told.seats), "{told:?}");
        prop_assert_eq!(Some(told.seats.len()), fewest);
    }
}

/// What a choice holds of each thing at each minute.
fn each_minute(choice: &Choice) -> impl Iterator<Item = ((usize, u32), u32)> {
    let minutes = |span: &Span| {
        let (thing, pieces) = (span.thing, span.pieces);
        (span.from..span.to).map(move |minute| ((thing, minute), pieces))
    };
    choice.spans.iter().flat_map(minutes)
}

fn holds(choice: &Choice, (thing, minute): (usize, u32)) -> u32 {
    let there = each_minute(choice).filter(|(key, _)| *key == (thing, minute));
    there.map(|(_, held)| held).sum()
}

fn held_for(thing: usize, from: u32, to: u32) -> Choice {
    Choice { changes: 0, tie: 0, spans: vec![Span { thing, pieces: 1, from, to }] }
}

/// Who has one choice takes it before who has two.
#[test]
fn choices_are_taken_in_turn_by_who_has_the_fewest_first() {
    let two = Seat { client: 0, choices: vec![held_for(0, 0, 10), held_for(0, 10, 20)] };
    let one = Seat { client: 1, choices: vec![held_for(0, 0, 10)] };
    let puzzle = Puzzle { pieces: vec![1], borne: vec![0, 0], seats: vec![two, one.clone()] };
    assert_eq!(puzzle.in_turn(), Some(vec![1, 0]));
    let clash = Puzzle { seats: vec![one.clone(), one], ..puzzle };
    assert!(clash.in_turn().is_none() && clash.has_two_that_clash());
}

/// Ten want one of four racks all the time, so any five cannot be together. To look at every four takes more questions
/// than are asked, so that it is told and not called proven.
#[test]
fn the_fewest_are_proven_only_where_every_smaller_set_was_asked() {
    let seat = |client: usize| Seat { client, choices: vec![held_for(0, 0, 10)] };
    let of = |pieces: u32, seats: usize| Puzzle {
        pieces: vec![pieces],
        borne: vec![0; seats],
        seats: (0..seats).map(seat).collect(),
    };
    let many = smallest(&of(4, 10), 10);
    assert_eq!((many.seats.len(), many.proven), (5, false));
    let few = smallest(&of(2, 5), 5);
    assert_eq!((few.seats.len(), few.proven), (3, true));
}

/// Three cannot share two racks, and two others not one bar: leaving out one after the other ends with the three.
#[test]
fn a_smaller_set_is_found_beside_one_that_cannot_lose_anyone() {
    let things = [0, 0, 1, 1, 1];
    let seat =
        |(client, thing): (usize, &usize)| Seat { client, choices: vec![held_for(*thing, 0, 10)] };
    let seats = things.iter().enumerate().map(seat).collect();
    let told = smallest(&Puzzle { pieces: vec![1, 2], borne: vec![0; 5], seats }, 5);
    assert_eq!((told.seats, told.proven), (vec![0, 1], true));
}
