//! The change in hand: which numbers it moves, and what that gains.

use super::Evaluator;
use super::pairing::{Couples, DayLoad, Way};
use super::tables::{LATER, Node, Part, Standing, Tables, Term, Worth, at};
use super::weights::Weights;

/// The numbers of a stage that a change moves, in the order in which it does, each once. Their list has room for all of the
/// stage and one more, so that a number is written down before it is known whether it is new there: a branch that nobody
/// can foretell would cost more.
#[derive(Clone)]
pub(super) struct Moved {
    list: Box<[u32]>,
    count: usize,
}

impl Moved {
    fn of_most(most: usize) -> Moved {
        Moved { list: vec![0; most + 1].into(), count: 0 }
    }

    #[inline]
    fn add(&mut self, number: u32, is_new: bool) {
        self.list[self.count] = number;
        self.count = self.count.wrapping_add(usize::from(is_new));
    }

    #[inline]
    pub(super) fn numbers(&self) -> &[u32] {
        &self.list[..self.count]
    }
}

/// What a change makes of a pick: whether it is done, and its sets above the fewest.
#[derive(Clone, Copy)]
pub(super) struct Moving {
    pub(super) pick: usize,
    pub(super) steps: [i32; 2],
}

/// What it makes of a day.
#[derive(Clone, Copy)]
pub(super) struct DayInHand {
    pub(super) day: usize,
    pub(super) load: DayLoad,
    /// Whether it brings or takes anything that can be paired, or leads the day.
    pub(super) is_moved: bool,
    /// What it brings to the day.
    pub(super) more: Standing,
    /// What its pairs gain.
    pub(super) gain: f64,
    /// Where its marks end among all.
    pub(super) marks: usize,
}

/// A change that is weighed and not made.
#[derive(Clone, Default)]
pub(super) struct Hand {
    pub(super) turn: u32,
    /// Numbers that it moves, by stage.
    pub(super) moved: Vec<Moved>,
    pub(super) picks: Vec<Moving>,
    pub(super) days: Vec<DayInHand>,
    /// How those of them are paired whose pairs were looked for.
    pub(super) ways: Vec<(usize, Way, Couples)>,
    /// Variables that say who is paired, where that is asked, and by how much each changes.
    pub(super) marks: Vec<(usize, i32)>,
}

impl Hand {
    pub(super) fn new(tables: &Tables) -> Hand {
        let moved = tables.stages.iter().map(|stage| Moved::of_most(stage.numbers));
        Hand { moved: moved.collect(), ..Hand::default() }
    }

    /// Takes a new change in hand. Which numbers it moves is forgotten stage by stage, as few changes come to all.
    pub(super) fn clear(&mut self) {
        self.turn = self.turn.wrapping_add(1);
        self.days.clear();
        self.ways.clear();
        self.marks.clear();
        self.picks.clear();
    }

    /// Takes in hand what is later than the first stages.
    pub(super) fn clear_later(&mut self) {
        self.moved[LATER..].iter_mut().for_each(|moved| moved.count = 0);
    }

    /// What it makes of a day, which stood in some way.
    #[inline]
    pub(super) fn day(&mut self, day: usize, loads: &[DayLoad]) -> &mut DayInHand {
        let known = self.days.iter().position(|one| one.day == day);
        let place = known.unwrap_or(self.days.len());
        if known.is_none() {
            let (load, more) = (loads[day], Standing::default());
            self.days.push(DayInHand { day, load, is_moved: false, more, gain: 0.0, marks: 0 });
        }
        &mut self.days[place]
    }

    /// The numbers that it moves, one stage after another.
    pub(super) fn numbers(&self) -> impl Iterator<Item = usize> {
        let numbers = self.moved.iter().flat_map(Moved::numbers);
        numbers.map(|number| *number as usize)
    }

