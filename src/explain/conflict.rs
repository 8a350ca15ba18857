//! Which hard rules collide.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use itertools::Itertools as _;

use super::collision::{Collision, told};
use super::filter::{self, Group, Minimal};
use super::hard::{HardRules, asked_by};
use crate::request::Request;
use crate::rules::reason::AskedBy;
use crate::search::feasibility::Verdict;
use crate::split::design;

/// A minimal set of hard rules that cannot hold together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The rules with their subjects.
    pub collisions: Vec<Collision>,
    /// Whether it is proven that none of them can be left out.
    pub proven: bool,
    groups: BTreeSet<Group>,
}

impl Conflict {
    /// The rules and subjects alone.
    #[must_use]
    pub fn groups(&self) -> &BTreeSet<Group> {
        &self.groups
    }
}

/// Why no week meets the hard rules: what is out before any planning first, then what collides in the week.
/// `None` where there is a week.
#[must_use]
pub fn explain(request: &Request) -> Option<Conflict> {
    if let Some(conflict) = out_before_planning(request) {
        return Some(conflict);
    }
    if request.turn.is_over() {
        return None;
    }
    let splits = design::candidates(request);
    let hard = HardRules::of(request, &splits);
    let whole = hard.all();
    if whole == Verdict::Feasible {
        return None;
    }
    let found = colliding(request, &hard);
    let proven = found.proven && whole == Verdict::Impossible;
    let collisions = found.groups.iter().map(|group| {
        let one = Collision::of(request, group);
        ((Reverse(asked_by(request, group)), one.rule.clone(), one.day), one)
    });
    let collisions = collisions.sorted_by(|(one, _), (other, _)| one.cmp(other));
    let collisions = collisions.map(|(_, one)| one).collect();
    Some(Conflict { collisions, proven, groups: found.groups })
}

/// A minimal set of groups: of what the profile demands, where that alone collides or nothing else is known in
/// time; the rules that hold for everyone are then in force without being named.
fn colliding(request: &Request, hard: &HardRules) -> Minimal {
    let (demanded, common): (Vec<Group>, Vec<Group>) =
        hard.groups().into_iter().partition(|group| asked_by(request, group) > AskedBy::Everyone);
    let alone = hard.verdict(&demanded.iter().cloned().collect());
    match alone {
        Verdict::Impossible => filter::deletion_filter(demanded, |kept| hard.verdict(kept)),
        Verdict::Feasible => {
            let all = common.into_iter().chain(demanded).collect();
            filter::deletion_filter(all, |kept| hard.verdict(kept))
        }
        Verdict::Unknown => {
            let found = filter::deletion_filter(demanded, |kept| {
                hard.verdict(&common.iter().chain(kept).cloned().collect())
            });
            Minimal { proven: false, ..found }
        }
    }
}

/// A `must` that kit, limits, level or the client's own lists keep out, or nothing left to train with.
fn out_before_planning(request: &Request) -> Option<Conflict> {
    let musts = &request.profile.exercises.must;
    let id = musts.iter().find(|id| request.candidate(id).is_none())?;
    let must = Collision::of(request, &("wish-lists".to_owned(), id.clone()));
    let mut collisions = vec![must];
    if let Some(reason) = request.barred.get(id) {
        collisions.push(Collision::barring(request, id, reason));
    }
    let groups = collisions.iter().map(|one| (one.rule.clone(), one.subject.clone())).collect();
    Some(Conflict { collisions, proven: true, groups })
}

/// The colliding demands as one sentence.
#[must_use]
pub fn sentence(conflict: &Conflict) -> String {
    match told(&conflict.collisions).as_slice() {
        [] => "no week meets all hard rules".to_owned(),
        [one] => format!("no week can do this: {one}"),
        [first @ .., last] => {
            format!("no week can do all of this: {}; and {last}", first.join("; "))
        }
    }
}
