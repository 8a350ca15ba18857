//! The change in hand: which numbers it moves, and what that gains.

use smallvec::SmallVec;

use super::pairing::{DayLoad, Way};
use super::tables::{LATER, Node, Part, Tables, Term};
use super::{Change, Evaluator};

/// A change that is weighed and not made.
#[derive(Clone, Default)]
pub(super) struct Hand {
    pub(super) turn: u32,
    /// Numbers that it moves, by stage.
    pub(super) moved: Vec<Vec<u32>>,
    /// What it changes of each pick: whether it is done, and its sets above the fewest.
    pub(super) steps: SmallVec<[[i32; 2]; 8]>,
    /// The days that it changes, as they are then.
    pub(super) days: SmallVec<[(usize, DayLoad); 4]>,
    /// How those of them are paired whose pairs were looked for.
    pub(super) ways: SmallVec<[(usize, Way); 4]>,
    /// Variables that say who is paired, where that is asked, and by how much each changes.
    pub(super) marks: SmallVec<[(usize, i32); 8]>,
}

impl Hand {
    /// Moves a number of any stage.
    #[inline]
    pub(super) fn move_by(&mut self, nodes: &mut [Node], number: u32, by: i32) {
        let node = &mut nodes[number as usize];
        if node.is_first_moved(self.turn, by) {
            self.moved[node.stage as usize].push(number);
        }
    }
}

impl Node {
    /// Moves it, and says whether it had not been moved by the change in hand. No sum leaves the reach of a number.
    #[inline]
    fn is_first_moved(&mut self, turn: u32, by: i32) -> bool {
        let is_first = self.turn != turn;
        self.delta = if is_first { by } else { self.delta.wrapping_add(by) };
        self.turn = turn;
        is_first
    }
}

/// By how much a pick's new steps move a number. No product leaves the reach of a number.
#[inline]
fn moved_by(term: &Term, [once, further]: [i32; 2]) -> i32 {
    once.wrapping_mul(term.by[0]).wrapping_add(further.wrapping_mul(term.by[1]))
}

impl Evaluator<'_> {
    /// Moves the numbers of a stage that picks alone are in.
    pub(super) fn move_picks(&mut self, change: &Change, stage: usize) {
        let terms = &self.tables.terms[stage];
        let nodes = self.nodes.as_mut_slice();
        let turn = self.hand.turn;
        // In hand while it is filled: this is most of what a search does.
        let mut moved = std::mem::take(&mut self.hand.moved[stage]);
        for ((pick, _), steps) in change.iter().zip(&self.hand.steps) {
            for term in terms.of(*pick) {
                let by = moved_by(term, *steps);
                if by != 0 && nodes[term.to as usize].is_first_moved(turn, by) {
                    moved.push(term.to);
                }
            }
        }
        self.hand.moved[stage] = moved;
    }

    /// The same of numbers that get parts from others as well.
    pub(super) fn move_later(&mut self, change: &Change) {
        let terms = &self.tables.terms[LATER];
        for (place, (pick, _)) in change.iter().enumerate() {
            let steps = self.hand.steps[place];
            for term in terms.of(*pick) {
                let by = moved_by(term, steps);
                if by != 0 {
                    self.hand.move_by(&mut self.nodes, term.to, by);
                }
            }
        }
    }

    #[inline]
    pub(super) fn move_by(&mut self, number: u32, by: i32) {
        self.hand.move_by(&mut self.nodes, number, by);
    }

    /// A number with the change in hand.
    pub(super) fn now(&self, number: usize) -> i32 {
        now(&self.nodes, self.hand.turn, number)
    }

    /// Looks at the numbers that moved in a stage, and hands on what they bring to later ones. The sum of their gains.
    pub(super) fn look(&mut self, stage: usize, gain_at: impl Fn(&Node, i32) -> f64) -> f64 {
        let (tables, hand) = (self.tables, &mut self.hand);
        let nodes = self.nodes.as_mut_slice();
        let mut gain = 0.0;
        // What is handed on is of later stages.
        let moved = std::mem::take(&mut hand.moved[stage]);
        for number in moved.iter().map(|number| *number as usize) {
            if nodes[number].is_extreme {
                choose(tables, nodes, hand.turn, number);
            }
            let node = &nodes[number];
            if node.delta == 0 {
                continue;
            }
            let (before, after) = (node.value, node.value.wrapping_add(node.delta));
            gain += gain_at(node, after);
            if node.hands_on {
                hand_on(tables, nodes, hand, number, [before, after]);
            }
        }
        hand.moved[stage] = moved;
        gain
    }
}

/// Hands on what a number's new value brings to others.
#[inline]
fn hand_on(
    tables: &Tables,
    nodes: &mut [Node],
    hand: &mut Hand,
    number: usize,
    [before, after]: [i32; 2],
) {
    for forward in tables.forwards.of(number) {
        let by = match forward.part {
            Part::Times(by) => by.wrapping_mul(after.wrapping_sub(before)),
            part => tables.part(part, after).wrapping_sub(tables.part(part, before)),
        };
        if by != 0 || forward.part == Part::Choice {
            hand.move_by(nodes, forward.to, by);
        }
    }
}

fn now(nodes: &[Node], turn: u32, number: usize) -> i32 {
    let node = &nodes[number];
    if node.turn == turn { node.value + node.delta } else { node.value }
}

/// The least or greatest of some values, with the change in hand.
fn choose(tables: &Tables, nodes: &mut [Node], turn: u32, number: usize) {
    let choices = &tables.choices[number];
    let values =
        choices.of.iter().map(|(of, part)| tables.part(*part, now(nodes, turn, *of as usize)));
    let value = if choices.is_least { values.max() } else { values.min() };
    let node = &mut nodes[number];
    node.delta = value.unwrap_or(node.value) - node.value;
}
