//! What a group of a session holds, and for which seconds of it.
//!
//! Kit that is set up stays with its user from the way in to the last set, and in a pair for the whole pair. Hand-held
//! weights are held set by set, each mass for its own part, so that two people who look for their load can take turns.
//! Sets that work up to a load hold no hand-held weights of their own: each is over in half a minute, and the pair beside it
//! serves as well (common practice).
//! Items of one set each, as in preparation, are done one after the other and hold their kit only for their own time.

use itertools::Itertools as _;

use super::plates;
use super::stock::{Hold, Room, Thing, Way, is_by_mass};
use crate::input::catalog::Entry;
use crate::input::plan::{Group, Item};
use crate::timing;
use crate::words::{Kit, LoadKind, Pattern, Sides};

/// Ways of one group that are looked at.
const MOST_WAYS: usize = 12;

/// Every way to do a group in a room, as planned first: another machine for the same easy minutes, another bench.
pub fn ways<'a>(
    room: &Room,
    group: &Group,
    seconds: u32,
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) -> Vec<Way> {
    let mut ways: Vec<Way> = vec![Vec::new()];
    for (item, [from, to]) in group.items.iter().zip(parts(group, seconds, entry)) {
        let Some(found) = entry(&item.exercise) else { continue };
        let of_item = of_item(room, item, found, [from, to]);
        let both = ways.iter().cartesian_product(&of_item);
        ways = both.map(|(one, other)| [one.clone(), other.clone()].concat()).collect();
        ways.truncate(MOST_WAYS);
    }
    ways
}

/// The part of a group's seconds in which each item holds its kit.
fn parts<'a>(
    group: &Group,
    seconds: u32,
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) -> Vec<[u32; 2]> {
    if group.items.len() == 1 || group.items.iter().any(|item| item.sets > 1) {
        return vec![[0, seconds]; group.items.len()];
    }
    let own = |item: &Item| {
        entry(&item.exercise).map_or(0, |entry| {
            let timed = timing::timed(item, entry);
            let work: u32 = timed.work_s.iter().fold(0, |sum, set| sum.saturating_add(*set));
            timed.setup_s.saturating_add(timing::ramp_s(timed.ramp_sets)).saturating_add(work)
        })
    };
    let mut at = 0;
    let mut parts: Vec<[u32; 2]> = Vec::new();
    for (place, item) in group.items.iter().enumerate() {
        let way_in = if place == 0 { timing::WAY_IN_S } else { 0 };
        let next = (at + way_in).saturating_add(own(item)).min(seconds);
        parts.push([at, next]);
        at = next;
    }
    if let Some(last) = parts.last_mut() {
        last[1] = seconds;
    }
    parts
}

/// The sets of kit that an item can be done with here: those that lift the same thing as the first.
fn of_item(room: &Room, item: &Item, entry: &Entry, part: [u32; 2]) -> Vec<Way> {
    let is_there =
        |kit: &Kit| room.has(*kit) || (*kit == Kit::Bench && room.has(Kit::AdjustableBench));
    let sets: Vec<&Vec<Kit>> =
        entry.needs.iter().filter(|needs| needs.iter().all(is_there)).collect();
    let Some(first) = sets.first() else { return vec![Vec::new()] };
    let lifted = |needs: &[Kit]| -> Vec<Kit> {
        let is_lifted = |kit: &Kit| is_by_mass(*kit) || is_bar(*kit);
        needs.iter().copied().filter(is_lifted).collect()
    };
    let own = lifted(first);
    let same = sets.iter().filter(|needs| lifted(needs) == own);
    let resolved = same.flat_map(|needs| benches(room, needs));
    let kit = resolved.map(|kit| -> Way {
        kit.iter().flat_map(|kit| held(room, *kit, (item, entry), part)).collect()
    });
    let loaded = plates::ways(room, entry, &loads(item), part);
    kit.cartesian_product(&loaded).map(|(kit, plates)| [kit, plates.clone()].concat()).collect()
}

const fn is_bar(kit: Kit) -> bool {
    matches!(kit, Kit::Barbell | Kit::TrapBar | Kit::EzBar)
}

/// A set of kit with each bench that serves.
fn benches(room: &Room, needs: &[Kit]) -> Vec<Vec<Kit>> {
    if !needs.contains(&Kit::Bench) {
        return vec![needs.to_vec()];
    }
    let there = [Kit::Bench, Kit::AdjustableBench].into_iter().filter(|bench| room.has(*bench));
    there
        .map(|bench| {
            needs.iter().map(|kit| if *kit == Kit::Bench { bench } else { *kit }).collect()
        })
        .collect()
}

fn held(room: &Room, kit: Kit, (item, entry): (&Item, &Entry), part: [u32; 2]) -> Vec<Hold> {
    if is_by_mass(kit) {
        let pieces = if entry.load == LoadKind::PerHand { 2 } else { 1 };
        return by_set(item, part, pieces, |load| Some(room.held_mass(kit, load)));
    }
    let [from_s, to_s] = part;
    let pieces = if kit == Kit::CableStation && takes_both_sides(entry) { 2 } else { 1 };
    let mut holds = vec![Hold { thing: Thing::Kit(kit), pieces, from_s, to_s }];
    if kit == Kit::WeightPlate && entry.load == LoadKind::SingleImplement {
        // A plate in the hands lies on no bar.
        holds.extend(by_set(item, part, 1, |load| room.loose_plate(load)));
    }
    holds
}

/// What the load of each set is held of, set by set.
fn by_set(
    item: &Item,
    [from_s, to_s]: [u32; 2],
    pieces: u32,
    thing: impl Fn(f64) -> Option<Thing>,
) -> Vec<Hold> {
    let loads = loads(item);
    let sets = u32::try_from(loads.len()).unwrap_or(u32::MAX).max(1);
    let at = |set: u32| from_s + (to_s - from_s).saturating_mul(set) / sets;
    let mut holds: Vec<Hold> = Vec::new();
    for (set, load) in (0..).zip(loads) {
        let Some(thing) = thing(load) else { continue };
        match holds.last_mut() {
            Some(last) if last.thing == thing && last.to_s == at(set) => last.to_s = at(set + 1),
            _ => holds.push(Hold { thing, pieces, from_s: at(set), to_s: at(set + 1) }),
        }
    }
    holds
}

/// Work that draws both arms together from two sides.
fn takes_both_sides(entry: &Entry) -> bool {
    use Pattern::{ShoulderHorizontalAbduction, ShoulderHorizontalAdduction};
    let across = [Some(ShoulderHorizontalAdduction), Some(ShoulderHorizontalAbduction)];
    entry.sides == Sides::Both && across.contains(&entry.pattern)
}

/// The load of each set in kilograms, or the climb to it; none where the plan tells no load.
fn loads(item: &Item) -> Vec<f64> {
    if let Some(load) = item.load_kg {
        return vec![load; item.sets as usize];
    }
    let Some(find) = &item.find_load else { return Vec::new() };
    let steps = (0..item.sets).map(|set| set.min(find.sets.saturating_sub(1)));
    steps.map(|step| find.start_kg + find.step_kg * f64::from(step)).collect()
}

/// Whether a coach stands beside a novice: the main lifts with the bar (common practice).
#[must_use]
pub fn is_watched(group: &Group, entries: &dyn Fn(&str) -> Option<bool>) -> bool {
    group.items.iter().any(|item| entries(&item.exercise) == Some(true))
}
