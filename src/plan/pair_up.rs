//! The pairs of a day: which paired exercise goes with which.

use itertools::Itertools as _;

use crate::model::pairing::PairClass;
use crate::request::Request;
use crate::search::Done;
use crate::timing::{WAY_IN_S, round_rest_s};

/// Exercises that are done together: one alone, or two in turn.
pub type Together = Vec<Done>;

/// Groups a day's exercises. The model counted pairs by class, so a matching exists that fits the minutes; the
/// best one has equal sets and muscles that share least, and where that one takes too long, the shortest is taken.
#[must_use]
pub fn groups(request: &Request, day: &[Done]) -> Vec<Together> {
    let nicest = grouped(request, day, &pleasing);
    let limit = day.first().map_or(0, |done| request.days[done.day].work_s());
    let takes =
        |groups: &[Together]| -> u32 { groups.iter().map(|group| seconds(request, group)).sum() };
    let groups = if takes(&nicest) <= limit { nicest } else { grouped(request, day, &length) };
    // Where the minutes are used, what small work is left goes in turn as well, and the time becomes longer rests.
    let is_busy = takes(&groups) * 5 >= limit * 4;
    if is_busy && request.figures.pairs { small_work_in_turn(request, groups) } else { groups }
}

/// Pairs what is left of small work with as many sets, the best match first.
fn small_work_in_turn(request: &Request, groups: Vec<Together>) -> Vec<Together> {
    let is_small = |group: &Together| match group[..] {
        [done] => class(request, &done).is_some_and(PairClass::is_small),
        _ => false,
    };
    let (mut open, mut groups): (Vec<Together>, Vec<Together>) =
        groups.into_iter().partition(is_small);
    let cost = |one: &Together, other: &Together| pleasing(request, &one[0], &other[0]);
    let fits = |one: &Together, other: &Together| {
        one[0].sets == other[0].sets && go_together(request, &one[0], &other[0])
    };
    loop {
        let places = (0..open.len()).array_combinations::<2>();
        let best = places
            .filter(|[one, other]: &[usize; 2]| fits(&open[*one], &open[*other]))
            .min_by_key(|[one, other]| cost(&open[*one], &open[*other]));
        let Some([one, other]) = best else { break };
        let second = open.remove(other).remove(0);
        let first = open.remove(one).remove(0);
        groups.push(vec![first, second]);
    }
    groups.into_iter().chain(open).collect()
}

/// What a pair of exercises costs.
type Cost = dyn Fn(&Request, &Done, &Done) -> u32;

/// The matching of least cost and the exercises done alone.
fn grouped(request: &Request, day: &[Done], cost: &Cost) -> Vec<Together> {
    let (paired, alone): (Vec<Done>, Vec<Done>) = day.iter().partition(|done| done.paired);
    let matched = best_matching(request, &paired, cost).map_or_else(Vec::new, |(_, pairs)| pairs);
    let left: Vec<Done> = paired
        .into_iter()
        .filter(|done| !matched.iter().flatten().any(|other| other == done))
        .chain(alone)
        .collect();
    matched.into_iter().chain(left.into_iter().map(|done| vec![done])).collect()
}

/// The matching with the least cost, or `None` where none is whole. A day has at most eight exercises.
fn best_matching(request: &Request, open: &[Done], cost: &Cost) -> Option<(u32, Vec<Together>)> {
    let Some((first, rest)) = open.split_first() else {
        return Some((0, Vec::new()));
    };
    let mut best: Option<(u32, Vec<Together>)> = None;
    for (place, other) in rest.iter().enumerate() {
        if !go_together(request, first, other) {
            continue;
        }
        let cost_here = cost(request, first, other);
        let mut left = rest.to_vec();
        left.remove(place);
        if let Some((more, mut pairs)) = best_matching(request, &left, cost)
            && best.as_ref().is_none_or(|(least, _)| cost_here + more < *least)
        {
            pairs.insert(0, vec![*first, *other]);
            best = Some((cost_here + more, pairs));
        }
    }
    best
}

fn go_together(request: &Request, one: &Done, other: &Done) -> bool {
    class(request, one).zip(class(request, other)).is_some_and(|(one, other)| one.goes_with(other))
}

fn class(request: &Request, done: &Done) -> Option<PairClass> {
    PairClass::of(request, &request.candidates[done.candidate])
}

/// Less where the sets are equal, no muscle works twice, and both stand at one station.
fn pleasing(request: &Request, one: &Done, other: &Done) -> u32 {
    let (a, b) = (&request.candidates[one.candidate], &request.candidates[other.candidate]);
    let shared = a.entry.direct.iter().filter(|muscle| b.entry.direct.contains(muscle)).count();
    let shared = u32::try_from(shared).unwrap_or(u32::MAX);
    let indirect = u32::from(a.entry.indirect.iter().any(|muscle| b.entry.direct.contains(muscle)))
        + u32::from(b.entry.indirect.iter().any(|muscle| a.entry.direct.contains(muscle)));
    let stations = u32::from(a.station != b.station);
    100 * shared + 4 * one.sets.abs_diff(other.sets) + 2 * indirect + stations
}

fn length(request: &Request, one: &Done, other: &Done) -> u32 {
    seconds(request, &[*one, *other])
}

/// Seconds of exercises done together, as the plan will count them.
fn seconds(request: &Request, group: &[Done]) -> u32 {
    let of = |done: &Done| (&request.candidates[done.candidate], done.sets);
    let rest_s = round_rest_s(group.iter().map(|done| of(done).0.rest_s));
    let rounds = group.iter().map(|done| done.sets).max().unwrap_or(0);
    let once = |done: &Done| of(done).0.start_s - WAY_IN_S + of(done).1 * of(done).0.work_s;
    WAY_IN_S + group.iter().map(once).sum::<u32>() + rounds.saturating_sub(1) * rest_s
}
