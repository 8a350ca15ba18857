//! The pairs of a day: which paired exercise goes with which.

use itertools::Itertools as _;

use crate::model::pairing::PairClass;
use crate::request::Request;
use crate::request::candidate::Station;
use crate::search::Done;
use crate::timing::{WAY_IN_S, round_rest_s};
use crate::words::Supersets;

/// Exercises that are done together: one alone, or two in turn.
pub type Together = Vec<Done>;

/// Groups a day's exercises. The model counted pairs by class, so a matching exists that fits the minutes; the
/// best one has equal sets and muscles that share least, and where that one takes too long, the shortest is taken.
#[must_use]
pub fn groups(request: &Request, day: &[Done]) -> Vec<Together> {
    let nicest = grouped(request, day, &pleasing);
    let limit = day.first().map_or(0, |done| request.days[done.day].work_s());
    let takes = |groups: &[Together]| seconds_of(request, groups);
    if takes(&nicest) <= limit { nicest } else { grouped(request, day, &length) }
}

/// Pairs what comes after the lead and stands alone though it need not, the best match first: the later of two moves up.
/// The time becomes longer rests, as far as the session's minutes are used.
#[must_use]
pub fn after_the_lead(request: &Request, mut groups: Vec<Together>) -> Vec<Together> {
    if !request.figures.pairs {
        return groups;
    }
    let fast = |group: &Together| {
        group.iter().any(|done| request.candidates[done.candidate].pattern.is_explosive())
    };
    let leads = groups.iter().position(|group| !fast(group)).unwrap_or(0);
    let alone = groups.first().is_none_or(|group| request.leads_alone(group[0].day));
    let first = leads + usize::from(alone);
    let limit = groups.first().map_or(0, |group| request.days[group[0].day].work_s());
    while seconds_of(request, &groups) * 5 >= limit * 4 {
        let stands = |done: &Done| {
            request.leads_alone(done.day)
                && request.profile.supersets != Supersets::Prefer
                && request.wants_its_rest(&request.candidates[done.candidate])
        };
        let alone = |place: &usize| groups[*place].len() == 1 && !stands(&groups[*place][0]);
        let open: Vec<usize> = (first..groups.len()).filter(alone).collect();
        let best = open
            .iter()
            .array_combinations::<2>()
            .map(|[one, other]| (*one, *other))
            .filter(|(one, other)| {
                let (one, other) = (&groups[*one][0], &groups[*other][0]);
                one.sets == other.sets && go_together(request, one, other)
            })
            .filter(|(one, other)| !comes_too_early(request, &groups, *one, *other))
            .min_by_key(|(one, other)| pleasing(request, &groups[*one][0], &groups[*other][0]));
        let Some((one, other)) = best else { break };
        let later = groups.remove(other);
        groups[one].extend(later);
    }
    groups
}

/// Whether the later of two groups, moved up, is small work before a lift that needs its muscle fresh.
fn comes_too_early(request: &Request, groups: &[Together], one: usize, other: usize) -> bool {
    let at = |done: &Done| &request.candidates[done.candidate];
    let small = at(&groups[other][0]);
    let mut lifts = groups[one + 1..other].iter().flatten().map(at);
    !small.is_compound() && lifts.any(|lift| lift.is_compound() && lift.prime() == small.prime())
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

/// Less where the sets are equal, no muscle works twice, big work goes with big and small with small, and both stand at
/// one station.
fn pleasing(request: &Request, one: &Done, other: &Done) -> u32 {
    let (a, b) = (&request.candidates[one.candidate], &request.candidates[other.candidate]);
    let shared = a.entry.direct.iter().filter(|muscle| b.entry.direct.contains(muscle)).count();
    let shared = u32::try_from(shared).unwrap_or(u32::MAX);
    let indirect = u32::from(a.entry.indirect.iter().any(|muscle| b.entry.direct.contains(muscle)))
        + u32::from(b.entry.indirect.iter().any(|muscle| a.entry.direct.contains(muscle)));
    let stations = u32::from(a.station != b.station);
    // Two machines cannot be held at once in a full room.
    let fixed = |station| matches!(station, Station::Fixed(_));
    let stations = stations + 5 * u32::from(stations > 0 && fixed(a.station) && fixed(b.station));
    let size = 6 * u32::from(a.is_compound() != b.is_compound());
    100 * shared + 1000 * one.sets.abs_diff(other.sets) + 2 * indirect + size + stations
}

fn length(request: &Request, one: &Done, other: &Done) -> u32 {
    seconds(request, &[*one, *other])
}

fn seconds_of(request: &Request, groups: &[Together]) -> u32 {
    groups.iter().map(|group| seconds(request, group)).sum()
}

/// Seconds of exercises done together, as the plan will count them.
fn seconds(request: &Request, group: &[Done]) -> u32 {
    let of = |done: &Done| (&request.candidates[done.candidate], done.sets);
    let rest_s = round_rest_s(group.iter().map(|done| of(done).0.rest_s));
    let rounds = group.iter().map(|done| done.sets).max().unwrap_or(0);
    let once = |done: &Done| of(done).0.start_s - WAY_IN_S + of(done).1 * of(done).0.work_s;
    WAY_IN_S + group.iter().map(once).sum::<u32>() + rounds.saturating_sub(1) * rest_s
}
