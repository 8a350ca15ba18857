//! What an earlier lift of a day takes from a later one for the same muscles.
//!
//! After three sets of squats the leg press is not what it is on a fresh day: its load is that of a repetition more in
//! reserve, so that the reserve that is told holds. Common practice.

use crate::input::catalog::Entry;
use crate::request::standing::is_bar_on_legs;
use crate::words::{Kind, Pattern, Side, Turn};

/// From so many sets on a lift leaves its muscles tired.
const TIRING_SETS: u32 = 3;

/// Repetitions that are left out of account in the load of a lift, after what a day had before it. What has its lighter day is
/// light already, but not a squat behind the deadlift.
#[must_use]
pub(super) fn after<'a>(
    entry: &Entry,
    turn: Option<Turn>,
    before: impl IntoIterator<Item = (&'a Entry, u32)>,
) -> u32 {
    let tires = |(other, sets): (&Entry, u32)| {
        let counts =
            !turn.is_some_and(Turn::is_light) || (is_bar_on_legs(other) && is_bar_on_legs(entry));
        counts && sets >= TIRING_SETS && is_slow(other) && shares(other, entry)
    };
    u32::from(is_slow(entry) && before.into_iter().any(tires))
}

/// Lifts of several joints that are not there for speed.
fn is_slow(entry: &Entry) -> bool {
    entry.kind == Some(Kind::Compound)
        && entry.pattern.is_some_and(|pattern| !pattern.is_explosive() && !pattern.is_trunk())
}

/// Whether the second needs what the first has tired: its prime mover, in presses all of chest, shoulders and triceps,
/// with the bar back and legs in squats and hinges, and in a squat the glutes of a thrust.
fn shares(first: &Entry, second: &Entry) -> bool {
    let presses = |one: &Entry| one.pattern.and_then(Pattern::press_or_row) == Some(Side::Push);
    let thrust = first.pattern == Some(Pattern::HipExtension);
    let prime = first.direct.first();
    (prime.is_some() && prime == second.direct.first())
        || (presses(first) && presses(second))
        || (is_bar_on_legs(first) && is_bar_on_legs(second))
        || (thrust && second.pattern == Some(Pattern::Squat))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Catalog;

    fn tired(id: &str, before: &[(&str, u32)]) -> u32 {
        tired_on(id, before, None)
    }

    fn tired_on(id: &str, before: &[(&str, u32)], turn: Option<Turn>) -> u32 {
        let catalog = Catalog::built_in();
        let of = |id: &str| catalog.get(id).expect("a lift of the catalog");
        after(of(id), turn, before.iter().map(|(id, sets)| (of(id), *sets)))
    }

    #[test]
    fn a_later_lift_for_the_same_muscles_is_not_fresh() {
        assert_eq!(tired("overhead-press", &[("bench-press", 4)]), 1);
        assert_eq!(tired("leg-press", &[("back-squat", 3)]), 1);
        assert_eq!(tired("back-squat", &[("hip-thrust", 3)]), 1);
        assert_eq!(tired("back-squat", &[("deadlift", 3)]), 1);
        assert_eq!(tired("back-squat", &[("bench-press", 5)]), 0);
        assert_eq!(tired("overhead-press", &[("bench-press", 2)]), 0, "two sets are few");
        assert_eq!(tired("back-squat", &[("broad-jump", 4)]), 0, "jumps are few and fast");
        assert_eq!(tired("overhead-press", &[]), 0);
    }

    #[test]
    fn the_lighter_day_is_light_already_but_for_a_squat_behind_the_deadlift() {
        let lighter = |id, before| tired_on(id, before, Some(Turn::Lighter));
        assert_eq!(lighter("overhead-press", &[("bench-press", 4)]), 0);
        assert_eq!(lighter("back-squat", &[("deadlift", 4)]), 1);
    }
}
