//! What has to be at hand for a session.

use std::collections::BTreeSet;

use super::Names;
use crate::input::catalog::Entry;
use crate::plan::file::{Plan, ProfileRef, Session};
use crate::words::Kit;

/// The items of kit that the session's exercises need, each once, in the catalog's order.
pub(crate) fn of_session(plan: &Plan, session: &Session, names: &Names<'_>) -> Vec<String> {
    let owned = owned(plan);
    let mut laid_out = BTreeSet::new();
    for item in session.groups.iter().flat_map(|group| &group.items) {
        if let Some(entry) = names.entry(&item.exercise) {
            let needs = choose(entry, owned.as_ref(), &laid_out);
            laid_out.extend(needs);
        }
    }
    laid_out.into_iter().map(name).collect()
}

/// The item in words: dashes part words, but for the one that belongs to its word.
fn name(kit: Kit) -> String {
    kit.id().replace('-', " ").replace("pull up", "pull-up")
}

/// The kit of the client's place, where the plan holds the profile itself.
fn owned(plan: &Plan) -> Option<BTreeSet<Kit>> {
    let ProfileRef::Whole(profile) = &plan.profile else {
        return None;
    };
    let equipment = profile.equipment.as_ref()?;
    Some(equipment.items.keys().copied().collect())
}

/// Of the sets of kit that would do, the one that the place has and that adds least to the floor.
fn choose(entry: &Entry, owned: Option<&BTreeSet<Kit>>, laid_out: &BTreeSet<Kit>) -> Vec<Kit> {
    let there = |kit: Kit| match owned {
        None => Some(kit),
        Some(owned) if owned.contains(&kit) => Some(kit),
        Some(owned) if kit == Kit::Bench => {
            owned.contains(&Kit::AdjustableBench).then_some(Kit::AdjustableBench)
        }
        Some(_) => None,
    };
    entry
        .needs
        .iter()
        .filter_map(|needs| needs.iter().map(|kit| there(*kit)).collect::<Option<Vec<Kit>>>())
        .min_by_key(|needs| needs.iter().filter(|kit| !laid_out.contains(kit)).count())
        .unwrap_or_default()
}
