//! The load of a lift that is known by a long set.

use super::{Ask, KnownLifts, Ladder, Lift, MOST_REPS, WorkingLoad};
use crate::input::catalog::Entry;

/// So many repetitions fewer than were done, or more, are still told from them.
const NEARLY: u32 = 4;
/// So much of a load is a repetition in long sets. Common practice.
const FOR_A_REPETITION: f64 = 0.025;

/// The load of a set that is longer than the table of repetitions, from one that is not much shorter.
pub(super) fn for_long_sets(load_kg: f64, asked: u32, then: u32) -> Option<f64> {
    let more = asked.checked_sub(then).filter(|more| *more <= NEARLY)?;
    Some(load_kg * (1.0 - FOR_A_REPETITION * f64::from(more)))
}

impl KnownLifts {
    /// A lift that was done for too many repetitions to estimate from, where no more are asked for.
    pub(super) fn as_done(&self, entry: &Entry, ladder: &Ladder, ask: Ask) -> Option<WorkingLoad> {
        let many = |lift: &&Lift| lift.reps + lift.rir > MOST_REPS && lift.load_kg > 0.0;
        let lift = self.lifts.get(&entry.id).filter(many)?;
        let [asked, then] = [ask.reps + ask.rir, lift.reps + lift.rir];
        let load_kg = ladder.at_most(lift.cap_kg.map_or(lift.load_kg, |cap| cap.min(lift.load_kg)));
        let found = WorkingLoad { cap_kg: lift.cap_kg, ..WorkingLoad::default() };
        // Where far fewer are asked for, the search begins with what went so often.
        if asked > then || asked + NEARLY < then || load_kg.is_none() {
            let least = load_kg.filter(|_| asked <= then);
            return least.map(|kg| self.to_find(entry, ladder, ask, (found, Some(kg))));
        }
        let done = format!("{} × {} with {} left", self.mass(lift.load_kg), lift.reps, lift.rir);
        // For fewer repetitions the next size, as far as those left out go.
        let over = 1.0 + FOR_A_REPETITION * f64::from(then - asked);
        let more =
            load_kg.and_then(|kg| ladder.at_most(lift.cap_kg.unwrap_or(f64::MAX).min(kg * over)));
        let note = if more > load_kg {
            format!("a size over what was done ({done}), for fewer repetitions")
        } else {
            format!("as it was done ({done}), or the next size where more are left")
        };
        Some(WorkingLoad { load_kg: more.or(load_kg), note, ..found })
    }
}
