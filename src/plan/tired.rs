//! What an earlier lift of a day takes from a later one for the same muscles.
//!
//! After three sets of squats the leg press is not what it is on a fresh day: its load is that of a repetition more in
//! reserve, so that the reserve that is told holds. Common practice.

use crate::input::catalog::Entry;
use crate::words::{Kind, LoadKind, Pattern, Turn};

/// From so many sets on a lift leaves its muscles tired.
const TIRING_SETS: u32 = 3;

/// Repetitions that are left out of account in the load of a lift, after what a day had before it. The lighter day is light
/// already.
#[must_use]
pub(super) fn after<'a>(
    entry: &Entry,
    turn: Option<Turn>,
    before: impl IntoIterator<Item = (&'a Entry, u32)>,
) -> u32 {
    let counts = is_slow(entry) && turn != Some(Turn::Lighter);
    let tires = |(other, sets): (&Entry, u32)| {
        sets >= TIRING_SETS && is_slow(other) && shares(other, entry)
    };
    u32::from(counts && before.into_iter().any(tires))
}

/// Lifts of several joints that are not there for speed.
fn is_slow(entry: &Entry) -> bool {
    entry.kind == Some(Kind::Compound)
        && entry.pattern.is_some_and(|pattern| !pattern.is_explosive() && !pattern.is_trunk())
}

/// Whether the second needs what the first has tired: its prime mover, in presses all of chest, shoulders and triceps,
/// with the bar back and legs in squats and hinges, and in a squat the glutes of a thrust.
fn shares(first: &Entry, second: &Entry) -> bool {
    let presses =
        |one: &Entry| matches!(one.pattern, Some(Pattern::HorizontalPush | Pattern::VerticalPush));
    let thrust = first.pattern == Some(Pattern::HipExtension);
    // Squat and deadlift take the back and legs of one another.
    let heavy = |one: &Entry| {
        let legs = matches!(one.pattern, Some(Pattern::Squat | Pattern::Hinge));
        one.main && legs && one.load == LoadKind::BarTotal
    };
    let prime = first.direct.first();
    (prime.is_some() && prime == second.direct.first())
        || (presses(first) && presses(second))
        || (heavy(first) && heavy(second))
        || (thrust && second.pattern == Some(Pattern::Squat))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Catalog;

    fn tired(id: &str, before: &[(&str, u32)], turn: Option<Turn>) -> u32 {
        let catalog = Catalog::built_in();
        let of = |id: &str| catalog.get(id).expect("a lift of the catalog");
        after(of(id), turn, before.iter().map(|(id, sets)| (of(id), *sets)))
    }

    #[test]
    fn a_later_lift_for_the_same_muscles_is_not_fresh() {
        assert_eq!(tired("overhead-press", &[("bench-press", 4)], None), 1);
        assert_eq!(tired("leg-press", &[("back-squat", 3)], None), 1);
        assert_eq!(tired("back-squat", &[("hip-thrust", 3)], None), 1);
        assert_eq!(tired("back-squat", &[("deadlift", 3)], None), 1);
        assert_eq!(tired("back-squat", &[("bench-press", 5)], None), 0);
        assert_eq!(tired("overhead-press", &[("bench-press", 2)], None), 0, "two sets are few");
        assert_eq!(tired("back-squat", &[("broad-jump", 4)], None), 0, "jumps are few and fast");
        assert_eq!(tired("overhead-press", &[("bench-press", 4)], Some(Turn::Lighter)), 0);
        assert_eq!(tired("overhead-press", &[], None), 0);
    }
}
