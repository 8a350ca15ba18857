//! The loose plates of a load: how many of each mass lie on the bar, and how else the same load can be put together.

use std::collections::BTreeMap;

use itertools::Itertools as _;

use super::stock::{Hold, Room, Thing, Way};
use crate::input::catalog::Entry;
use crate::input::place::Plates;
use crate::strength::racks;
use crate::words::LoadKind;

/// Ways to put a load together that are looked at, those of the fewest plates.
const MOST_WAYS: usize = 3;
/// The most plates on one end that such a way takes.
const MOST_PLATES: usize = 6;

/// What the loads of an item's sets hold of the plates that a room shares, for a part of the group's seconds: those of the
/// ramp are lighter, so the plates of the first set are held from the way in.
pub(super) fn ways(
    room: &Room,
    entry: &Entry,
    loads: &[f64],
    [from_s, to_s]: [u32; 2],
) -> Vec<Way> {
    use LoadKind::{BarTotal, BodyweightPlus, PlateMachine, Sled};
    let takes_plates = matches!(entry.load, BarTotal | PlateMachine | Sled | BodyweightPlus);
    let plates = room.loose_plates().filter(|_| takes_plates && !loads.is_empty());
    let Some(plates) = plates else { return vec![Vec::new()] };
    let Some(ladder) = racks::ladder(entry, &room.kit, room.made_in()) else {
        return vec![Vec::new()];
    };
    let of_load = |load: f64| -> Vec<BTreeMap<u32, u32>> {
        let Some((side, ends)) = ladder.plates(load) else { return Vec::new() };
        let sides = sides(side.iter().sum(), plates, ends);
        sides
            .iter()
            .map(|side| side.iter().map(|mass| (*mass, ends)).into_grouping_map().sum())
            .map(|map| map.into_iter().collect())
            .collect()
    };
    let sets = u32::try_from(loads.len()).unwrap_or(u32::MAX);
    let second = |set: usize| {
        from_s + (to_s - from_s).saturating_mul(u32::try_from(set).unwrap_or(0)) / sets
    };
    let runs: Vec<(usize, f64)> = loads.iter().copied().dedup_with_count().collect();
    let loaded: Vec<(usize, Vec<BTreeMap<u32, u32>>)> =
        runs.into_iter().map(|(sets, load)| (sets, of_load(load))).collect();
    let most = loaded.iter().map(|(_, sides)| sides.len()).max().unwrap_or(0).max(1);
    let way = |which: usize| -> Way {
        let mut set = 0;
        let mut way = Way::new();
        for (sets, sides) in &loaded {
            let (from_s, to_s) = (second(set), second(set + sets));
            set += sets;
            let side = sides.get(which).or(sides.last()).into_iter().flatten();
            way.extend(side.map(|(mass, pieces)| {
                let thing = Thing::Plate(room.made_in(), *mass);
                Hold { thing, pieces: *pieces, from_s, to_s }
            }));
        }
        way
    };
    (0..most).map(way).collect()
}

/// Ways to make a sum on one end, heaviest plates first, those of the fewest plates.
fn sides(sum: u32, plates: &Plates, ends: u32) -> Vec<Vec<u32>> {
    let sizes: Vec<(u32, u32)> =
        plates.iter().rev().map(|(mass, pieces)| (*mass, pieces / ends)).collect();
    let mut found = Vec::new();
    fill(sum, &sizes, &mut Vec::new(), &mut found);
    found.sort_by_key(Vec::len);
    found.truncate(MOST_WAYS);
    found
}

fn fill(left: u32, sizes: &[(u32, u32)], side: &mut Vec<u32>, found: &mut Vec<Vec<u32>>) {
    if left == 0 {
        found.push(side.clone());
        return;
    }
    let Some(((mass, pieces), rest)) = sizes.split_first() else { return };
    let room = u32::try_from(MOST_PLATES - side.len()).unwrap_or(0);
    let most = if *mass == 0 { 0 } else { (left / mass).min(*pieces).min(room) };
    for count in (0..=most).rev() {
        let before = side.len();
        side.extend(std::iter::repeat_n(*mass, count as usize));
        fill(left - count * mass, rest, side, found);
        side.truncate(before);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 40 on one end from two 20, two 15, four 10 and four 5 in all, so one 20, one 15, two 10 and two 5 on each.
    #[test]
    fn a_load_is_put_together_in_more_than_one_way() {
        let plates = Plates::from([(20_000, 2), (15_000, 2), (10_000, 4), (5000, 4)]);
        let told = sides(40_000, &plates, 2);
        assert_eq!(
            told,
            [
                vec![20_000, 15_000, 5000],
                vec![20_000, 10_000, 10_000],
                vec![20_000, 10_000, 5000, 5000]
            ]
        );
        assert_eq!(sides(0, &plates, 2), [Vec::<u32>::new()]);
        assert!(sides(90_000, &plates, 2).is_empty());
    }
}
