//! A short, lively end of a session: low hops, rope, body-weight squats and the like, in light bouts.

use crate::input::catalog::{Entry, StressTag};
use crate::input::profile::Profile;
use crate::plan::file::{Group, Item};
use crate::plan::timing::written_group_s;
use crate::request::closing::has_a_finisher;
use crate::request::dose::{Duty, dose};
use crate::request::standing::is_a_room;
use crate::words::{
    Goal, Grade, GroupKind, LoadKind, Measure, Pattern, Role, Sides, Status, Stress,
};

/// The most that a finisher may take. Common practice.
pub const MOST_S: u32 = 5 * 60;
/// Jumps and throws beyond so many in a set are no longer explosive work. Common practice.
const EXPLOSIVE_MOST: u32 = 6;

/// A finisher from entries that kit, limits and level allow, as long as `left_s` holds; `turn` goes round among them, one
/// for each session.
#[must_use]
pub fn finisher(
    profile: &Profile,
    usable: &[&Entry],
    (session_minutes, left_s): (u32, u32),
    turn: usize,
) -> Option<Group> {
    if !has_a_finisher(profile, session_minutes) {
        return None;
    }
    let mut gentle: Vec<&Entry> = usable.iter().copied().filter(|entry| is_gentle(entry)).collect();
    // A room has no thirty meters.
    if is_a_room(profile) && gentle.iter().any(|entry| entry.measure != Measure::Meters) {
        gentle.retain(|entry| entry.measure != Measure::Meters);
    }
    if profile.goal == Goal::FatLoss {
        // Heart and lungs are the point: a hold does not do, and the knees have had their squats.
        gentle.retain(|entry| is_lively(entry));
        let steps = |entry: &&Entry| is_a_step(entry, profile.training_status);
        if gentle.iter().any(steps) {
            gentle.retain(steps);
        }
    }
    let entry = *gentle.get(turn.checked_rem(gentle.len())?)?;
    let dose = dose(profile.goal, profile.training_status, Duty::Finisher);
    (dose.sets[0]..=dose.sets[1]).rev().find_map(|sets| {
        let mut group = group(entry, sets, dose.span(entry).aim, dose.rest_s);
        let seconds = written_group_s(&group, &|_| Some(entry));
        group.seconds = Some(seconds);
        (seconds <= MOST_S.min(left_s)).then_some(group)
    })
}

/// Whether a week may hold a finisher: not the first two of a novice.
#[must_use]
pub const fn is_time(status: Status, week: u32) -> bool {
    !matches!(status, Status::Novice) || week > 2
}

/// Whether an exercise may be done in light bouts of many: no heavy impact, and jumps only with the body's own weight.
#[must_use]
pub fn is_gentle(entry: &Entry) -> bool {
    let mut stresses = entry.stress.iter().flat_map(StressTag::parts);
    let hard_landing = stresses.any(|stress| stress == (Stress::Impact, Grade::Heavy));
    let springs = entry.pattern.is_some_and(Pattern::is_explosive);
    let unloaded = matches!(entry.load, LoadKind::Bodyweight | LoadKind::None | LoadKind::Band);
    let few = entry.measure == Measure::Reps
        && entry.reps.last().is_some_and(|most| *most <= EXPLOSIVE_MOST);
    entry.role == Role::Finisher && !hard_landing && (!springs || unloaded || few)
}

/// Whether it drives the heart.
fn is_lively(entry: &Entry) -> bool {
    let mut stresses = entry.stress.iter().flat_map(StressTag::parts);
    stresses.any(|(stress, _)| stress == Stress::HighHeartRate)
}

/// Whether the feet move and the rest goes along: a march, a run or light hops, which wait for who begins.
fn is_a_step(entry: &Entry, status: Status) -> bool {
    let moves = matches!(entry.pattern, Some(Pattern::Locomotion | Pattern::Jump));
    let lands =
        entry.stress.iter().flat_map(StressTag::parts).any(|(stress, _)| stress == Stress::Impact);
    moves && !(lands && status == Status::Novice)
}

