//! A week of the room settled: by groups of visits that clash, each with as little as can be changed.
//!
//! First nothing changes but the machine or bench for the same item, then the order of sessions, then starts within the
//! slack, then an exercise gives way to one as good, and only then two, or one and the place of a group. Within the first of these that is enough, the client with the most
//! changes has as few as can be. Other visits of the day stand where they are, so a group never settles at their cost.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::arrangement::{Arrangement, Reach, as_planned, others};
pub use super::case::{Case, clock};
use super::hours::{Collision, Done, collisions, minutes};
use super::puzzle::{Answer, Choice, Puzzle, Seat, Span};
use super::remedy::{self, WayOut};
use super::smallest::{Smallest, smallest};
use super::stock::{Room, Thing};
use super::visit::Visit;
use super::ways::{Pick, STEP, choices};
use crate::input::plan::Plan;
use crate::planner::Planner;
use crate::words::Weekday;

/// Groups of up to so many clients are searched to the end.
pub const EXACT: usize = 4;
/// Nodes of a search tree for each question about a group of them, which is far more than any needed so far.
const NODES_EXACT: u64 = 50_000;
/// Nodes for larger groups, and of those with many choices fewer: so many choices by nodes.
const NODES: [u64; 2] = [10, 300];
const LARGE: u64 = 600_000;

/// A week of the room.
#[derive(Debug, Clone)]
pub struct Rota {
    /// The Monday.
    pub monday: Date,
    /// The room.
    pub room: Room,
    /// Everyone who comes.
    pub visits: Vec<Visit>,
    /// How each visit is done.
    pub done: Vec<Done>,
    /// What collided, and what came of it.
    pub clashes: Vec<Clash>,
}

/// A group of visits that clash.
#[derive(Debug, Clone)]
pub struct Clash {
    /// The day.
    pub day: Weekday,
    /// Who, as places among the visits.
    pub visits: Vec<usize>,
    /// What collides as planned.
    pub collisions: Vec<Collision>,
    /// What came of it.
    pub outcome: Outcome,
    /// The last puzzle with what it was made from.
    pub case: Case,
}

/// What came of a clash.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Nothing collides any more.
    Settled {
        /// What had to change.
        reach: Reach,
        /// Changes in all.
        changes: u32,
        /// What the most burdened client of the group bears in the week so far.
        most: u32,
        /// Whether it is proven that no fewer do.
        proven: bool,
        /// Changes that are needed at least.
        at_least: u32,
    },
    /// It is proven that nothing fits within the slack.
    Nothing {
        /// The fewest visits that cannot be together.
        smallest: Vec<usize>,
        /// Whether it is proven that no fewer collide as well.
        is_smallest: bool,
        /// What would help.
        ways_out: Vec<WayOut>,
    },
    /// The search ended before it found anything.
    Open,
}

/// Settles a week.
#[must_use]
pub fn settle(
    planner: &Planner,
    plans: &[Plan],
    (room, monday, visits): (&Room, Date, Vec<Visit>),
    slack: u32,
) -> Rota {
    let done = visits.iter().map(|visit| {
        let ways = vec![0; visit.blocks.len()];
        Done { start: visit.start.unwrap_or(0), arrangement: as_planned(visit), ways }
    });
    let done = done.collect();
    let mut week =
        Week { planner, plans, room, slack, visits: &visits, done, borne: BTreeMap::new() };
    let clashes = week.groups().into_iter().filter_map(|group| week.settled(group)).collect();
    let done = week.done;
    Rota { monday, room: room.clone(), visits, done, clashes }
}

impl Rota {
    /// What still collides.
    #[must_use]
    pub fn left(&self) -> Vec<Collision> {
        let all: Vec<usize> = (0..self.visits.len()).collect();
        collisions(&self.room, &self.visits, &self.done, &all)
    }

    /// The same as short as a wall has room for: the order stands on the card.
    #[must_use]
    pub fn told_briefly(&self, visit: usize) -> Vec<String> {
        let has_order = self.done[visit].arrangement.order.is_some();
        let mut told = self.told(visit);
        if let Some(last) = told.last_mut().filter(|_| has_order) {
            "in another order, as on the card".clone_into(last);
        }
        told
    }

    /// Changes of each visit in words.
    #[must_use]
    pub fn told(&self, visit: usize) -> Vec<String> {
        let done = &self.done[visit];
        let planned = self.visits[visit].start;
        let late = planned
            .filter(|planned| *planned != done.start)
            .map(|planned| format!("starts {} instead of {}", clock(done.start), clock(planned)));
        late.into_iter().chain(done.arrangement.told().cloned()).collect()
    }
}

struct Week<'a> {
    planner: &'a Planner,
    plans: &'a [Plan],
    room: &'a Room,
    slack: u32,
    visits: &'a [Visit],
    done: Vec<Done>,
    /// Changes by client so far, so that nobody makes way every time.
    borne: BTreeMap<String, u32>,
}

