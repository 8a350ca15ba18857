//! The choices of a visit: every arrangement of its session, at every start, with every way to do each group.

use std::collections::BTreeMap;

use super::orders::Held;
use super::puzzle::{Choice, Span};
use super::stock::{Room, Thing};
use super::swaps;
use super::visit::{Block, Visit, blocks, minute};
use crate::input::plan::{Plan, Session};
use crate::planner::{Options, Planner};
use crate::request::Request;

/// What may change, the gentlest first; each takes in those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, strum::Display)]
#[strum(serialize_all = "kebab-case")]
pub enum Reach {
    /// Nothing of the plan; another machine or bench for the same item.
    Kept,
    /// The order of a session.
    Order,
    /// The start.
    Start,
    /// One exercise for another.
    Swap,
}

impl Reach {
    /// All of them.
    pub const ALL: [Reach; 4] = [Reach::Kept, Reach::Order, Reach::Start, Reach::Swap];
}

/// A way to do a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// What of the plan it changes.
    pub reach: Reach,
    /// In words; nothing where it is as planned.
    pub told: Option<String>,
    /// The session.
    pub session: Session,
    /// What its groups hold.
    pub blocks: Vec<Block>,
}

/// Starts move by whole steps of so many minutes: nobody comes at 18:33 (common practice).
pub const STEP: u32 = 5;

/// Choices of one arrangement and start that differ by machine or bench only.
const MOST_WAYS: usize = 64;

/// The session as the plan has it.
#[must_use]
pub fn as_planned(visit: &Visit) -> Arrangement {
    Arrangement {
        reach: Reach::Kept,
        told: None,
        session: visit.written.clone(),
        blocks: visit.blocks.clone(),
    }
}

/// The other arrangements of a visit: other orders, and with `swaps` other exercises.
#[must_use]
pub fn others(
    room: &Room,
    planner: &Planner,
    plan: &Plan,
    visit: &Visit,
    with_swaps: bool,
) -> Vec<Arrangement> {
    let planner = planner.with_plan(plan);
    let Some(request) = request(&planner, plan) else { return Vec::new() };
    let Some(week) = plan.weeks.iter().find(|week| week.week == visit.week) else {
        return Vec::new();
    };
    let Some(held) = Held::of(&request, &week.sessions) else { return Vec::new() };
    let entry = |id: &str| planner.catalog().get(id);
    if !with_swaps {
        let orders = held.orders(visit.session).into_iter();
        return orders.map(|order| in_order(visit, &order)).collect();
    }
    let name = |id: &str| entry(id).map_or(id.to_owned(), |entry| entry.name.clone());
    let swaps = swaps::swaps(&held, &request, &week.sessions, visit.session).into_iter();
    swaps
        .map(|swap| Arrangement {
            reach: Reach::Swap,
            told: Some(format!("{} instead of {}", name(&swap.new), name(&swap.old))),
            blocks: blocks(room, plan, &swap.session.groups, &entry),
            session: swap.session,
        })
        .collect()
}

/// What a plan asks for, with everything in it possible.
fn request(planner: &Planner, plan: &Plan) -> Option<Request> {
    let profile = super::visit::profile(plan)?;
    let mut request = planner.request(profile, &Options { seed: plan.seed, ..Options::default() });
    let items = plan.sessions.iter().chain(plan.weeks.iter().flat_map(|week| &week.sessions));
    let items = items.flat_map(|session| &session.groups).filter(|group| group.is_work());
    request.admit(items.flat_map(|group| &group.items).map(|item| item.exercise.as_str()));
    Some(request)
}

fn in_order(visit: &Visit, order: &[usize]) -> Arrangement {
    let blocks: Vec<Block> = order.iter().map(|at| visit.blocks[*at].clone()).collect();
    let is_work = |at: &usize| visit.written.groups[*at].is_work();
    let names: Vec<&str> =
        order.iter().filter(|at| is_work(at)).map(|at| visit.blocks[*at].name.as_str()).collect();
    Arrangement {
        reach: Reach::Order,
        told: Some(format!("in the order {}", names.join(", then "))),
        session: Session {
            groups: order.iter().map(|at| visit.written.groups[*at].clone()).collect(),
            ..visit.written.clone()
        },
        blocks,
    }
}

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

/// Every choice over some arrangements and starts, as far as some things see them: of choices that hold the same of
/// these the gentlest is kept.
#[must_use]
pub fn choices(
    arrangements: &[Arrangement],
    starts: &[u32],
    planned: u32,
    things: &BTreeMap<Thing, usize>,
    pieces: &[u32],
) -> Vec<Pick> {
    let mut kept: BTreeMap<Vec<Span>, Pick> = BTreeMap::new();
    for (place, arrangement) in arrangements.iter().enumerate() {
        for ways in combined(&arrangement.blocks, things) {
            for start in starts {
                let spans = spans(&arrangement.blocks, &ways, *start, things, pieces);
                let is_late = *start != planned;
                let changes = u32::from(arrangement.reach != Reach::Kept) + u32::from(is_late);
                let tie = tie(arrangement.reach, start.abs_diff(planned), &ways);
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
    choices
}

/// Among as few changes: another exercise counts most, then another start by its minutes, another order, another machine.
fn tie(reach: Reach, moved: u32, ways: &[usize]) -> u32 {
    let other_kit = u32::try_from(ways.iter().filter(|way| **way > 0).count()).unwrap_or(0);
    let swap = if reach == Reach::Swap { 100_000 } else { 0 };
    let order = if reach == Reach::Order { 20 } else { 0 };
    swap + moved * 100 + order + other_kit
}

/// The ways of the blocks together; ways that look alike to the things are one.
fn combined(blocks: &[Block], things: &BTreeMap<Thing, usize>) -> Vec<Vec<usize>> {
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
        all.truncate(MOST_WAYS);
    }
    all
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
