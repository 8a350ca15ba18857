//! Weekly sets wanted of each muscle, scaled to the minutes there are.

use std::collections::BTreeMap;

use super::figures::{FRACTIONAL_CAP, PAIRED_SETS_PER_MINUTE, SETS_PER_MINUTE};
use super::standing::by_limit::spares_raises;
use super::targets;
use super::{Day, Figures};
use crate::input::is_senior;
use crate::input::profile::{Profile, TargetWish};
use crate::words::{Effort, Emphasis, Goal, Muscle, Status};

/// A muscle's weekly range in fractional sets.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// The least that is worth planning for.
    pub floor: f64,
    /// Low end of the range.
    pub low: f64,
    /// High end of the range.
    pub high: f64,
    /// Whether the low end is a demand.
    pub strict: bool,
    /// Where the figures come from.
    pub sources: Vec<String>,
}

/// A range that had to come down before solving.
#[derive(Debug, Clone, PartialEq)]
pub struct Lowered {
    /// The muscle.
    pub muscle: Muscle,
    /// The low end that was wanted.
    pub wanted: f64,
    /// The low end that is planned.
    pub planned: f64,
    /// What cannot hold more.
    pub because: String,
}

/// Fractional sets of targeted muscles that one working set gives, over a usual mix. From trial weeks of ours.
const YIELD_PER_SET: f64 = 1.45;

/// Ranges for a client: the defaults by status and goal or the profile's own, moved by emphasis, then
/// brought down to what minutes, days and session caps can hold.
#[must_use]
pub fn targets(
    profile: &Profile,
    days: &[Day],
    figures: &Figures,
) -> (BTreeMap<Muscle, Target>, Vec<Lowered>) {
    let mut wanted: BTreeMap<Muscle, Target> =
        Muscle::ALL.iter().filter_map(|muscle| Some((*muscle, wish(profile, *muscle)?))).collect();
    let mut lowered = Vec::new();
    let share = (capacity(days, figures) / demand(&wanted)).min(1.0);
    // Where the minutes hold more than every range, the ranges reach further.
    let highs = wanted.values().map(|target| target.high).sum::<f64>().max(1.0);
    let room = (capacity(days, figures) / highs).clamp(1.0, MOST_ROOM);
    for (muscle, target) in &mut wanted {
        let own = profile.targets.contains_key(muscle);
        if !own {
            target.high = half(target.high * room);
        }
        let low = if own { target.low } else { half(target.low * share) };
        let cap = day_cap(days, figures, *muscle);
        scale(target, low.min(cap), own);
        let asked = wish(profile, *muscle).map_or(0.0, |target| target.low);
        if target.low < asked {
            let because = if cap < low {
                format!(
                    "{} days of at most {} direct sets hold {cap}",
                    days.len(),
                    figures.session_cap_of(*muscle)
                )
            } else {
                let minutes: u32 = days.iter().map(|day| day.minutes).sum();
                format!(
                    "{minutes} minutes a week hold about {:.0} % of the usual range",
                    share * 100.0
                )
            };
            lowered.push(Lowered { muscle: *muscle, wanted: asked, planned: target.low, because });
        }
    }
    (wanted, lowered)
}

/// The range before scaling.
fn wish(profile: &Profile, muscle: Muscle) -> Option<Target> {
    let own = profile.targets.get(&muscle).map(|wish| match wish {
        TargetWish::Range(range) => (*range, false),
        TargetWish::Strict(strict) => (strict.range, strict.strict),
    });
    let default = targets::target(profile.goal, profile.training_status, muscle);
    let moved = match profile.emphasis.get(&muscle) {
        Some(Emphasis::More) => 1.25,
        Some(Emphasis::Less) => 0.5,
        None => 1.0,
    };
    let wished = profile.emphasis.get(&muscle) == Some(&Emphasis::More);
    // Whose shoulder has limits is asked for no work of the side delts that they did not wish.
    let spared = muscle == Muscle::SideDelts && spares_raises(profile) && !wished;
    // The one session of a week trains the small muscles by its lifts.
    let comes_along = once_a_week(profile) && !muscle.is_major() && !wished;
    let default = default.filter(|_| !spared && !comes_along);
    match (own, default) {
        (Some((range, strict)), _) => Some(Target {
            floor: range[0].min(4.0),
            low: range[0],
            high: range[1],
            strict,
            sources: vec!["profile".to_owned()],
        }),
        (None, Some(range)) => {
            let seldom = seldom(profile);
            let few = begins_late(profile) || seldom;
            let low = if few { range.floor } else { range.low };
            let floor = if seldom { range.floor.min(FLOOR_OF_FEW_DAYS) } else { range.floor };
            let once = once_a_week(profile);
            let low = if once || seldom && !profile.goal.builds() { floor } else { low };
            // The one pull or thrust of a week works the backs of the thighs as well.
            let halved = once && muscle == Muscle::Hamstrings;
            let [floor, low] = if halved { [floor / 2.0, low / 2.0] } else { [floor, low] };
            let low = half(without_sport(profile, muscle, low * moved));
            Some(Target {
                floor: floor.min(low),
                low,
                high: half(range.high * moved * room(muscle)),
                strict: false,
                sources: range.sources.clone(),
            })
        }
        (None, None) => None,
    }
}

