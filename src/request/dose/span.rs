//! What a set of one exercise asks for: the dose of its duty inside the exercise's own range.

use super::Dose;
use crate::input::catalog::Entry;
use crate::words::{Kind, LoadKind, Measure, Pattern};

/// What a set of one exercise asks for, once dose and exercise are put together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The least of a set, in the exercise's own measure.
    pub low: u32,
    /// The most of a set.
    pub high: u32,
    /// The most of a set in the first four weeks, within `low..=high`.
    pub aim: u32,
}

/// Barbell squats, hinges and presses end at twelve, and pulls from the floor at eight: form goes before the muscle does
/// (common practice).
const BARBELL_MOST: u32 = 12;
const FLOOR_PULL_MOST: u32 = 8;

fn most_with_the_bar(entry: &Entry) -> u32 {
    let from_floor = entry.family() == "deadlift";
    match (is_heavy_bar(entry), from_floor) {
        (true, true) => FLOOR_PULL_MOST,
        (true, false) => BARBELL_MOST,
        (false, _) => u32::MAX,
    }
}

impl Dose {
    /// What a set of this exercise asks for: the dose inside the exercise's own range.
    ///
    /// Where the two do not meet, or count different things, the exercise's range holds and the aim lies a
    /// third of the way up, in whole fives from 20.
    #[must_use]
    pub fn span(&self, entry: &Entry) -> Span {
        let own_low = entry.reps.first().copied().unwrap_or(self.reps[0]);
        let own_high = entry.reps.last().copied().unwrap_or(self.reps[1]).max(own_low);
        // Where every set is long, a pull from the floor has the fewest of the dose.
        let most = most_with_the_bar(entry).max(self.reps[0].min(BARBELL_MOST));
        let own_high = own_high.min(most.max(own_low));
        let low = self.reps[0].max(own_low);
        let high = self.reps[1].min(own_high);
        if entry.measure == self.unit && low <= high {
            if !is_raise(entry) {
                return Span { low, high, aim: self.aim.clamp(low, high) };
            }
            let aim = (self.aim + RAISE_MORE).clamp(low, high);
            return Span { low: low.max(aim.saturating_sub(RAISE_GROWS)), high, aim };
        }
        if entry.measure == self.unit && self.reps[0] > own_high {
            // The exercise stops short of the dose: its own top is the nearest to what is wanted.
            return Span {
                low: own_high.saturating_sub(2).max(own_low),
                high: own_high,
                aim: own_high,
            };
        }
        let third = own_low + (own_high - own_low) / 3;
        let aim = if third >= 20 { third / 5 * 5 } else { third };
        Span { low: own_low, high: own_high, aim: aim.clamp(own_low, own_high) }
    }

    /// The tempo of an exercise: its own where it names one, else the goal's; none for other measures.
    #[must_use]
    pub fn tempo_for<'a>(&'a self, entry: &'a Entry) -> Option<&'a str> {
        if entry.measure != Measure::Reps {
            return None;
        }
        entry.tempo.as_deref().or(self.tempo.as_deref())
    }
}

/// Raises, flies, face pulls, straight-arm pulldowns, outward turns and calves take so many more: small joints like light loads. Common practice.
const RAISE_MORE: u32 = 3;
/// So far under that their weeks begin, as those of other small work do: from the low end of it they would be its like for a month.
const RAISE_GROWS: u32 = 2;

fn is_raise(entry: &Entry) -> bool {
    use Pattern::{
        HipAbduction, HipAdduction, PlantarFlexion, ShoulderAbduction, ShoulderExtension,
        ShoulderExternalRotation, ShoulderHorizontalAbduction, ShoulderHorizontalAdduction,
    };
    entry.kind == Some(Kind::Isolation)
        && entry.measure == Measure::Reps
        && entry.pattern.is_some_and(|pattern| {
            matches!(
                pattern,
                HipAbduction
                    | HipAdduction
                    | PlantarFlexion
                    | ShoulderAbduction
                    | ShoulderExtension
                    | ShoulderExternalRotation
                    | ShoulderHorizontalAbduction
                    | ShoulderHorizontalAdduction
            )
        })
}

fn is_heavy_bar(entry: &Entry) -> bool {
    use Pattern::{Hinge, HorizontalPush, Squat, VerticalPush};
    entry.load == LoadKind::BarTotal
        && entry
            .pattern
            .is_some_and(|pattern| matches!(pattern, Squat | Hinge | HorizontalPush | VerticalPush))
}
