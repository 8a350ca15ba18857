//! The coach's view of each usable exercise in whole points, the same in every week: each costs attention and floor
//! time, a main lift least; what the client likes or did well last block counts for it.

use std::collections::BTreeSet;

use super::points::{
    AVOIDED, CARRY, COMPOUND, ISOLATION, ISOLATION_NOVICE, KEPT, KNOWN, MAIN_BAR, MAIN_OTHER,
    OWN_LEVEL, PREFERRED, TOO_EASY, UNLOADED, UNLOADED_FOR_FITNESS,
};
use crate::request::dose::Duty;
use crate::request::{Candidate, Request, Wish};
use crate::words::{Goal, LoadKind, Pattern, Status};

/// The points of every candidate of a request, in their order.
#[must_use]
pub fn worths(request: &Request) -> Vec<f64> {
    let loaded = request.candidates.iter().filter(|candidate| !is_unloaded(candidate));
    let loaded: BTreeSet<Pattern> = loaded.map(|candidate| candidate.pattern).collect();
    let of = |candidate| worth(request, candidate, &loaded);
    request.candidates.iter().map(of).collect()
}

fn worth(request: &Request, candidate: &Candidate, loaded: &BTreeSet<Pattern>) -> f64 {
    let if_so = |so: bool, points: f64| if so { points } else { 0.0 };
    let novice = request.profile.training_status == Status::Novice;
    let attention = match candidate.duty {
        Duty::Main if candidate.entry.load == LoadKind::BarTotal => MAIN_BAR,
        Duty::Main => MAIN_OTHER,
        Duty::Compound | Duty::Explosive => COMPOUND,
        Duty::Isolation if novice => ISOLATION_NOVICE,
        Duty::Carry => CARRY,
        _ => ISOLATION,
    };
    let wish = match candidate.wish {
        Wish::Must | Wish::Open => 0.0,
        Wish::Prefer => PREFERRED,
        Wish::Avoid => AVOIDED,
    };
    attention
        + wish
        + if_so(request.previous_mains.contains(&candidate.id), KEPT)
        + if_so(request.profile.known_lifts.contains_key(&candidate.id), KNOWN)
        + if_so(candidate.entry.level == request.figures.level, OWN_LEVEL)
        + if_so(is_too_easy(request, candidate), TOO_EASY)
        + if_so(gives_way(candidate, loaded), unloaded(request.profile.goal))
}

/// A beginner's form without load, for an advanced client.
fn is_too_easy(request: &Request, candidate: &Candidate) -> bool {
    let entry = &candidate.entry;
    let advanced = request.profile.training_status == Status::Advanced;
    advanced && is_unloaded(candidate) && entry.level == 1 && !entry.harder.is_empty()
}

/// Exercises without loads that go up in steps give way where the place has a loaded one of the pattern.
fn gives_way(candidate: &Candidate, loaded: &BTreeSet<Pattern>) -> bool {
    let trunk = candidate.pattern.is_trunk() || candidate.pattern == Pattern::Balance;
    let pull_up = candidate.entry.main && candidate.pattern == Pattern::VerticalPull;
    is_unloaded(candidate) && loaded.contains(&candidate.pattern) && !trunk && !pull_up
}

const fn unloaded(goal: Goal) -> f64 {
    match goal {
        Goal::Hypertrophy | Goal::Strength | Goal::Power => UNLOADED,
        _ => UNLOADED_FOR_FITNESS,
    }
}

fn is_unloaded(candidate: &Candidate) -> bool {
    matches!(
        candidate.entry.load,
        LoadKind::Bodyweight | LoadKind::None | LoadKind::Band | LoadKind::Assisted
    )
}
