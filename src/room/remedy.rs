//! Where nothing fits: what would help. Each way out was tried, as far as the work goes.

use std::fmt;

use super::case::{Case, clock};
use super::puzzle::{Answer, Choice, Puzzle};
use super::smallest::{Purse, only};
use super::stock::{Room, Thing};
use super::visit::Visit;
use super::ways::choices;
use crate::words::{Kit, Weekday};

/// Other hours are tried in steps of so many minutes, and so many steps away.
const HOUR_STEP: u32 = 15;
const HOUR_STEPS: u32 = 12;
/// Nobody is sent here before or after these minutes of the day. Common practice.
const OPEN: std::ops::RangeInclusive<u32> = 6 * 60..=21 * 60;
/// Ways out that are told.
const TOLD: usize = 4;

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
                let names: Vec<String> = things.iter().map(piece).collect();
                write!(out, "one more {}", names.join(" and "))
            }
            WayOut::All(ways) => {
                let told: Vec<String> = ways.iter().map(ToString::to_string).collect();
                out.write_str(&told.join(" and "))
            }
        }
    }
}

/// One piece more of a thing in words.
fn piece(thing: &Thing) -> String {
    match thing {
        Thing::Plate(..) | Thing::Mass(Kit::Dumbbells, ..) => format!("pair of {thing}"),
        _ => thing.to_string(),
    }
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
    let lean = case.puzzle.lean();
    let table = Table { visits, group, case, puzzle: &lean, purse: Purse::full() };
    let mut hours: Vec<(u32, WayOut)> = smallest
        .iter()
        .filter(|seat| table.fits(&table.without(**seat)))
        .filter_map(|seat| table.other_hour(&lean, *seat).map(|(away, _, way)| (away, way)))
        .collect();
    hours.sort_by_key(|(away, _)| *away);
    let mut ways: Vec<WayOut> = hours.into_iter().map(|(_, way)| way).collect();
    if ways.is_empty() {
        ways.extend(table.several().map(WayOut::All));
    }
    ways.into_iter().chain(table.more(room, smallest)).take(TOLD).collect()
}

/// The things of which one more alone helps. What helps alone helps with others too, so halves that do not are let go.
fn each_that_helps(things: &[usize], helps: &dyn Fn(&[usize]) -> bool) -> Vec<usize> {
    if things.is_empty() || !helps(things) {
        return Vec::new();
    }
    if let [only] = things {
        return vec![*only];
    }
    let (front, back) = things.split_at(things.len() / 2);
    [each_that_helps(front, helps), each_that_helps(back, helps)].concat()
}

/// A group that does not fit.
struct Table<'a> {
    visits: &'a [Visit],
    group: &'a [usize],
    case: &'a Case,
    /// Its puzzle, with the choices that count for whether it fits.
    puzzle: &'a Puzzle,
    purse: Purse,
}

impl Table<'_> {
    fn fits(&self, puzzle: &Puzzle) -> bool {
        matches!(self.purse.any(puzzle), Answer::Found { .. })
    }

    /// The puzzle without a visit: where that does not fit, no hour of this one helps.
    fn without(&self, seat: usize) -> Puzzle {
        let others: Vec<usize> = (0..self.group.len()).filter(|at| *at != seat).collect();
        only(self.puzzle, self.group.len(), &others)
    }

    /// One piece more of a thing; where none is enough, one of each of two, as a rack is of no use without a bar.
    fn more(&self, room: &Room, smallest: &[usize]) -> Vec<WayOut> {
        let with = |puzzle: &Puzzle, things: &[usize]| {
            let mut puzzle = puzzle.clone();
            for at in things {
                let thing = self.case.things[*at];
                puzzle.pieces[*at] = room.with_one_more(thing).pieces(thing);
            }
            puzzle
        };
        // What does not help those who cannot be together does not help all.
        let few = only(self.puzzle, self.group.len(), smallest);
        let helps = |things: &[usize]| {
            self.fits(&with(&few, things)) && self.fits(&with(self.puzzle, things))
        };
        let told = |things: &[usize]| {
            WayOut::More(things.iter().map(|at| self.case.things[*at]).collect())
        };
        let things: Vec<usize> = (0..self.case.things.len()).collect();
        let one = each_that_helps(&things, &helps);
        if !one.is_empty() {
            return one.iter().map(|at| told(&[*at])).collect();
        }
        let is_kit = |at: &usize| matches!(self.case.things[*at], Thing::Kit(_));
        let kit: Vec<usize> = things.into_iter().filter(is_kit).collect();
        let pairs = (0..kit.len()).filter(|at| helps(&kit[*at..])).flat_map(|at| {
            let first = kit[at];
            kit[at + 1..].iter().map(move |second| [first, *second])
        });
        pairs.filter(|two| helps(two)).map(|two| told(&two)).take(TOLD).collect()
    }

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
            self.fits(&tried)
                .then(|| (start.abs_diff(planned), picks, WayOut::Hour { client, day, start }))
        })
    }

    /// One visit after the other, each at its hour where it fits with those before it, else at the nearest.
    fn several(&self) -> Option<Vec<WayOut>> {
        let count = self.group.len();
        let mut puzzle = self.puzzle.clone();
        let mut moves = Vec::new();
        for seat in 0..count {
            let so_far: Vec<usize> = (0..=seat).collect();
            if self.fits(&only(&puzzle, count, &so_far)) {
                continue;
            }
            let (_, picks, way) = self.other_hour(&only(&puzzle, count, &so_far), seat)?;
            puzzle.seats[seat].choices = picks;
            moves.push(way);
        }
        Some(moves)
    }
}