fn group(entry: &Entry, sets: u32, amount: u32, rest_s: u32) -> Group {
    let amounts = Some(vec![amount; usize::try_from(sets).unwrap_or(1)]);
    let mut item = Item {
        exercise: entry.id.clone(),
        sets,
        each_side: entry.sides == Sides::Each,
        rest_s,
        tempo: entry.tempo.clone(),
        effort: Some("quick and light; stop while it still springs".to_owned()),
        ..Item::default()
    };
    match entry.measure {
        Measure::Reps => item.reps = amounts,
        Measure::Seconds => item.seconds = amounts,
        Measure::Meters => item.meters = amounts,
        Measure::Calories => item.calories = amounts,
    }
    Group { kind: GroupKind::Finisher, seconds: None, items: vec![item] }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(stress: &str, load: &str) -> Entry {
        serde_yaml::from_str(&format!(
            "{{id: hop, name: Hop, role: finisher, pattern: jump, kind: compound, direct: [calves], needs: [[]], level: 1,
               sides: both, load: {load}, measure: seconds, reps: [15, 30], setup_s: 15, stress: {stress}}}"
        ))
        .unwrap()
    }

    fn client(finishers: &str) -> Profile {
        serde_yaml::from_str(&format!(
            "{{client: t, training_status: novice, goal: fat-loss, equipment: [barbell], finishers: {finishers},
               sessions: [{{day: mon, minutes: 60}}]}}"
        ))
        .unwrap()
    }

    #[test]
    fn only_those_who_allow_it_get_one_and_only_in_longer_sessions() {
        let hop = entry("[{impact: light}, high-heart-rate]", "bodyweight");
        let bouts = |left_s| {
            let group = finisher(&client("allow"), &[&hop], (60, left_s), 3)?;
            assert!(group.seconds.unwrap() <= left_s.min(MOST_S));
            group.items[0].seconds.as_ref().map(Vec::len)
        };
        assert_eq!([600, 150, 60, 10].map(bouts), [Some(4), Some(2), None, None], "one is none");
        assert_eq!(finisher(&client("never"), &[&hop], (60, 600), 0), None);
        assert_eq!(finisher(&client("allow"), &[&hop], (20, 600), 0), None);
        assert_eq!(finisher(&client("allow"), &[], (60, 600), 0), None);
    }

    #[test]
    fn who_begins_to_lose_fat_marches_and_does_not_hop() {
        let hop = entry("[{impact: light}, high-heart-rate]", "bodyweight");
        let march = Entry {
            id: "march".to_owned(),
            pattern: Some(Pattern::Locomotion),
            ..entry("[high-heart-rate]", "bodyweight")
        };
        let squat =
            Entry { pattern: Some(Pattern::Squat), ..entry("[high-heart-rate]", "bodyweight") };
        let id = |turn| {
            let group = finisher(&client("allow"), &[&hop, &squat, &march], (60, 600), turn);
            group.map(|group| group.items[0].exercise.clone())
        };
        assert_eq!(
            [0, 1, 2].map(id),
            [Some("march".to_owned()), Some("march".to_owned()), Some("march".to_owned())]
        );
    }

    /// The only item of a place without a rack, a bar or a machine walks nowhere; with the bar of a gym it may.
    #[test]
    fn a_room_has_no_thirty_meters() {
        let shuttle = Entry {
            id: "shuttle".to_owned(),
            measure: Measure::Meters,
            ..entry("[high-heart-rate]", "bodyweight")
        };
        let hop = entry("[{impact: light}, high-heart-rate]", "bodyweight");
        let chosen = |place: &str| {
            let client: Profile = serde_yaml::from_str(&format!(
                "{{client: t, training_status: intermediate, goal: general-fitness, equipment: [{place}], finishers: allow,
                   sessions: [{{day: mon, minutes: 60}}]}}"
            ))
            .unwrap();
            let group = finisher(&client, &[&shuttle, &hop], (60, 600), 0);
            group.map(|group| group.items[0].exercise.clone())
        };
        assert_eq!(chosen("chair"), Some("hop".to_owned()));
        assert_eq!(chosen("barbell"), Some("shuttle".to_owned()));
    }

    #[test]
    fn a_hold_drives_no_heart() {
        let hold = entry("[]", "bodyweight");
        assert_eq!(finisher(&client("allow"), &[&hold], (60, 600), 0), None);
    }

    #[test]
    fn hard_landings_and_loaded_jumps_are_left_out() {
        assert!(!is_gentle(&entry("[impact]", "bodyweight")));
        assert!(!is_gentle(&entry("[{impact: light}]", "per-hand")));
        assert!(is_gentle(&entry("[]", "bodyweight")));
    }

    #[test]
    fn a_novice_waits_two_weeks() {
        assert!(
            !is_time(Status::Novice, 2)
                && is_time(Status::Novice, 3)
                && is_time(Status::Advanced, 1)
        );
    }
}