/// Who comes once a week does a little of every movement rather than much of some. Common practice.
fn once_a_week(profile: &Profile) -> bool {
    profile.sessions.len() == 1
}

/// Who comes once or twice a week and not for size has three sets of a lift on a day, and is well served by that: the dose
/// that keeps and slowly builds (VO-05 and VO-12 say four; a set less is common practice).
fn seldom(profile: &Profile) -> bool {
    profile.sessions.len() <= 2 && profile.goal != Goal::Hypertrophy
}

/// The least of a muscle in a week of one day or two.
const FLOOR_OF_FEW_DAYS: f64 = 3.0;

/// Who begins at 65 or later for something else than size or strength does two sets of many exercises rather than three of
/// few (SC-13: older clients begin with one or two sets; common practice).
fn begins_late(profile: &Profile) -> bool {
    let novice = profile.training_status == Status::Novice;
    novice && is_senior(profile) && !profile.goal.builds()
}

/// The most weekly fractional sets of a muscle without a range; where it should get more, half as many again. Common
/// practice.
#[must_use]
pub fn ceiling(profile: &Profile, muscle: Muscle) -> f64 {
    const OF_A_WISH: f64 = 1.5;
    let usual = targets::ceiling(profile.goal, profile.training_status, muscle);
    let wished = profile.emphasis.get(&muscle) == Some(&Emphasis::More);
    if wished { usual * OF_A_WISH } else { usual }
}

/// What is left of a low end once sport has had its share: a hard session is worth two sets of what it works, an easy one
/// one, up to half of the range. Common practice.
fn without_sport(profile: &Profile, muscle: Muscle, low: f64) -> f64 {
    let other = profile.other_training.iter().filter(|sport| sport.muscles.contains(&muscle));
    let sets: f64 = other
        .map(|sport| match sport.load {
            Effort::Hard => 2.0,
            Effort::Easy => 1.0,
        })
        .sum();
    (low - sets).max(low / 2.0)
}

/// How much further a range reaches: squats, hinges and lunges all count for the glutes, so that a usual week of legs is
/// half as much again for them. Common practice.
fn room(muscle: Muscle) -> f64 {
    if muscle == Muscle::Glutes { 1.5 } else { 1.0 }
}

/// How much further ranges reach at most where the week has the minutes. Common practice.
const MOST_ROOM: f64 = 1.6;

fn scale(target: &mut Target, low: f64, own: bool) {
    if low < target.low && !target.strict {
        let share = low / target.low.max(0.5);
        target.low = low;
        target.high = if own { target.high } else { half(target.high * share).max(low + 2.0) };
        target.floor = target.floor.min(half(target.floor * share)).min(low);
    }
}

/// Fractional sets that the minutes hold.
fn capacity(days: &[Day], figures: &Figures) -> f64 {
    let rate = if figures.pairs {
        f64::midpoint(SETS_PER_MINUTE, PAIRED_SETS_PER_MINUTE) * 0.9
    } else {
        SETS_PER_MINUTE
    };
    days.iter().map(|day| f64::from(day.work_s()) / 60.0 * rate * YIELD_PER_SET).sum()
}

fn demand(wanted: &BTreeMap<Muscle, Target>) -> f64 {
    wanted.values().map(|target| target.low).sum::<f64>().max(1.0)
}

/// What session caps over all days can hold of a muscle.
fn day_cap(days: &[Day], figures: &Figures, muscle: Muscle) -> f64 {
    if muscle.recovers_fast() {
        return f64::MAX;
    }
    let cap = f64::from(figures.session_cap_of(muscle)).min(FRACTIONAL_CAP);
    #[allow(clippy::cast_precision_loss, reason = "at most fourteen days")]
    let days = days.len() as f64;
    cap * days
}

/// Down to whole half-sets.
fn half(sets: f64) -> f64 {
    (sets * 2.0 + 1e-9).floor() / 2.0
}
