//! Seconds: what a set, a rest and the way to the next station cost.

use crate::input::catalog::Entry;
use crate::words::{Measure, Sides};

/// The way into a group: putting away, walking over, a sip of water. Common practice.
pub const WAY_IN_S: u32 = 30;
/// Changing sides within a set. Common practice.
pub const CHANGE_SIDES_S: u32 = 10;
/// One ramp set with the rest after it. Common practice.
pub const RAMP_SET_S: u32 = 70;
/// All ramp sets of a session stay under this.
pub const RAMP_LIMIT_S: u32 = 480;
/// A loaded carry goes at about a walker's slow pace. Common practice.
const METERS_PER_SECOND: u32 = 1;
/// A calorie on a machine's display at a moderate pace. Common practice.
const SECONDS_PER_CALORIE: u32 = 6;

/// Seconds of one set of an item.
#[must_use]
pub fn work_s(amount: u32, measure: Measure, tempo: Option<&str>, sides: Sides) -> u32 {
    let once = match measure {
        Measure::Reps => amount * tempo.map_or(4, tempo_s).max(1),
        Measure::Seconds => amount,
        Measure::Meters => amount / METERS_PER_SECOND,
        Measure::Calories => amount * SECONDS_PER_CALORIE,
    };
    match sides {
        Sides::Both => once,
        Sides::Each => 2 * once + CHANGE_SIDES_S,
    }
}

/// Seconds of one repetition at a four-digit tempo.
#[must_use]
pub fn tempo_s(tempo: &str) -> u32 {
    tempo.split('-').filter_map(|part| part.parse::<u32>().ok()).sum()
}

/// What one item of a group adds to its time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ItemTime {
    /// Seconds to arrange it.
    pub setup_s: u32,
    /// Seconds of its ramp sets.
    pub ramp_s: u32,
    /// Seconds of each working set.
    pub sets: Vec<u32>,
    /// Rest after each set, or after the round.
    pub rest_s: u32,
}

/// Seconds of a group: the way in, set-up, ramp sets, work, and the rests between its rounds.
///
/// ```
/// use weekwright::timing::{group_s, ItemTime};
/// let bench = ItemTime { setup_s: 60, ramp_s: 0, sets: vec![40; 3], rest_s: 120 };
/// assert_eq!(group_s(&[bench]), 30 + 60 + 3 * 40 + 2 * 120);
/// ```
#[must_use]
pub fn group_s(items: &[ItemTime]) -> u32 {
    let rounds = items.iter().map(|item| item.sets.len()).max().unwrap_or(0);
    let rest = items.iter().map(|item| item.rest_s).max().unwrap_or(0);
    let own: u32 =
        items.iter().map(|item| item.setup_s + item.ramp_s + item.sets.iter().sum::<u32>()).sum();
    let rests = u32::try_from(rounds.saturating_sub(1)).unwrap_or(u32::MAX);
    WAY_IN_S + own + rests.saturating_mul(rest)
}

/// Seconds of a flow of preparation items, done one after another with nothing in between but set-up.
#[must_use]
pub fn flow_s(items: &[ItemTime]) -> u32 {
    items.iter().map(|item| item.setup_s + item.sets.iter().sum::<u32>()).sum()
}

/// Seconds of one set of a catalog entry.
#[must_use]
pub fn set_s(entry: &Entry, amount: u32, tempo: Option<&str>) -> u32 {
    work_s(amount, entry.measure, tempo.or(entry.tempo.as_deref()), entry.sides)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn item(setup_s: u32) -> ItemTime {
        ItemTime { setup_s, ramp_s: 0, sets: vec![40; 4], rest_s: 120 }
    }

    /// Burke et al. 2024 (preprint), 6 exercises of 4 sets, 40 s a set and 2 min rest: 64.0 min
    /// straight and 40.0 min paired, when the way into each group takes the same two minutes.
    #[test]
    fn straight_and_paired_sessions_take_the_published_times() {
        let way_in = 120 - WAY_IN_S;
        let straight: u32 = (0..6).map(|_| group_s(&[item(way_in)])).sum();
        let paired: u32 = (0..3).map(|_| group_s(&[item(way_in), item(0)])).sum();
        assert_eq!((straight, paired), (64 * 60, 40 * 60));
    }

    /// Ten repetitions at 3-0-1-0 are 40 s under load (common practice).
    #[test]
    fn a_tempo_gives_the_seconds_of_a_set() {
        assert_eq!(work_s(10, Measure::Reps, Some("3-0-1-0"), Sides::Both), 40);
        assert_eq!(work_s(8, Measure::Reps, Some("3-0-1-0"), Sides::Each), 74);
        assert_eq!(work_s(30, Measure::Seconds, None, Sides::Both), 30);
    }
}
