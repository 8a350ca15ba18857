//! Seconds of sets, items, pairs and ramps: one arithmetic for the planner, the weeks and the audit.

use crate::input::catalog::{Entry, StressTag};
use crate::input::plan::{Amounts, Group, Item, Session};
use crate::words::{Kit, Measure, Role, Sides, Stress};

/// Walking over and getting ready for a group. Common practice.
pub const WAY_IN_S: u32 = 30;
/// Walking over to conditioning and setting it up, beside its own minutes. Common practice.
pub const CONDITIONING_WAY_IN_S: u32 = 90;
/// Changing sides inside a set. Common practice.
pub const CHANGE_SIDES_S: u32 = 10;
/// Getting under the bar or into place, and out again, with every working set: ten repetitions of three seconds then take the
/// 40 s that the session of SS-06 counts for a set.
pub const INTO_PLACE_S: u32 = 10;
/// A ramp set with the plates changed. Common practice.
pub const RAMP_SET_S: u32 = 25;
/// Rest after a ramp set. Common practice.
pub const RAMP_REST_S: u32 = 45;
/// The most that the ramp of one lift may take. Common practice.
pub const RAMP_MOST_S: u32 = 8 * 60;
/// Seconds of a repetition that has no tempo. Common practice.
const REPETITION_S: u32 = 3;
/// Milliseconds of a meter with a load in the hands or a sled on the rope: a steady walk of 1 m/s. Common practice.
const CARRY_MS_PER_METER: u32 = 1000;
/// Milliseconds of a calorie on a machine's display: ten a minute, an easy pace. Common practice.
const MS_PER_CALORIE: u32 = 6000;

/// Seconds of one repetition from its four digits, or the usual three seconds without a tempo.
///
/// A bad tempo counts as none; reading the file refuses it before.
#[must_use]
pub fn repetition_s(tempo: Option<&str>) -> u32 {
    tempo.and_then(tempo_s).unwrap_or(REPETITION_S)
}

/// The sum of `"3-0-1-0"`: lowering, pause, lifting, pause in seconds (RX-23, common practice).
#[must_use]
pub fn tempo_s(tempo: &str) -> Option<u32> {
    let digits = tempo.split('-').map(|part| part.parse::<u32>().ok().filter(|digit| *digit <= 9));
    let digits = digits.collect::<Option<Vec<u32>>>()?;
    (digits.len() == 4).then(|| digits.iter().sum::<u32>().max(1))
}

/// What one set counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// Repetitions.
    Reps(u32),
    /// Seconds.
    Seconds(u32),
    /// Meters carried.
    Meters(u32),
    /// Meters at another pace, in milliseconds a meter.
    MetersAt(u32, u32),
    /// Calories on a machine's display.
    Calories(u32),
}

/// Seconds under load of one set: twice and a change of sides where each side works in turn.
#[must_use]
pub fn work_s(amount: Amount, tempo: Option<&str>, sides: Sides) -> u32 {
    let once = match amount {
        Amount::Reps(count) => count.saturating_mul(repetition_s(tempo)),
        Amount::Seconds(count) => count,
        Amount::Meters(count) => at_pace(count, CARRY_MS_PER_METER),
        Amount::MetersAt(count, pace) => at_pace(count, pace),
        Amount::Calories(count) => at_pace(count, MS_PER_CALORIE),
    };
    match sides {
        Sides::Both => once,
        Sides::Each => once.saturating_mul(2).saturating_add(CHANGE_SIDES_S),
    }
}

fn at_pace(count: u32, milliseconds: u32) -> u32 {
    count.saturating_mul(milliseconds).div_ceil(1000)
}

/// Milliseconds of a meter in a conditioning item, at an easy pace: 2 min 30 s for 500 m on a rowing or ski ergometer,
/// 25 km/h on a bicycle, a walk of 1.6 m/s, a run of 6 min for a kilometer. Common practice.
#[must_use]
pub fn pace_ms(entry: &Entry) -> u32 {
    let needs = |kit: Kit| entry.needs.iter().flatten().any(|need| *need == kit);
    let runs = || {
        entry.stress.iter().flat_map(StressTag::parts).any(|(stress, _)| stress == Stress::Impact)
    };
    if entry.role != Role::Conditioning || needs(Kit::Sled) {
        CARRY_MS_PER_METER
    } else if needs(Kit::RowingErgometer) || needs(Kit::SkiErgometer) {
        300
    } else if needs(Kit::StationaryBike) || needs(Kit::AirBike) {
        144
    } else if runs() {
        360
    } else {
        625
    }
}

/// Seconds of a ramp: each set and its rest, up to eight minutes.
#[must_use]
pub fn ramp_s(sets: usize) -> u32 {
    let sets = u32::try_from(sets).unwrap_or(u32::MAX);
    sets.saturating_mul(RAMP_SET_S + RAMP_REST_S).min(RAMP_MOST_S)
}

