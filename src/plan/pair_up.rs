//! The pairs of a day: which paired exercise goes with which.

use crate::model::pairing::PairClass;
use crate::request::Request;
use crate::solution::Done;

/// Exercises that are done together: one alone, or two in turn.
pub type Together = Vec<Done>;

/// Groups a day's exercises. The model counted pairs by class, so a matching exists; the best one loses least
/// of the rests that pairs save, so that it takes no longer than the model's, and then has equal sets and
/// muscles that share least.
#[must_use]
pub fn groups(request: &Request, day: &[Done]) -> Vec<Together> {
    let (paired, alone): (Vec<Done>, Vec<Done>) = day.iter().partition(|done| done.paired);
    let matched = best_matching(request, &paired).map_or_else(Vec::new, |(_, pairs)| pairs);
    let left: Vec<Done> = paired
        .into_iter()
        .filter(|done| !matched.iter().flatten().any(|other| other == done))
        .chain(alone)
        .collect();
    matched.into_iter().chain(left.into_iter().map(|done| vec![done])).collect()
}

/// The matching with the least cost, or `None` where none is whole. A day has at most eight exercises.
fn best_matching(request: &Request, open: &[Done]) -> Option<(u32, Vec<Together>)> {
    let Some((first, rest)) = open.split_first() else {
        return Some((0, Vec::new()));
    };
    let mut best: Option<(u32, Vec<Together>)> = None;
    for (place, other) in rest.iter().enumerate() {
        let Some(cost) = cost(request, first, other) else { continue };
        let mut left = rest.to_vec();
        left.remove(place);
        if let Some((more, mut pairs)) = best_matching(request, &left)
            && best.as_ref().is_none_or(|(least, _)| cost + more < *least)
        {
            pairs.insert(0, vec![*first, *other]);
            best = Some((cost + more, pairs));
        }
    }
    best
}

/// What a pair costs, or `None` where the two do not go together.
fn cost(request: &Request, one: &Done, other: &Done) -> Option<u32> {
    let (a, b) = (&request.candidates[one.candidate], &request.candidates[other.candidate]);
    let fits = PairClass::of(request, a)?.goes_with(PairClass::of(request, b)?);
    let shared = a.entry.direct.iter().filter(|muscle| b.entry.direct.contains(muscle)).count();
    let shared = u32::try_from(shared).unwrap_or(u32::MAX);
    let indirect = u32::from(a.entry.indirect.iter().any(|muscle| b.entry.direct.contains(muscle)))
        + u32::from(b.entry.indirect.iter().any(|muscle| a.entry.direct.contains(muscle)));
    let stations = u32::from(a.station != b.station);
    let likeness = 100 * shared + 4 * one.sets.abs_diff(other.sets) + 2 * indirect + stations;
    fits.then(|| 1000 * a.rest_s.abs_diff(b.rest_s) + likeness)
}
