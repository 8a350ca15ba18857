//! The dose of a lift whose load is known: as many repetitions as were done with it, where the goal has room for them.

use super::{Dose, Duty, FEW_REPS, dose_for};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::words::{Goal, Measure, Turn};

/// The lighter day keeps so many repetitions more than the heavier. Common practice.
const LIGHTER_BY: u32 = 2;
/// A block begins so many repetitions under its aim, where that is more than a few.
const BEGINS_UNDER: u32 = 2;
/// What is fast leaves so many in reserve, and has so many repetitions at least.
const FAST_RESERVE: u32 = 3;
const FEWEST_FAST: u32 = 2;

/// The dose of an exercise for a client on a day of the week. What the client has lifted lately is asked for as it was
/// done, where that lies within the goal's range: ten with two left stay ten with two left, and the load is the one that
/// was lifted. The lighter day keeps its many. Common practice.
#[must_use]
pub fn for_client(profile: &Profile, entry: &Entry, turn: Option<Turn>) -> Dose {
    let dose = |turn| dose_for(profile.goal, profile.training_status, entry, turn);
    let usual = dose(turn);
    let duty = Duty::of(entry);
    let keeps = turn == Some(Turn::Lighter)
        || entry.measure != Measure::Reps
        || !matches!(duty, Duty::Main | Duty::Compound | Duty::Explosive);
    let Some(known) = profile.known_lifts.get(&entry.id).filter(|known| !keeps && known.load > 0.0)
    else {
        return usual.clone();
    };
    // A repetition more in reserve than is usual is kept, too; what is fast ends long before it slows, whatever is told.
    let fast = duty == Duty::Explosive;
    let rir =
        if fast { usual.rir.min(FAST_RESERVE) } else { known.rir.clamp(usual.rir, usual.rir + 1) };
    let as_done = (known.reps + known.rir).saturating_sub(rir);
    let least = if fast { FEWEST_FAST } else { usual.reps[0] };
    let least = least.max(entry.reps.first().copied().unwrap_or(0));
    // For strength and power the lighter day is lighter by its reserve, else by its repetitions.
    let strong = matches!(profile.goal, Goal::Strength | Goal::Power);
    let most = dose(None).reps[1].min(match turn {
        Some(_) if !strong => dose(Some(Turn::Lighter)).aim.saturating_sub(LIGHTER_BY),
        _ => u32::MAX,
    });
    if !(least..=most).contains(&as_done) {
        return usual.clone();
    }
    let under = if as_done <= FEW_REPS { 0 } else { BEGINS_UNDER };
    let low = least.max(as_done - under);
    let reps = [low, as_done.max(usual.reps[1])];
    Dose { reps, aim: as_done, rir, ..usual.clone() }
}