impl Week<'_> {
    /// Visits that could get in each other's way: the same day, windows that meet, and a thing that both use of which the
    /// day wants more than there is.
    fn groups(&self) -> Vec<Vec<usize>> {
        let scarce = |day: Weekday| -> BTreeSet<Thing> {
            let mut wanted: BTreeMap<Thing, u32> = BTreeMap::new();
            for visit in self.visits.iter().filter(|visit| visit.day == day) {
                for (thing, pieces) in most(&as_planned(visit)) {
                    *wanted.entry(thing).or_default() += pieces;
                }
            }
            let is_scarce = |(thing, wanted): &(Thing, u32)| *wanted > self.room.pieces(*thing);
            wanted.into_iter().filter(is_scarce).map(|(thing, _)| thing).collect()
        };
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for day in Weekday::ALL {
            let scarce = scarce(*day);
            let uses = |visit: usize| -> BTreeSet<Thing> {
                most(&as_planned(&self.visits[visit]))
                    .into_keys()
                    .filter(|thing| scarce.contains(thing))
                    .collect()
            };
            let mut of_day: Vec<Vec<usize>> = Vec::new();
            for visit in (0..self.visits.len()).filter(|at| self.visits[*at].day == *day) {
                let meets = |other: &usize| {
                    self.meet(visit, *other) && !uses(visit).is_disjoint(&uses(*other))
                };
                let (near, far): (Vec<_>, Vec<_>) =
                    of_day.into_iter().partition(|group| group.iter().any(meets));
                let mut joined: Vec<usize> = near.into_iter().flatten().chain([visit]).collect();
                joined.sort_unstable();
                of_day = far.into_iter().chain([joined]).collect();
            }
            groups.extend(of_day);
        }
        groups.sort();
        groups
    }

    fn window(&self, visit: usize) -> [u32; 2] {
        let start = self.done[visit].start;
        [start.saturating_sub(self.slack), start + self.visits[visit].minutes() + self.slack]
    }

    fn meet(&self, one: usize, other: usize) -> bool {
        let ([from, to], [begin, end]) = (self.window(one), self.window(other));
        from < end && begin < to
    }

    /// Settles a group; none where nothing collides.
    fn settled(&mut self, group: Vec<usize>) -> Option<Clash> {
        let collisions = collisions(self.room, self.visits, &self.done, &group);
        if collisions.is_empty() {
            return None;
        }
        let day = self.visits[group[0]].day;
        let clients: BTreeSet<&str> =
            group.iter().map(|at| self.visits[*at].client.as_str()).collect();
        let mut arrangements: Vec<Vec<Arrangement>> =
            group.iter().map(|at| vec![as_planned(&self.visits[*at])]).collect();
        let mut all_proven = true;
        let mut case = Case::default();
        for reach in Reach::ALL {
            for (at, list) in group.iter().zip(&mut arrangements).filter(|_| reach.rearranges()) {
                let visit = &self.visits[*at];
                let plan = &self.plans[visit.plan];
                let reach = (reach, case.things.as_slice());
                list.extend(others(self.room, self.planner, plan, visit, reach));
            }
            case = self.case(&group, &arrangements, reach);
            let large = (LARGE / case.puzzle.choices().max(1)).clamp(NODES[0], NODES[1]);
            let nodes = if clients.len() <= EXACT { NODES_EXACT } else { large };
            match case.puzzle.solve(nodes) {
                Answer::Found { picks, proven, at_least } => {
                    // What a gentler reach could have settled is not known to need as much.
                    let all_proven = all_proven && case.is_whole;
                    let at_least = if all_proven { at_least } else { 1 };
                    let proven = proven && all_proven;
                    let outcome = self.take(&group, &case, &picks, (reach, proven, at_least));
                    return Some(Clash { day, visits: group, collisions, outcome, case });
                }
                Answer::Nothing => all_proven &= case.is_whole,
                Answer::Open => all_proven = false,
            }
        }
        let outcome = if all_proven {
            let Smallest { seats, proven } = smallest(&case.puzzle, group.len());
            let ways_out = remedy::ways_out(self.room, self.visits, &group, &case, &seats);
            let smallest = seats.iter().map(|seat| group[*seat]).collect();
            Outcome::Nothing { smallest, is_smallest: proven, ways_out }
        } else {
            Outcome::Open
        };
        Some(Clash { day, visits: group, collisions, outcome, case })
    }

    /// Takes the picks of a puzzle.
    fn take(
        &mut self,
        group: &[usize],
        case: &Case,
        picks: &[usize],
        (reach, proven, at_least): (Reach, bool, u32),
    ) -> Outcome {
        let mut changes = 0;
        for (seat, at) in group.iter().enumerate() {
            let pick = &case.picks[seat][picks[seat]];
            self.done[*at] = Done {
                start: pick.start,
                arrangement: case.arrangements[seat][pick.arrangement].clone(),
                ways: pick.ways.clone(),
            };
            changes += pick.choice.changes;
            *self.borne.entry(self.visits[*at].client.clone()).or_default() += pick.choice.changes;
        }
        let most = case.puzzle.worth(picks).most;
        Outcome::Settled { reach, changes, most, proven, at_least }
    }

    /// The puzzle of a group with what may change.
    fn case(&self, group: &[usize], arrangements: &[Vec<Arrangement>], reach: Reach) -> Case {
        let day = self.visits[group[0]].day;
        let is_other = |at: &usize| self.visits[*at].day == day && !group.contains(at);
        let rest: Vec<usize> = (0..self.visits.len()).filter(is_other).collect();
        let things: Vec<Thing> = self.scarce(&rest, arrangements);
        let pieces: Vec<u32> = things.iter().map(|thing| self.room.pieces(*thing)).collect();
        let index: BTreeMap<Thing, usize> =
            things.iter().enumerate().map(|(at, thing)| (*thing, at)).collect();
        let mut fixed: BTreeMap<(usize, u32), u32> = BTreeMap::new();
        for at in &rest {
            for (thing, minute, count) in minutes(&self.done[*at]) {
                let Some(&thing) = index.get(&thing) else { continue };
                let held = fixed.entry((thing, minute)).or_default();
                *held = (*held + count).min(pieces[thing]);
            }
        }
        let fixed: Vec<Span> = fixed
            .into_iter()
            .map(|((thing, from), pieces)| Span { thing, pieces, from, to: from + 1 })
            .collect();
        let starts: Vec<Vec<u32>> =
            group.iter().map(|at| self.starts(self.done[*at].start, reach)).collect();
        let of_seat = |(seat, at): (usize, &usize)| {
            let planned = self.done[*at].start;
            choices(&arrangements[seat], &starts[seat], planned, &index, &pieces)
        };
        let (picks, are_all): (Vec<Vec<Pick>>, Vec<bool>) =
            group.iter().enumerate().map(of_seat).unzip();
        let is_whole = are_all.into_iter().all(|whole| whole);
        let mut names: Vec<&str> = Vec::new();
        let mut seats: Vec<Seat> = Vec::new();
        for (at, picks) in group.iter().zip(&picks) {
            let name = self.visits[*at].client.as_str();
            let client = names.iter().position(|one| *one == name).unwrap_or_else(|| {
                names.push(name);
                names.len() - 1
            });
            let choices = picks.iter().map(|pick| pick.choice.clone()).collect();
            seats.push(Seat { client, choices });
        }
        let mut borne: Vec<u32> =
            names.iter().map(|name| self.borne.get(*name).copied().unwrap_or(0)).collect();
        if !fixed.is_empty() {
            let choice = Choice { changes: 0, tie: 0, spans: fixed.clone() };
            seats.push(Seat { client: borne.len(), choices: vec![choice] });
            borne.push(0);
        }
        let puzzle = Puzzle { pieces, borne, seats };
        Case { things, fixed, starts, arrangements: arrangements.to_vec(), picks, is_whole, puzzle }
    }

    /// Things of which some arrangements and the rest of the day could want more than there is.
    fn scarce(&self, rest: &[usize], arrangements: &[Vec<Arrangement>]) -> Vec<Thing> {
        let mut wanted: BTreeMap<Thing, u32> = BTreeMap::new();
        for at in rest {
            for (thing, pieces) in most(&self.done[*at].arrangement) {
                *wanted.entry(thing).or_default() += pieces;
            }
        }
        for list in arrangements {
            let mut of_visit: BTreeMap<Thing, u32> = BTreeMap::new();
            for (thing, pieces) in list.iter().flat_map(most) {
                let most = of_visit.entry(thing).or_default();
                *most = (*most).max(pieces);
            }
            for (thing, pieces) in of_visit {
                *wanted.entry(thing).or_default() += pieces;
            }
        }
        let is_scarce = |(thing, wanted): &(Thing, u32)| *wanted > self.room.pieces(*thing);
        wanted.into_iter().filter(is_scarce).map(|(thing, _)| thing).collect()
    }

    fn starts(&self, planned: u32, reach: Reach) -> Vec<u32> {
        if reach < Reach::Start {
            return vec![planned];
        }
        let steps = self.slack / STEP;
        let earlier = (1..=steps).rev().filter_map(|step| planned.checked_sub(step * STEP));
        let later = (1..=steps).map(|step| planned + step * STEP);
        earlier.chain([planned]).chain(later).collect()
    }
}

/// The most pieces of each thing that an arrangement holds in any group and way.
fn most(arrangement: &Arrangement) -> BTreeMap<Thing, u32> {
    let mut most: BTreeMap<Thing, u32> = BTreeMap::new();
    for way in arrangement.blocks.iter().flat_map(|block| &block.ways) {
        let mut of_way: BTreeMap<Thing, u32> = BTreeMap::new();
        for hold in way {
            *of_way.entry(hold.thing).or_default() += hold.pieces;
        }
        for (thing, pieces) in of_way {
            let held = most.entry(thing).or_default();
            *held = (*held).max(pieces);
        }
    }
    most
}
