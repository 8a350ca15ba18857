//! Variety: the seed chooses among equally good weeks. Tiers 1 to 3 are held at their values, so that no seed
//! costs any of them.

use super::draw;
use super::search::{Effort, Held, Search};
use crate::program::{Term, value};

/// Moves a plan toward the seed's preferences.
#[must_use]
pub(super) fn varied(search: &mut Search, best: Held, effort: Effort) -> Held {
    let goal = preferences(search);
    search.hold_all(&best.values);
    let start = Held { goal: value(&goal, &best.values), values: best.values };
    search.improve_days(&goal, start, effort)
}

/// The seed's preference for each pick.
fn preferences(search: &Search) -> Vec<Term> {
    let request = search.weekly.request;
    let picks = search.weekly.picks.iter();
    picks
        .map(|pick| {
            let id = &request.candidates[pick.candidate].id;
            let points = draw::preference(request.seed, id, pick.day, request.profile.variety);
            (pick.chosen, f64::from(points))
        })
        .collect()
}
