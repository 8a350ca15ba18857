//! Which picks, and the pairs of which days, can raise or lower each number.

use std::collections::BTreeMap;

use super::layout::{Layout, monotone};
use super::{Choices, Forward, Kept, Part, Worth};
use crate::model::Weekly;
use crate::search::evaluator::lists::{Lists, small};
use crate::search::evaluator::sums::Node as Number;

/// More of something can raise a number.
const RAISES: u8 = 1;
/// More of it can lower a number.
const LOWERS: u8 = 2;

/// What can raise each number, and what can lower it, itself or by what the number gets from others; nothing of numbers
/// that are worth nothing. Each pick counts twice: with more of it, and with less. Behind the picks stand the pairs of days.
pub(in crate::search::evaluator) struct Movers {
    pub(in crate::search::evaluator) raising: Lists<u32>,
    pub(in crate::search::evaluator) lowering: Lists<u32>,
    /// Where those of days begin.
    first_day: usize,
    /// How many there are.
    pub(in crate::search::evaluator) count: usize,
}

/// What a model's numbers get from one another.
#[derive(Clone, Copy)]
pub(super) struct Parts<'n> {
    pub(super) numbers: &'n [Number],
    pub(super) layout: &'n Layout<'n>,
    pub(super) forwards: &'n [Vec<Forward>],
    pub(super) choices: &'n [Choices],
}

impl Movers {
    pub(super) fn new(weekly: &Weekly, kept: &[Kept], parts: Parts) -> Movers {
        let first_day = Movers::of_pick(weekly.picks.len(), false);
        let (mut raising, mut lowering) = (Lists::default(), Lists::default());
        for (ways, kept) in ways(weekly, parts).iter().zip(kept) {
            let picks: &[u8] = if kept.worth == Worth::Nothing { &[] } else { &ways.picks };
            let days = ways.days.iter().filter(|_| !picks.is_empty());
            let days = days.map(|day| small(first_day + day));
            let (mut raises, mut lowers) = (Vec::new(), Vec::new());
            for (pick, way) in picks.iter().enumerate() {
                let [more, less] = [false, true].map(|less| small(Movers::of_pick(pick, less)));
                if way & RAISES != 0 {
                    raises.push(more);
                    lowers.push(less);
                }
                if way & LOWERS != 0 {
                    lowers.push(more);
                    raises.push(less);
                }
            }
            raising.push(raises.into_iter().chain(days.clone()));
            lowering.push(lowers.into_iter().chain(days));
        }
        Movers { raising, lowering, first_day, count: first_day + weekly.request.days.len() }
    }

    /// A pick that is done more or less.
    #[inline]
    pub(in crate::search::evaluator) fn of_pick(pick: usize, is_less: bool) -> usize {
        2 * pick + usize::from(is_less)
    }

    /// The pairs of a day.
    #[inline]
    pub(in crate::search::evaluator) fn of_day(&self, day: usize) -> usize {
        self.first_day + day
    }
}

/// What can move a number.
#[derive(Clone)]
struct Ways {
    /// What more of each pick can do to it.
    picks: Vec<u8>,
    /// Days whose pairs move it somehow.
    days: Vec<usize>,
}

/// What can move each number.
fn ways(weekly: &Weekly, parts: Parts) -> Vec<Ways> {
    let days_of_marks = days_of_marks(weekly);
    let nothing = Ways { picks: vec![0; weekly.picks.len()], days: Vec::new() };
    let mut all = vec![nothing; parts.numbers.len()];
    for (place, number) in parts.numbers.iter().enumerate() {
        // What a number hands on goes to later ones.
        let (before, after) = all.split_at_mut(place + 1);
        let Ways { picks, days } = &mut before[place];
        for (pick, by) in &number.sum.picks {
            let raises = by.iter().any(|by| *by > 0);
            let lowers = by.iter().any(|by| *by < 0);
            picks[*pick] |= (u8::from(raises) * RAISES) | (u8::from(lowers) * LOWERS);
        }
        days.extend(number.sum.pairs.keys());
        days.extend(number.sum.marks.keys().filter_map(|var| days_of_marks.get(var)));
        days.sort_unstable();
        days.dedup();
        for forward in &parts.forwards[place] {
            let [rises, falls] = parts.monotone(place, *forward);
            let to = &mut after[forward.to as usize - place - 1];
            for (way, of) in to.picks.iter_mut().zip(&*picks) {
                let turned = ((of & RAISES) << 1) | ((of & LOWERS) >> 1);
                *way |= (u8::from(rises) * of) | (u8::from(falls) * turned);
            }
            to.days.extend(&*days);
        }
    }
    all
}

impl Parts<'_> {
    /// Whether what a number hands on rises with it anywhere, and whether it falls.
    fn monotone(&self, from: usize, forward: Forward) -> [bool; 2] {
        let range = self.numbers[from].range;
        if forward.part != Part::Choice {
            return monotone(self.layout, forward.part, range);
        }
        let choices = self.choices[forward.to as usize].of.iter();
        let of_it = choices.filter(|(of, _)| *of as usize == from);
        let ways = of_it.map(|(_, part)| monotone(self.layout, *part, range));
        ways.fold([false; 2], |all, way| [all[0] | way[0], all[1] | way[1]])
    }
}

/// The day of each variable that says who is paired there, or how many of two classes are.
fn days_of_marks(weekly: &Weekly) -> BTreeMap<usize, usize> {
    let who = weekly.picks.iter().flat_map(|pick| pick.paired().map(|var| (var.0, pick.day)));
    who.chain(weekly.pairs.iter().map(|pair| (pair.count.0, pair.day))).collect()
}
