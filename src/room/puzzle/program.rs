//! A puzzle as a mixed-integer program in the ledger: a variable for each way of each visit, one row for each visit, and
//! one for each minute at which a thing could be held too often.
//!
//! What an answer is worth is settled part by part, each held before the next is asked: the most that anyone bears, all
//! changes together, how many bear so much and one less, and at last what decides among equals.

use std::collections::BTreeSet;

use super::{Answer, Choice, Puzzle, Seat, Span};
use crate::program::backend::{Backend, Found, Nothing, Problem, Work, solve};
use crate::program::{Model, Op, Term, Var, value};

/// What the rows are called.
const VISIT: &str = "one-way";
const THING: &str = "pieces";
const BURDEN: &str = "burden";
const HELD: &str = "held";

/// A puzzle in the ledger.
pub(super) struct Program<'a> {
    puzzle: &'a Puzzle,
    model: Model,
    /// Whether a visit is done in each of its ways.
    ways: Vec<Vec<Var>>,
    work: Work,
}

/// A part of the worth.
struct Part {
    values: Vec<f64>,
    /// Whether it is the least.
    proven: bool,
}

impl<'a> Program<'a> {
    /// The program of a puzzle, with at most so many nodes for each question.
    #[must_use]
    pub(super) fn of(puzzle: &'a Puzzle, nodes: u64) -> Program<'a> {
        let mut model = Model::default();
        let of_seat = |(at, seat): (usize, &Seat)| -> Vec<Var> {
            (0..seat.choices.len()).map(|way| model.binary(format!("visit{at}-way{way}"))).collect()
        };
        let ways: Vec<Vec<Var>> = puzzle.seats.iter().enumerate().map(of_seat).collect();
        for (at, ways) in ways.iter().enumerate() {
            let one = ways.iter().map(|way| (*way, 1.0)).collect();
            model.demand(VISIT, format!("visit{at}"), one, Op::Eq, 1.0);
        }
        let mut program = Program { puzzle, model, ways, work: Work { nodes } };
        for thing in 0..puzzle.pieces.len() {
            program.holds_what_there_is(thing);
        }
        program
    }

    /// A row for each minute; of minutes at which nobody more holds it than at another none.
    fn holds_what_there_is(&mut self, thing: usize) {
        let spans = self.spans(thing);
        let held_at = |minute: u32| -> Vec<(Var, u32)> {
            let holds = spans.iter().filter(|(_, span)| (span.from..span.to).contains(&minute));
            holds.map(|(way, span)| (*way, span.pieces)).collect()
        };
        // It is held most at a minute at which somebody could begin to hold it.
        let edges: BTreeSet<u32> = spans.iter().map(|(_, span)| span.from).collect();
        let rows: BTreeSet<Vec<(Var, u32)>> = edges.into_iter().map(held_at).collect();
        let is_within = |one: &Vec<(Var, u32)>, other: &Vec<(Var, u32)>| {
            one.len() < other.len() && one.iter().all(|term| other.binary_search(term).is_ok())
        };
        let pieces = f64::from(self.puzzle.pieces[thing]);
        for row in rows.iter().filter(|row| !rows.iter().any(|other| is_within(row, other))) {
            let terms = row.iter().map(|(way, pieces)| (*way, f64::from(*pieces))).collect();
            self.model.demand(THING, format!("thing{thing}"), terms, Op::Le, pieces);
        }
    }

    /// When each way holds a thing, in the order of the ways.
    fn spans(&self, thing: usize) -> Vec<(Var, Span)> {
        let seats = self.puzzle.seats.iter().zip(&self.ways);
        let choices = seats.flat_map(|(seat, ways)| seat.choices.iter().zip(ways));
        let spans =
            choices.flat_map(|(choice, way)| choice.spans.iter().map(move |span| (*way, *span)));
        spans.filter(|(_, span)| span.thing == thing).collect()
    }

    fn terms(&self, of: impl Fn(&Seat, &Choice) -> u32) -> Vec<(Var, u32)> {
        let seats = self.puzzle.seats.iter().zip(&self.ways);
        let all = seats.flat_map(|(seat, ways)| {
            seat.choices.iter().zip(ways).map(|(choice, way)| (*way, of(seat, choice)))
        });
        all.filter(|(_, factor)| *factor > 0).collect()
    }

    fn goal(&self, of: impl Fn(&Seat, &Choice) -> u32) -> Vec<Term> {
        let terms = self.terms(of).into_iter();
        terms.map(|(way, factor)| (way, f64::from(factor))).collect()
    }

    /// Any answer.
    #[must_use]
    pub(super) fn any(&self) -> Answer {
        // What is changed, as a goal: without one nothing leads the search, and it finds less in as many nodes.
        let gentle = self.goal(|_, choice| choice.tie.min(1) + choice.changes);
        match self.solved(&gentle, None, false) {
            Ok(found) => self.answer(&found.values, false, 0.0),
            Err(Nothing::Infeasible) => Answer::Nothing,
            Err(Nothing::Stopped) => Answer::Open,
        }
    }

    /// The best answer.
    #[must_use]
    pub(super) fn best(mut self) -> Answer {
        let mut values = match self.solved(&[], None, false) {
            Ok(found) => found.values,
            Err(Nothing::Infeasible) => return Answer::Nothing,
            Err(Nothing::Stopped) => return Answer::Open,
        };
        let most = self.most(&mut values);
        let all = self.goal(|_, choice| choice.changes);
        let more = 1.0 + self.puzzle.seats.iter().map(most_changes).map(f64::from).sum::<f64>();
        let both = all.iter().copied().chain([(most, more)]).collect();
        let mut part = self.least(both, values, 0.0);
        let mut proven = part.proven;
        let at_least = if proven { value(&all, &part.values) } else { self.least_of_all() };
        // How many bear one change at least follows from all changes, and that one bears the most is known.
        let highest = whole(part.values[most.0]);
        for level in (2..=highest).rev() {
            let bearing = self.bearing(level, most, &mut part.values);
            let known = if level == highest { 1.0 } else { 0.0 };
            part = self.least(bearing, part.values, known);
            proven &= part.proven;
        }
        let ties = self.goal(|_, choice| choice.tie);
        part = self.least(ties, part.values, 0.0);
        self.answer(&part.values, proven, at_least)
    }

    fn answer(&self, values: &[f64], proven: bool, at_least: f64) -> Answer {
        let pick = |ways: &Vec<Var>| {
            ways.iter().position(|way| values[way.0] > 0.5).expect("a row asks for one way")
        };
        let picks = self.ways.iter().map(pick).collect();
        Answer::Found { picks, proven, at_least: whole(at_least) }
    }

    /// A variable for what the most burdened client bears.
    fn most(&mut self, values: &mut Vec<f64>) -> Var {
        let borne = &self.puzzle.borne;
        let changes: Vec<Vec<Term>> = (0..borne.len()).map(|client| self.changes(client)).collect();
        let reached = changes.iter().zip(borne);
        let reached = reached.map(|(row, borne)| whole(value(row, values)) + borne);
        let reached = reached.max().unwrap_or(0);
        let most = self.model.integer("most".to_owned(), 0, reached);
        values.push(f64::from(reached));
        for (client, (mut row, borne)) in changes.into_iter().zip(borne).enumerate() {
            row.push((most, -1.0));
            self.model.demand(BURDEN, format!("client{client}"), row, Op::Le, -f64::from(*borne));
        }
        most
    }

    /// The changes of a client beyond those that are borne.
    fn changes(&self, client: usize) -> Vec<Term> {
        self.goal(|seat, choice| if seat.client == client { choice.changes } else { 0 })
    }

    /// Variables that say which clients bear at least so much.
    fn bearing(&mut self, level: u32, most: Var, values: &mut Vec<f64>) -> Vec<Term> {
        let under = f64::from(level) - 1.0;
        let above = values[most.0] - under;
        let clients = 0..self.puzzle.borne.len();
        let terms = clients.map(|client| {
            let mut row = self.changes(client);
            let name = format!("client{client}-bears{level}");
            let bears = self.model.binary(name.clone());
            let borne = f64::from(self.puzzle.borne[client]);
            values.push(f64::from(u8::from(borne + value(&row, values) > under + 0.5)));
            row.push((bears, -above));
            self.model.demand(BURDEN, name, row, Op::Le, under - borne);
            (bears, 1.0)
        });
        terms.collect()
    }

    /// The least value of a goal that is known to be no less than something; it is held from then on.
    fn least(&mut self, goal: Vec<Term>, start: Vec<f64>, known: f64) -> Part {
        let is_least = value(&goal, &start) < known + 0.5;
        let found = (!is_least).then(|| self.solved(&goal, Some(&start), false));
        let part = match found {
            Some(Ok(found)) => Part { proven: found.proven, values: found.values },
            Some(Err(_)) => Part { proven: false, values: start },
            None => Part { proven: true, values: start },
        };
        let reached = value(&goal, &part.values).round();
        self.model.demand(HELD, "worth", goal, Op::Le, reached);
        part
    }

    /// The least of all changes, whoever bears them, as far as the relaxation tells.
    fn least_of_all(&self) -> f64 {
        let free = Program::of(self.puzzle, self.work.nodes);
        let all = self.goal(|_, choice| choice.changes);
        let found = free.solved(&all, None, true);
        found.map_or(0.0, |found| (value(&all, &found.values) - 1e-6).ceil())
    }

    fn solved(
        &self,
        goal: &[Term],
        start: Option<&[f64]>,
        relaxed: bool,
    ) -> Result<Found, Nothing> {
        let goal: Vec<Term> = goal.iter().map(|(var, factor)| (*var, -factor)).collect();
        let (backend, work) = (Backend::default(), Some(self.work));
        let model = &self.model;
        solve(&Problem { backend, model, goal: &goal, relaxed, start, work })
    }
}

fn most_changes(seat: &Seat) -> u32 {
    seat.choices.iter().map(|choice| choice.changes).max().unwrap_or(0)
}

/// A value that is whole but for rounding.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts of changes")]
fn whole(value: f64) -> u32 {
    value.round().max(0.0) as u32
}