/// What a long rest loses in a pair, as the other half's work is rest as well. Common practice.
const LESS_IN_TURN_S: u32 = 15;
/// A round rests no longer than this, unless its longer half rests longer alone. Common practice.
const MOST_ROUND_REST_S: u32 = 120;

/// Rest of a round of exercises done in turn, from what each would rest alone: the longest, and less of a long one, as the
/// other half's work rests too. One exercise rests as it does.
pub fn round_rest_s(alone_s: impl Iterator<Item = u32>) -> u32 {
    let (count, most) = alone_s.fold((0, 0), |(count, most), rest| (count + 1, rest.max(most)));
    if count < 2 {
        return most;
    }
    most.min(most.saturating_sub(LESS_IN_TURN_S).max(MOST_ROUND_REST_S))
}

/// Rests come in such steps.
const REST_STEP_S: u32 = 15;
/// Rounds of shorter rests, as in circuits, rest at their end.
const SHARED_REST_S: u32 = 45;

/// How much of a round's rest comes between its halves: about a third, in steps of 15 s, as the other muscles are fresh.
/// Common practice.
#[must_use]
pub const fn between_s(round_rest_s: u32) -> u32 {
    if round_rest_s < SHARED_REST_S {
        return 0;
    }
    (round_rest_s / 3 + REST_STEP_S / 2) / REST_STEP_S * REST_STEP_S
}

/// What of an item takes time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timed {
    /// Seconds to arrange it before the first set.
    pub setup_s: u32,
    /// How many ramp sets.
    pub ramp_sets: usize,
    /// Seconds under load of each set.
    pub work_s: Vec<u32>,
    /// Rest after each set, in a pair after the round.
    pub rest_s: u32,
}

/// Seconds of a group: the way in, every set-up and ramp, all work, and a rest after each round but the last.
///
/// A group of one item is straight sets; in a pair the rounds are the most sets and the rest is the longest.
#[must_use]
pub fn group_s(items: &[Timed], way_in_s: u32) -> u32 {
    let rounds = items.iter().map(|item| item.work_s.len()).max().unwrap_or(0);
    let rounds = u32::try_from(rounds).unwrap_or(u32::MAX);
    let rest_s = items.iter().map(|item| item.rest_s).max().unwrap_or(0);
    let once = items.iter().map(|item| {
        let work = item.work_s.iter().fold(0_u32, |sum, set| sum.saturating_add(*set));
        item.setup_s.saturating_add(ramp_s(item.ramp_sets)).saturating_add(work)
    });
    once.fold(way_in_s, u32::saturating_add)
        .saturating_add(rounds.saturating_sub(1).saturating_mul(rest_s))
}

/// Seconds beside its work that a set of an exercise takes.
fn into_place_s(entry: &Entry) -> u32 {
    if entry.role == Role::Work { INTO_PLACE_S } else { 0 }
}

/// Seconds of one set of a catalog entry.
#[must_use]
pub fn set_s(entry: &Entry, amount: u32, tempo: Option<&str>) -> u32 {
    let amount = match entry.measure {
        Measure::Reps => Amount::Reps(amount),
        Measure::Seconds => Amount::Seconds(amount),
        Measure::Meters => Amount::MetersAt(amount, pace_ms(entry)),
        Measure::Calories => Amount::Calories(amount),
    };
    into_place_s(entry).saturating_add(work_s(amount, tempo, entry.sides))
}

/// What of a written item takes time.
#[must_use]
pub fn timed(item: &Item, entry: &Entry) -> Timed {
    let sides = if item.each_side { Sides::Each } else { Sides::Both };
    let tempo = item.tempo.as_deref();
    let amounts: Vec<Amount> = match item.amounts() {
        Some(Amounts::Reps(list)) => list.iter().copied().map(Amount::Reps).collect(),
        Some(Amounts::Seconds(list)) => list.iter().copied().map(Amount::Seconds).collect(),
        Some(Amounts::Meters(list)) => {
            let pace = pace_ms(entry);
            list.iter().map(|meters| Amount::MetersAt(*meters, pace)).collect()
        }
        Some(Amounts::Calories(list)) => list.iter().copied().map(Amount::Calories).collect(),
        None => Vec::new(),
    };
    Timed {
        setup_s: entry.setup_s,
        ramp_sets: item.ramp.len(),
        work_s: amounts
            .into_iter()
            .map(|amount| into_place_s(entry).saturating_add(work_s(amount, tempo, sides)))
            .collect(),
        rest_s: item.rest_s,
    }
}

