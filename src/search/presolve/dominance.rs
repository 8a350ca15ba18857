//! Fewer variables without a worse week: of exercises that are alike to every rule, only the best few.
//!
//! Two exercises with the same signature have the same factor in every row, but for the rows of their own
//! weekly uses, repeats and family. A week does at most two of a signature on a day (`pattern-repeats`), so at most
//! twice the days in all. With one kept member more than that, every member left out can be replaced by a kept one
//! that is not done at all. The kept ones have the most score, so that no point is lost. Members of one family are kept
//! once per family first, since a day takes one of a family.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::pairing::PairClass;
use crate::model::worth::{for_once, worths};
use crate::request::dose::takes_few_reps;
use crate::request::{Candidate, Request, Wish};

/// Everything of an exercise that a rule looks at, but its id, family and score.
type Signature = (String, Vec<u32>, Option<PairClass>);

fn signature(request: &Request, candidate: &Candidate) -> Signature {
    let entry = &candidate.entry;
    let mut indirect = entry.indirect.clone();
    indirect.sort_unstable();
    let words = format!(
        "{:?} {:?} {:?} {:?} {:?} {:?} {:?} {:?} {:?} {} {}",
        candidate.pattern,
        candidate.duty,
        entry.direct,
        indirect,
        entry.sides,
        candidate.station,
        candidate.is_heavy(),
        entry.standing,
        entry.load,
        // A lift and its variants stand for themselves: these come only beside it.
        if is_parent_or_variant(request, candidate) { candidate.id.as_str() } else { "" },
        crate::request::candidate::grade(entry, crate::words::Stress::SpinalCompression)
            .map_or("", crate::words::Grade::id),
    );
    let numbers = vec![
        candidate.sets[0],
        candidate.sets[1],
        candidate.work_s,
        candidate.rest_s,
        candidate.start_s,
        candidate.uses,
        u32::from(entry.main),
        u32::from(candidate.leads(request)),
        u32::from(takes_few_reps(entry)),
        // Each set counts for more where it is pushed.
        u32::from(request.is_pushed(&candidate.id)),
        // What counts once costs more each further day.
        u32::from(for_once(request, candidate) > 0.0),
    ];
    (words, numbers, PairClass::of(request, candidate))
}

fn is_parent_or_variant(request: &Request, candidate: &Candidate) -> bool {
    let parent = |one: &Candidate| one.entry.variant_of.as_deref().map(str::to_owned);
    let is_variant = parent(candidate).is_some_and(|parent| request.candidate(&parent).is_some());
    is_variant
        || request.candidates.iter().any(|other| parent(other).as_ref() == Some(&candidate.id))
}

/// The candidates that can be in a best week, by their place in the request.
#[must_use]
pub fn kept(request: &Request) -> BTreeSet<usize> {
    let mut alike: BTreeMap<Signature, Vec<usize>> = BTreeMap::new();
    for (place, candidate) in request.candidates.iter().enumerate() {
        alike.entry(signature(request, candidate)).or_default().push(place);
    }
    let worths = worths(request);
    alike.into_values().flat_map(|members| best(request, &worths, members)).collect()
}

/// The best members of a signature: the most worth first, one of each family before a second.
fn best(request: &Request, worths: &[f64], mut members: Vec<usize>) -> Vec<usize> {
    let candidate = |place: usize| &request.candidates[place];
    // A second day of the same exercise costs points, so each is counted on for one.
    let enough = 2 * request.days.len() + 1;
    members.sort_by(|one, other| {
        let worth = worths[*other].total_cmp(&worths[*one]);
        worth.then_with(|| candidate(*one).id.cmp(&candidate(*other).id))
    });
    let mut families: BTreeMap<&str, usize> = BTreeMap::new();
    let mut ranked: Vec<(usize, usize)> = members
        .iter()
        .map(|place| {
            let candidate = candidate(*place);
            let family = candidate.entry.family.as_deref().unwrap_or(&candidate.id);
            let earlier = families.entry(family).or_default();
            *earlier += 1;
            (*earlier - 1, *place)
        })
        .collect();
    ranked.sort_by_key(|(earlier, _)| *earlier);
    let must = |place: &usize| {
        let rework = request.rework.as_ref();
        let named = |rework: &crate::request::Rework| {
            (0..request.days.len()).any(|day| rework.names(day, &candidate(*place).id))
        };
        candidate(*place).wish == Wish::Must || rework.is_some_and(named)
    };
    let kept: BTreeSet<usize> = ranked.iter().take(enough).map(|(_, place)| *place).collect();
    members.into_iter().filter(|place| kept.contains(place) || must(place)).collect()
}
