//! What is kept of each session for its end: conditioning that is asked for, or a finisher where it is part of the plan.

use std::collections::BTreeSet;

use crate::input::profile::{Profile, SessionSlot};
use crate::timing;
use crate::words::{Finishers, Goal};

/// Seconds of each session, from the minutes of all.
pub(super) fn seconds(profile: &Profile, minutes: &[u32]) -> Vec<u32> {
    let Some(wish) = &profile.conditioning else {
        return minutes.iter().map(|minutes| for_a_finisher(profile, *minutes)).collect();
    };
    let wanted = wish.minutes * 60;
    let held: Vec<u32> = minutes.iter().map(|minutes| most_s(profile.goal, *minutes)).collect();
    let closing = closing_days(profile, wanted, &held);
    let most = wanted + timing::CONDITIONING_WAY_IN_S;
    let kept =
        |(day, held): (usize, &u32)| if closing.contains(&day) { most.min(*held) } else { 0 };
    held.iter().enumerate().map(kept).collect()
}

/// The most seconds of a session that conditioning takes: a quarter, and where size, strength and power are not the goal
/// two fifths of its first three quarters of an hour. Common practice.
#[must_use]
pub fn most_s(goal: Goal, session_minutes: u32) -> u32 {
    let lifts_first = goal.builds() || goal == Goal::Power;
    let for_lungs = if lifts_first { 0 } else { session_minutes.min(GIVING_MORE_MIN) * 60 * 2 / 5 };
    for_lungs.max(session_minutes * 60 / 4)
}

/// So many minutes of a session give more of themselves to conditioning that is asked for. Common practice.
const GIVING_MORE_MIN: u32 = 45;
/// Sessions up to this long end with their last set, but where fat is to be lost or all-round fitness is the goal. Common
/// practice.
const SHORT_SESSION_MIN: u32 = 30;
/// The same there.
const SHORTEST_SESSION_MIN: u32 = 20;
/// What is kept for a finisher where fat is to be lost: four bouts, as fewer are over before the heart is driven. Common
/// practice.
const KEPT_S: u32 = 4 * 60;

/// Whether a session has room for a finisher.
#[must_use]
pub fn has_a_finisher(profile: &Profile, session_minutes: u32) -> bool {
    let shortest = match profile.goal {
        Goal::FatLoss | Goal::GeneralFitness => SHORTEST_SESSION_MIN,
        _ => SHORT_SESSION_MIN,
    };
    profile.finishers == Finishers::Allow && session_minutes > shortest
}

/// Where fat is to be lost a finisher is part of the plan, elsewhere it takes what is left.
fn for_a_finisher(profile: &Profile, session_minutes: u32) -> u32 {
    match profile.goal {
        Goal::FatLoss if has_a_finisher(profile, session_minutes) => KEPT_S,
        _ => 0,
    }
}

/// The most sessions a week that carry conditioning while strength comes first (Wilson et al. 2012).
const CONDITIONING_DAYS: usize = 3;

/// So many sessions of up to so many minutes have lifts to fill every second one whole. Common practice.
const MANY: usize = 4;
const MANY_SHORT_MIN: u32 = 35;

/// The sessions that end with conditioning, spread over the week: at most three for strength and size, and none whose
/// share holds far less than is wished where two others hold it.
fn closing_days(profile: &Profile, wanted: u32, held: &[u32]) -> BTreeSet<usize> {
    /// So much of what is wished is worth its way in.
    const WORTH_IT_PERCENT: u32 = 80;
    match &profile.conditioning {
        Some(wish) if wish.from_week <= profile.weeks && profile.goal != Goal::Power => {
            let all: Vec<usize> = (0..held.len()).collect();
            let long: Vec<usize> = all
                .iter()
                .copied()
                .filter(|day| held[*day] * 100 >= wanted * WORTH_IT_PERCENT)
                .collect();
            let days = if long.len() >= 2 { long } else { all };
            // Where strength and size are not the goal, every session may end with it, of many short ones every second.
            let short = |one: &SessionSlot| one.minutes <= MANY_SHORT_MIN;
            let many = profile.sessions.len() >= MANY && profile.sessions.iter().all(short);
            let count = match profile.goal.builds() {
                true => days.len().min(CONDITIONING_DAYS),
                false if many => days.len().div_ceil(2),
                false => days.len(),
            };
            (0..count).map(|place| days[place * days.len() / count]).collect()
        }
        _ => BTreeSet::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_sessions_give_more_of_themselves_where_lifts_are_not_first() {
        let minutes = |goal| [35, 45, 60, 90].map(|session| most_s(goal, session) / 60);
        assert_eq!(minutes(Goal::FatLoss), [14, 18, 18, 22]);
        assert_eq!(minutes(Goal::Strength), [8, 11, 15, 22]);
    }

    /// Five half hours for fat loss end with it on three days, three of them on each.
    #[test]
    fn of_many_short_sessions_every_second_has_conditioning() {
        let ends = |days: &str, minutes: u32| {
            let days = days.split(' ').map(|day| format!("{{day: {day}, minutes: {minutes}}}"));
            let text = format!(
                "{{client: t, training_status: intermediate, goal: fat-loss, equipment: [dumbbells], sessions: [{}], \
                 conditioning: {{from_week: 1, minutes: 8}}}}",
                days.collect::<Vec<_>>().join(", ")
            );
            let profile: Profile = serde_yaml::from_str(&text).unwrap();
            let minutes: Vec<u32> = profile.sessions.iter().map(|one| one.minutes).collect();
            seconds(&profile, &minutes).iter().filter(|kept| **kept > 0).count()
        };
        assert_eq!(ends("mon tue wed thu fri", 35), 3);
        assert_eq!([ends("mon wed fri", 35), ends("mon tue wed thu fri", 50)], [3, 5]);
    }

    #[test]
    fn a_finisher_is_kept_room_for_where_fat_is_to_be_lost() {
        let client = |keys: &str| {
            let text = format!(
                "{{client: t, training_status: novice, equipment: [barbell], sessions: [{{day: mon, minutes: 60}}], {keys}}}"
            );
            serde_yaml::from_str(&text).unwrap()
        };
        let kept = |keys| seconds(&client(keys), &[20, 30, 60]);
        assert_eq!(kept("goal: fat-loss, finishers: allow"), [0, 240, 240]);
        assert_eq!(kept("goal: hypertrophy, finishers: allow"), [0, 0, 0]);
        assert_eq!(kept("goal: fat-loss"), [0, 0, 0]);
    }
}