/// Seconds of a written group; items that `entry` does not know take no set-up.
#[must_use]
pub fn written_group_s<'a>(group: &Group, entry: &dyn Fn(&str) -> Option<&'a Entry>) -> u32 {
    let items: Vec<Timed> = group
        .items
        .iter()
        .filter_map(|item| entry(&item.exercise).map(|entry| timed(item, entry)))
        .collect();
    group_s(&items, WAY_IN_S)
}

/// Fills in the seconds of every group and the planned minutes of a session.
pub fn fill_in<'a>(session: &mut Session, entry: &dyn Fn(&str) -> Option<&'a Entry>) {
    let mut sum = 0_u32;
    for group in &mut session.groups {
        let seconds = written_group_s(group, entry);
        group.seconds = Some(seconds);
        sum = sum.saturating_add(seconds);
    }
    if let Some(minutes) = &mut session.minutes {
        minutes.planned_s = sum;
        minutes.planned = tenths_of_minutes(sum);
    }
}

/// Whole seconds as minutes to one decimal.
#[must_use]
pub fn tenths_of_minutes(seconds: u32) -> f64 {
    (f64::from(seconds) / 6.0).round() / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RX-22 and RX-23: 3-1-1-0 is 5 s, 5-2-5-0 is 12 s, ten repetitions at 3-0-1-0 are 40 s under load.
    #[test]
    fn tempo_is_the_sum_of_its_digits() {
        assert_eq!(tempo_s("3-1-1-0"), Some(5));
        assert_eq!(tempo_s("5-2-5-0"), Some(12));
        assert_eq!(work_s(Amount::Reps(10), Some("3-0-1-0"), Sides::Both), 40);
        assert_eq!(tempo_s("3-1-1"), None);
        assert_eq!(tempo_s("3-x-1-0"), None);
    }

    fn sets(count: usize, setup_s: u32) -> Timed {
        Timed { setup_s, ramp_sets: 0, work_s: vec![40; count], rest_s: 120 }
    }

    /// SS-06 (Burke et al. 2024 preprint): six exercises of four sets, 40 s a set, 2 min rest. The table counts
    /// 24 straight rests and 12 paired ones; ours leaves out the rest after a group's last set, so a way in of
    /// one rest stands for it.
    #[test]
    fn straight_and_paired_sessions_take_64_and_40_minutes() {
        let straight: u32 = (0..6).map(|_| group_s(&[sets(4, 0)], 120)).sum();
        let paired: u32 = (0..3).map(|_| group_s(&[sets(4, 0), sets(4, 0)], 120)).sum();
        assert_eq!(straight, 64 * 60);
        assert_eq!(paired, 40 * 60);
    }

    #[test]
    fn each_side_is_twice_and_ten_seconds() {
        assert_eq!(work_s(Amount::Reps(8), Some("2-0-1-0"), Sides::Each), 2 * 24 + 10);
        assert_eq!(work_s(Amount::Seconds(30), None, Sides::Each), 70);
        assert_eq!(work_s(Amount::Meters(20), None, Sides::Both), 20);
    }

    #[test]
    fn a_ramp_is_seventy_seconds_a_set_up_to_eight_minutes() {
        assert_eq!(ramp_s(0), 0);
        assert_eq!(ramp_s(3), 210);
        assert_eq!(ramp_s(9), 480);
    }

    /// Common practice: as long as its longer half alone, and a little less where that is over two minutes.
    #[test]
    fn a_round_rests_as_its_longer_half() {
        assert_eq!(round_rest_s([60, 60].into_iter()), 60);
        assert_eq!(round_rest_s([75, 90].into_iter()), 90);
        assert_eq!(round_rest_s([120, 60].into_iter()), 120);
        assert_eq!(round_rest_s([150, 60].into_iter()), 135);
        assert_eq!(round_rest_s([45, 30].into_iter()), 45, "a short rest stays short");
        assert_eq!(round_rest_s([90].into_iter()), 90);
    }

    /// Common practice: 15 and 45 s, 30 and 60 s; the second half is the longer one.
    #[test]
    fn a_rounds_rest_is_shared_between_its_halves() {
        let shared = |rest_s| [between_s(rest_s), rest_s - between_s(rest_s)];
        assert_eq!(shared(30), [0, 30]);
        assert_eq!(shared(45), [15, 30]);
        assert_eq!(shared(60), [15, 45]);
        assert_eq!(shared(75), [30, 45]);
        assert_eq!(shared(90), [30, 60]);
        assert_eq!(shared(105), [30, 75]);
        assert_eq!(shared(120), [45, 75]);
        assert_eq!(shared(135), [45, 90]);
    }

    #[test]
    fn an_uneven_pair_has_the_rounds_of_its_longer_half() {
        let seconds = group_s(&[sets(4, 20), sets(3, 10)], WAY_IN_S);
        assert_eq!(seconds, 30 + 30 + 7 * 40 + 3 * 120);
    }
}
