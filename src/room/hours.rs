//! What is held at each minute of the day, and where that is more than there is.

use std::collections::BTreeMap;

use super::arrangement::Arrangement;
use super::stock::{Room, Thing};
use super::visit::{Visit, minute};
use crate::words::Weekday;

/// How a visit is done.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// When it starts, in minutes of the day.
    pub start: u32,
    /// Its session.
    pub arrangement: Arrangement,
    /// The way of each group.
    pub ways: Vec<usize>,
}

/// More people than pieces for some minutes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Collision {
    /// Of what.
    pub thing: Thing,
    /// From this minute of the day.
    pub from: u32,
    /// Up to this one.
    pub to: u32,
    /// Who holds it then, as places among the visits.
    pub visits: Vec<usize>,
    /// How many pieces they hold at most.
    pub wanted: u32,
    /// How many there are.
    pub pieces: u32,
}

/// What a visit holds at each minute of the day.
pub(super) fn minutes(done: &Done) -> Vec<(Thing, u32, u32)> {
    let mut held: BTreeMap<(Thing, u32), u32> = BTreeMap::new();
    let mut at = 0;
    for (block, way) in done.arrangement.blocks.iter().zip(&done.ways) {
        let mut own: BTreeMap<(Thing, u32), u32> = BTreeMap::new();
        for hold in &block.ways[*way] {
            for minute in minute(at + hold.from_s)..minute(at + hold.to_s) {
                *own.entry((hold.thing, done.start + minute)).or_default() += hold.pieces;
            }
        }
        held.extend(own);
        at += block.seconds;
    }
    held.into_iter().map(|((thing, minute), count)| (thing, minute, count)).collect()
}

/// A thing that a visit holds, in minutes of the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// What.
    pub thing: Thing,
    /// From and up to.
    pub span: [u32; 2],
}

/// What a visit holds from when to when, by thing.
#[must_use]
pub fn held(done: &Done) -> Vec<Held> {
    let mut held: Vec<Held> = Vec::new();
    for (thing, minute, _) in minutes(done) {
        match held.last_mut() {
            Some(last) if last.thing == thing && last.span[1] == minute => last.span[1] += 1,
            _ => held.push(Held { thing, span: [minute, minute + 1] }),
        }
    }
    held
}

/// What collides among some visits as they are done.
pub(super) fn collisions(
    room: &Room,
    visits: &[Visit],
    done: &[Done],
    group: &[usize],
) -> Vec<Collision> {
    let mut held: BTreeMap<(Weekday, Thing, u32), Vec<(usize, u32)>> = BTreeMap::new();
    for at in group {
        for (thing, minute, count) in minutes(&done[*at]) {
            let count = count.min(room.pieces(thing));
            held.entry((visits[*at].day, thing, minute)).or_default().push((*at, count));
        }
    }
    let mut found: Vec<(Weekday, Collision)> = Vec::new();
    for ((day, thing, minute), who) in held {
        let wanted: u32 = who.iter().map(|(_, count)| count).sum();
        let pieces = room.pieces(thing);
        if wanted <= pieces {
            continue;
        }
        let visits: Vec<usize> = who.into_iter().map(|(at, _)| at).collect();
        match found.last_mut() {
            Some((on, last))
                if (*on, last.thing, last.to) == (day, thing, minute) && last.visits == visits =>
            {
                last.to += 1;
                last.wanted = last.wanted.max(wanted);
            }
            _ => {
                let (from, to) = (minute, minute + 1);
                found.push((day, Collision { thing, from, to, visits, wanted, pieces }));
            }
        }
    }
    let mut found: Vec<Collision> = found.into_iter().map(|(_, one)| one).collect();
    found.sort_by_key(|one| (visits[one.visits[0]].day, one.from, one.thing));
    found
}
