//! The choices of a visit: every arrangement of its session, at every start, with every way to do each group.

use std::collections::BTreeMap;

use super::arrangement::Arrangement;
use super::puzzle::{Choice, Span};
use super::stock::Thing;
use super::visit::{Block, minute};

/// Starts move by whole steps of so many minutes: nobody comes at 18:33 (common practice).
pub const STEP: u32 = 5;

/// Choices of one arrangement and start that differ by machine or bench only.
const MOST_WAYS: usize = 512;

/// A choice with what it stands for.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// Its place among the arrangements.
    pub arrangement: usize,
    /// When it starts.
    pub start: u32,
    /// The way of each block.
    pub ways: Vec<usize>,
    /// For the puzzle.
    pub choice: Choice,
}

/// Every choice over some arrangements and starts, as far as some things see them, and whether these are all: of choices
/// that hold the same of these things the gentlest is kept.
#[must_use]
pub fn choices(
    arrangements: &[Arrangement],
    starts: &[u32],
    planned: u32,
    things: &BTreeMap<Thing, usize>,
    pieces: &[u32],
) -> (Vec<Pick>, bool) {
    let mut is_whole = true;
    let mut kept: BTreeMap<Vec<Span>, Pick> = BTreeMap::new();
    for (place, arrangement) in arrangements.iter().enumerate() {
        let (all_ways, are_all) = combined(&arrangement.blocks, things);
        is_whole &= are_all;
        for ways in all_ways {
            for start in starts {
                let spans = spans(&arrangement.blocks, &ways, *start, things, pieces);
                let is_late = *start != planned;
                let changes = arrangement.changes() + u32::from(is_late);
                let tie = tie(arrangement, start.abs_diff(planned), &ways);
                let choice = Choice { changes, tie, spans: spans.clone() };
                let option = Pick { arrangement: place, start: *start, ways: ways.clone(), choice };
                let worth = |one: &Pick| (one.choice.changes, one.choice.tie, one.arrangement);
                let is_better = kept.get(&spans).is_none_or(|one| worth(&option) < worth(one));
                if is_better {
                    kept.insert(spans, option);
                }
            }
        }
    }
    let mut choices: Vec<Pick> = kept.into_values().collect();
    choices.sort_by_key(|one| {
        (one.choice.changes, one.choice.tie, one.arrangement, one.start, one.ways.clone())
    });
    (choices, is_whole)
}

/// Among as few changes: another exercise counts most, then another start by its minutes, another order, another machine.
fn tie(arrangement: &Arrangement, moved: u32, ways: &[usize]) -> u32 {
    let count = |list: usize| u32::try_from(list).unwrap_or(0);
    let other_kit = count(ways.iter().filter(|way| **way > 0).count());
    let order = if arrangement.order.is_some() { 20 } else { 0 };
    count(arrangement.swaps.len()) * 100_000 + moved * 100 + order + other_kit
}

/// The ways of the blocks together, and whether these are all; ways that look alike to the things are one.
fn combined(blocks: &[Block], things: &BTreeMap<Thing, usize>) -> (Vec<Vec<usize>>, bool) {
    let mut is_whole = true;
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    for block in blocks {
        let mut seen = Vec::new();
        let mut places = Vec::new();
        for (place, way) in block.ways.iter().enumerate() {
            let counted: Vec<_> =
                way.iter().filter(|hold| things.contains_key(&hold.thing)).collect();
            if !seen.contains(&counted) {
                seen.push(counted);
                places.push(place);
            }
        }
        all = all
            .iter()
            .flat_map(|one| places.iter().map(|place| [one.as_slice(), &[*place]].concat()))
            .collect();
        is_whole &= all.len() <= MOST_WAYS;
        all.truncate(MOST_WAYS);
    }
    (all, is_whole)
}

/// What is held minute by minute, as spans; what one person holds is never more than there is.
fn spans(
    blocks: &[Block],
    ways: &[usize],
    start: u32,
    things: &BTreeMap<Thing, usize>,
    pieces: &[u32],
) -> Vec<Span> {
    let mut held: BTreeMap<(usize, u32), u32> = BTreeMap::new();
    let mut at = 0;
    for (block, way) in blocks.iter().zip(ways) {
        let mut own: BTreeMap<(usize, u32), u32> = BTreeMap::new();
        for hold in &block.ways[*way] {
            let Some(&thing) = things.get(&hold.thing) else { continue };
            for minute in minute(at + hold.from_s)..minute(at + hold.to_s) {
                *own.entry((thing, start + minute)).or_default() += hold.pieces;
            }
        }
        for ((thing, minute), count) in own {
            held.insert((thing, minute), count.min(pieces[thing]));
        }
        at += block.seconds;
    }
    let mut spans: Vec<Span> = Vec::new();
    for ((thing, minute), count) in held {
        match spans.last_mut() {
            Some(last) if (last.thing, last.pieces, last.to) == (thing, count, minute) => {
                last.to = minute + 1;
            }
            _ => spans.push(Span { thing, pieces: count, from: minute, to: minute + 1 }),
        }
    }
    spans
}
