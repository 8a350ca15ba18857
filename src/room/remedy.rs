//! Where nothing fits: who cannot be together, and what would help. Each way out was tried.

use std::fmt;

use itertools::Itertools as _;

use super::case::{Case, clock};
use super::puzzle::{Answer, Choice, Puzzle};
use super::stock::{Room, Thing};
use super::visit::Visit;
use super::ways::choices;
use crate::words::Weekday;

/// Nodes of a search tree for each question here.
const NODES: u64 = 60;
/// Other hours are tried in steps of so many minutes, and so many steps away.
const HOUR_STEP: u32 = 15;
const HOUR_STEPS: u32 = 12;
/// Nobody is sent here before or after these minutes of the day. Common practice.
const OPEN: std::ops::RangeInclusive<u32> = 6 * 60..=21 * 60;
/// Ways out that are told.
const TOLD: usize = 4;
/// Groups up to this size are asked for their smallest part by size; larger ones give up one after the other.
const BY_SIZE: usize = 8;

/// Something that would help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WayOut {
    /// One visit at another hour.
    Hour {
        /// Whose.
        client: String,
        /// The day.
        day: Weekday,
        /// Its hour in minutes of the day.
        start: u32,
    },
    /// One more of each of these.
    More(Vec<Thing>),
    /// Several together.
    All(Vec<WayOut>),
}

impl fmt::Display for WayOut {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WayOut::Hour { client, day, start } => {
                write!(out, "{client} on {day} at {}", clock(*start))
            }
            WayOut::More(things) => {
                let names: Vec<String> = things.iter().map(ToString::to_string).collect();
                write!(out, "one more {}", names.join(" and "))
            }
            WayOut::All(ways) => {
                let told: Vec<String> = ways.iter().map(ToString::to_string).collect();
                out.write_str(&told.join(" and "))
            }
        }
    }
}

/// The puzzle with some of its visits; what stands after them stays.
fn only(puzzle: &Puzzle, visits: usize, wanted: &[usize]) -> Puzzle {
    let seats = puzzle.seats.iter().enumerate();
    let kept = seats.filter(|(at, _)| *at >= visits || wanted.contains(at));
    Puzzle { seats: kept.map(|(_, seat)| seat.clone()).collect(), ..puzzle.clone() }
}

/// The fewest of a puzzle's visits that cannot be together. The puzzle has no solution.
#[must_use]
pub fn smallest(puzzle: &Puzzle, visits: usize) -> Vec<usize> {
    let fails = |wanted: &[usize]| only(puzzle, visits, wanted).any(NODES) == Answer::Nothing;
    if visits <= BY_SIZE {
        let found = (1..visits)
            .find_map(|size| (0..visits).combinations(size).find(|wanted| fails(wanted)));
        return found.unwrap_or_else(|| (0..visits).collect());
    }
    let mut left: Vec<usize> = (0..visits).collect();
    for visit in 0..visits {
        let without: Vec<usize> = left.iter().copied().filter(|at| *at != visit).collect();
        if fails(&without) {
            left = without;
        }
    }
    left
}

/// Other hours for one of the visits that cannot be together, nearest first; where one move is not enough, hours for
/// several; and one more of what they share.
#[must_use]
pub fn ways_out(
    room: &Room,
    visits: &[Visit],
    group: &[usize],
    case: &Case,
    smallest: &[usize],
) -> Vec<WayOut> {
    let count = group.len();
    let table = Table { visits, group, case };
    let mut hours: Vec<(u32, WayOut)> = smallest
        .iter()
        .filter_map(|seat| table.other_hour(&case.puzzle, *seat).map(|(away, _, way)| (away, way)))
        .collect();
    hours.sort_by_key(|(away, _)| *away);
    let mut ways: Vec<WayOut> = hours.into_iter().map(|(_, way)| way).collect();
    if ways.is_empty() {
        ways.extend(table.several(count).map(WayOut::All));
    }
    let more = |things: &[usize]| {
        let mut puzzle = case.puzzle.clone();
        for at in things {
            let thing = case.things[*at];
            puzzle.pieces[*at] = room.with_one_more(thing).pieces(thing);
        }
        fits(&puzzle).then(|| WayOut::More(things.iter().map(|at| case.things[*at]).collect()))
    };
    let things: Vec<usize> = (0..case.things.len()).collect();
    let mut added: Vec<WayOut> = things.iter().filter_map(|at| more(&[*at])).collect();
    if added.is_empty() {
        // A rack is of no use without a bar.
        let is_kit = |at: &usize| matches!(case.things[*at], Thing::Kit(_));
        let kit = things.into_iter().filter(is_kit);
        added = kit.array_combinations().filter_map(|two: [usize; 2]| more(&two)).collect();
    }
    ways.into_iter().chain(added).take(TOLD).collect()
}

fn fits(puzzle: &Puzzle) -> bool {
    matches!(puzzle.any(NODES), Answer::Found { .. })
}

/// A group that does not fit.
struct Table<'a> {
    visits: &'a [Visit],
    group: &'a [usize],
    case: &'a Case,
}

impl Table<'_> {
    /// The nearest hour at which a visit fits, as it is planned: how far away, the puzzle with it, and in words.
    fn other_hour(&self, puzzle: &Puzzle, seat: usize) -> Option<(u32, Vec<Choice>, WayOut)> {
        let visit = &self.visits[self.group[seat]];
        let planned = visit.start?;
        let things = self.case.things.iter().enumerate();
        let index = things.map(|(at, thing)| (*thing, at)).collect();
        let away = (1..=HOUR_STEPS).flat_map(|step| {
            let by = step * HOUR_STEP;
            [planned.checked_add(by), planned.checked_sub(by)]
        });
        away.flatten().filter(|start| OPEN.contains(start)).find_map(|start| {
            let own = &self.case.arrangements[seat][..1];
            let (picks, _) = choices(own, &[start], start, &index, &puzzle.pieces);
            let picks: Vec<Choice> = picks.into_iter().map(|pick| pick.choice).collect();
            let mut tried = puzzle.clone();
            tried.seats[seat].choices.clone_from(&picks);
            let (client, day) = (visit.client.clone(), visit.day);
            fits(&tried)
                .then(|| (start.abs_diff(planned), picks, WayOut::Hour { client, day, start }))
        })
    }

    /// One visit after the other, each at its hour where it fits with those before it, else at the nearest.
    fn several(&self, count: usize) -> Option<Vec<WayOut>> {
        let mut puzzle = self.case.puzzle.clone();
        let mut moves = Vec::new();
        for seat in 0..count {
            let so_far: Vec<usize> = (0..=seat).collect();
            if fits(&only(&puzzle, count, &so_far)) {
                continue;
            }
            let (_, picks, way) = self.other_hour(&only(&puzzle, count, &so_far), seat)?;
            puzzle.seats[seat].choices = picks;
            moves.push(way);
        }
        Some(moves)
    }
}
