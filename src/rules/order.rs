//! `order`: a session never climbs back: explosive, heavy, other multi-joint, isolation, trunk, finisher,
//! conditioning.
//!
//! ACSM 2009 for power and multi-joint first; emphasis may break it (Nunes et al. 2021).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::eligibility::is_named;
use crate::week::{Group, Item, Week};
use crate::words::{GroupKind, Measure, Pattern, Side};

/// The place of a group in a session.
pub(super) struct Order;

/// Ranks, first to last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// Preparation.
    Preparation,
    /// Jumps, throws, fast pulls.
    Explosive,
    /// Multi-joint up to six repetitions.
    Heavy,
    /// Other multi-joint work.
    MultiJoint,
    /// One joint.
    Isolation,
    /// Trunk, carries and holds.
    Trunk,
    /// Finishers.
    Finisher,
    /// Conditioning.
    Conditioning,
}

const HEAVY_REPS: u32 = 6;

/// The rank of an item in a working group.
#[must_use]
pub(super) fn rank(item: &Item) -> Rank {
    match item.pattern() {
        Some(pattern) if pattern.is_explosive() => Rank::Explosive,
        Some(pattern)
            if pattern.is_trunk() || matches!(pattern, Pattern::Carry | Pattern::Balance) =>
        {
            Rank::Trunk
        }
        _ if is_heavy(item) => Rank::Heavy,
        _ if item.is_compound() => Rank::MultiJoint,
        _ => Rank::Isolation,
    }
}

fn is_heavy(item: &Item) -> bool {
    let few = item.amounts.first().is_some_and(|reps| *reps <= HEAVY_REPS);
    item.is_compound() && item.entry.measure == Measure::Reps && few
}

/// The rank of a group is that of its first item to come.
#[must_use]
pub(super) fn group_rank(group: &Group) -> Rank {
    match group.kind {
        GroupKind::Prep => Rank::Preparation,
        GroupKind::Finisher => Rank::Finisher,
        GroupKind::Conditioning => Rank::Conditioning,
        GroupKind::Single | GroupKind::Superset => {
            group.items.iter().map(rank).min().unwrap_or(Rank::Isolation)
        }
    }
}

/// Whether a group is there for balance, which is done while the legs are fresh and tires nothing.
fn is_balance(group: &Group) -> bool {
    let balance = |item: &Item| item.pattern() == Some(Pattern::Balance);
    group.items.iter().any(balance) && group_rank(group) == Rank::Trunk
}

impl Rule for Order {
    fn id(&self) -> &'static str {
        "order"
    }
    fn summary(&self) -> &'static str {
        "a session never climbs back from small work to big"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let emphasized = |group: &Group| {
            group
                .items
                .iter()
                .flat_map(|item| &item.entry.direct)
                .any(|muscle| request.wants_more(*muscle))
        };
        // What is liked leads where nothing is heavy, and the back rests at a press between the two big lifts of an only day.
        let allowed = |group: &Group| {
            let named = |item: &Item| is_named(&request.profile, &item.entry.id);
            let presses = |item: &Item| {
                item.entry.main
                    && item.pattern().and_then(Pattern::press_or_row) == Some(Side::Push)
            };
            let liked = !request.trains_heavy() && group.items.iter().any(named);
            liked || request.days.len() == 1 && group.items.iter().any(presses)
        };
        let mut findings = Vec::new();
        for session in &week.sessions {
            let big_and_small = session.groups.iter().filter(|group| !is_balance(group));
            let groups: Vec<&Group> = big_and_small.collect();
            for pair in groups.windows(2) {
                let free = emphasized(pair[0]) || allowed(pair[0]);
                if group_rank(pair[0]) > group_rank(pair[1]) && !free {
                    let id = pair[1].items.first().map_or("", |item| item.entry.id.as_str());
                    let place = format!("{}, {id}", session.label);
                    let got = "after smaller work";
                    findings.push(
                        Finding::broken(self.id(), place, "bigger work first", got).as_remark(),
                    );
                }
            }
        }
        findings
    }
}