    /// Moves a number of any stage.
    #[inline]
    pub(super) fn move_by(&mut self, tables: &Tables, nodes: &mut [Node], number: u32, by: i32) {
        let is_new = nodes[number as usize].is_first_moved(self.turn, by);
        self.moved[tables.kept[number as usize].stage as usize].add(number, is_new);
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

    /// The same where it may be moved by nothing, and then does not count as moved.
    #[inline]
    fn is_first_moved_if_at_all(&mut self, turn: u32, by: i32) -> bool {
        let is_first = self.turn != turn;
        self.delta = if is_first { by } else { self.delta.wrapping_add(by) };
        self.turn = if by == 0 { self.turn } else { turn };
        is_first && by != 0
    }

    /// The same where the change in hand has moved nothing as yet.
    #[inline]
    fn is_moved_at_all(&mut self, turn: u32, by: i32) -> bool {
        self.delta = by;
        self.turn = if by == 0 { self.turn } else { turn };
        by != 0
    }
}

/// By how much a pick's new steps move a number. No product leaves the reach of a number.
#[inline]
fn moved_by(term: &Term, [once, further]: [i32; 2]) -> i32 {
    once.wrapping_mul(term.by[0]).wrapping_add(further.wrapping_mul(term.by[1]))
}

impl Evaluator<'_> {
    /// Moves the numbers of a stage that picks alone are in; the first that the change in hand moves there.
    pub(super) fn move_picks(&mut self, stage: usize) {
        let terms = &self.tables.terms;
        let nodes = self.nodes.as_mut_slice();
        let turn = self.hand.turn;
        let moved = &mut self.hand.moved[stage];
        let (list, mut count) = (&mut *moved.list, 0_usize);
        let mut picks = self.hand.picks.iter();
        if let Some(Moving { pick, steps }) = picks.next() {
            // A pick has each number once.
            let steps = *steps;
            for term in terms.of(*pick, steps[0] == 0, stage) {
                let by = moved_by(term, steps);
                list[count] = term.to;
                let is_moved = nodes[term.to as usize].is_moved_at_all(turn, by);
                count = count.wrapping_add(usize::from(is_moved));
            }
        }
        for Moving { pick, steps } in picks {
            let steps = *steps;
            for term in terms.of(*pick, steps[0] == 0, stage) {
                let by = moved_by(term, steps);
                list[count] = term.to;
                let is_new = nodes[term.to as usize].is_first_moved_if_at_all(turn, by);
                count = count.wrapping_add(usize::from(is_new));
            }
        }
        moved.count = count;
    }

    /// The same of numbers that get parts from others as well.
    pub(super) fn move_later(&mut self) {
        for place in 0..self.hand.picks.len() {
            let Moving { pick, steps } = self.hand.picks[place];
            for term in self.tables.terms.of(pick, steps[0] == 0, LATER) {
                let by = moved_by(term, steps);
                if by != 0 {
                    self.move_by(term.to, by);
                }
            }
        }
    }

    #[inline]
    pub(super) fn move_by(&mut self, number: u32, by: i32) {
        self.hand.move_by(self.tables, &mut self.nodes, number, by);
    }

    /// A number with the change in hand.
    pub(super) fn now(&self, number: usize) -> i32 {
        now(&self.nodes, self.hand.turn, number)
    }

    /// Chooses the values of a stage that are the least or greatest of others, all of which are of earlier stages.
    pub(super) fn choose(&mut self, stage: usize) {
        if !self.tables.stages[stage].has_extremes {
            return;
        }
        for number in self.hand.moved[stage].numbers().iter().map(|number| *number as usize) {
            if self.tables.kept[number].is_extreme {
                choose(self.tables, &mut self.nodes, self.hand.turn, number);
            }
        }
    }

    /// What the numbers that moved in a stage gain; some of it where it is less than is of any use.
    #[inline]
    pub(super) fn gain(&self, stage: usize, weights: &Weights, least: f64) -> f64 {
        let nodes = self.nodes.as_slice();
        let scores = weights.scores.as_slice();
        let mut gain = 0.0;
        for number in self.hand.moved[stage].numbers() {
            let Node { value, delta, place, .. } = nodes[*number as usize];
            let worth = |value: i32| scores.get(at(place, value));
            if let (Some(before), Some(after)) = (worth(value), worth(value.wrapping_add(delta))) {
                gain += after - before;
                if gain < least {
                    break;
                }
            } else {
                gain += self.gain_apart(*number as usize, weights);
            }
        }
        gain
    }

    /// The same of a number whose worth is in no table.
    #[inline(never)]
    fn gain_apart(&self, number: usize, weights: &Weights) -> f64 {
        if self.tables.kept[number].worth == Worth::Nothing {
            return 0.0;
        }
        let Node { value, delta, .. } = self.nodes[number];
        let worth = |value: i32| weights.of(&self.tables.score(number, value));
        worth(value.wrapping_add(delta)) - worth(value)
    }

    /// Hands on what the numbers that moved in a stage bring to later ones.
    pub(super) fn hand_on(&mut self, stage: usize) {
        if !self.tables.stages[stage].hands_on {
            return;
        }
        let (tables, hand) = (self.tables, &mut self.hand);
        let nodes = self.nodes.as_mut_slice();
        for place in 0..hand.moved[stage].count {
            let number = hand.moved[stage].list[place] as usize;
            let node = &nodes[number];
            if node.delta != 0 {
                let values = [node.value, node.value.wrapping_add(node.delta)];
                hand_on(tables, nodes, hand, number, values);
            }
        }
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
            hand.move_by(tables, nodes, forward.to, by);
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
