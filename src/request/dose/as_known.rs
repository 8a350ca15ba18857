//! The dose of a lift whose load is known: as many repetitions as were done with it, where the goal has room for them.

use super::{Dose, Duty, dose_for};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::words::{Goal, Measure, Turn};

/// The lighter day keeps so many repetitions more than the heavier. Common practice.
const LIGHTER_BY: u32 = 2;
/// A block begins so many repetitions under its aim.
const BEGINS_UNDER: u32 = 2;

/// The dose of an exercise for a client on a day of the week. What the client has lifted lately is asked for as it was
/// done, where that lies within the goal's range: ten with two left stay ten with two left, and the load is the one that
/// was lifted. Strength and power keep their own few repetitions, and the lighter day its many. Common practice.
#[must_use]
pub fn for_client(profile: &Profile, entry: &Entry, turn: Option<Turn>) -> Dose {
    let dose = |turn| dose_for(profile.goal, profile.training_status, entry, turn);
    let usual = dose(turn);
    let keeps = matches!(profile.goal, Goal::Strength | Goal::Power)
        || turn == Some(Turn::Lighter)
        || entry.measure != Measure::Reps
        || !matches!(Duty::of(entry), Duty::Main | Duty::Compound);
    let Some(known) = profile.known_lifts.get(&entry.id).filter(|known| !keeps && known.load > 0.0)
    else {
        return usual.clone();
    };
    // A repetition more in reserve than is usual is kept, too.
    let rir = known.rir.clamp(usual.rir, usual.rir + 1);
    let as_done = (known.reps + known.rir).saturating_sub(rir);
    let least = usual.reps[0].max(entry.reps.first().copied().unwrap_or(0));
    let most = dose(None).reps[1].min(match turn {
        Some(_) => dose(Some(Turn::Lighter)).aim.saturating_sub(LIGHTER_BY),
        None => u32::MAX,
    });
    if !(least..=most).contains(&as_done) {
        return usual.clone();
    }
    let low = least.max(as_done.saturating_sub(BEGINS_UNDER));
    let reps = [low, as_done.max(usual.reps[1])];
    Dose { reps, aim: as_done, rir, ..usual.clone() }
}
