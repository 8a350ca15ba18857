//! The program against every combination, and its answers against the meaning of holding a thing.

use proptest::prelude::*;

use super::*;

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
    use itertools::Itertools as _;
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
