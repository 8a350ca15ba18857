//! What holds for every week of the plan of any profile.

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::sample::select;
use weekwright::input::plan::{Amounts, Item, Plan, Session, Week};
use weekwright::input::profile::{ConditioningWish, KnownLift, Profile};
use weekwright::request::dose::dose_for;
use weekwright::strength::ladder::Ladder;
use weekwright::strength::racks;
use weekwright::words::{GroupKind, Kit, Muscle, Turn};

use super::planned::{fractional, plan_of};
use super::profiles::{equipment, ordinary};
use super::run::for_all;
use crate::rules::check::PLANNER;

/// Kit with loads of every kind: bar and plates, dumbbells, stacks.
const LOADED: &[Kit] = &[
    Kit::Barbell,
    Kit::SquatRack,
    Kit::Bench,
    Kit::Dumbbells,
    Kit::CableStation,
    Kit::LatPulldown,
    Kit::RowingErgometer,
];
/// Lifts that a client may have done lately.
const LIFTS: &[&str] = &["back-squat", "bench-press", "deadlift", "overhead-press", "barbell-row"];

/// Courses of 5 to 12 weeks with known lifts, caps and conditioning.
fn courses() -> impl Strategy<Value = Profile> {
    let lift = (30..=160_u32, 1..=12_u32, 0..=3_u32, proptest::option::of(25..=150_u32));
    let lifts = proptest::collection::btree_map(select(LIFTS), lift, 1..=4);
    let wish = proptest::option::of((1..=5_u32, 4..=12_u32));
    (ordinary(), lifts, wish, 5..=12_u32).prop_map(|(profile, lifts, wish, weeks)| {
        let known = |(id, (load, reps, rir, cap)): (&str, (u32, u32, u32, Option<u32>))| {
            let cap = cap.map(f64::from);
            (id.to_owned(), KnownLift { load: f64::from(load), reps, rir, cap })
        };
        let wish = wish.map(|(from_week, minutes)| ConditioningWish {
            from_week,
            minutes,
            modes: Vec::new(),
        });
        Profile {
            weeks,
            equipment: Some(equipment(LOADED)),
            known_lifts: lifts.into_iter().map(known).collect(),
            conditioning: wish,
            ..profile
        }
    })
}

#[test]
fn every_week_keeps_its_loads_sets_and_minutes() {
    for_all(3, courses(), |profile| {
        let plan = plan_of(profile)?;
        let mut before = BTreeMap::new();
        for week in &plan.weeks {
            let told = |fault| format!("week {}: {fault}", week.week);
            loads(profile, week, &mut before).map_err(told)?;
            volume(&plan, week).map_err(told)?;
            conditioning(profile, week).map_err(told)?;
            week.sessions.iter().try_for_each(minutes).map_err(told)?;
        }
        Ok(())
    });
}

fn items(week: &Week) -> impl Iterator<Item = &Item> {
    let groups = week.sessions.iter().flat_map(|session| &session.groups);
    groups.filter(|group| group.is_work()).flat_map(|group| &group.items)
}

fn most(item: &Item) -> u32 {
    let (Amounts::Reps(list)
    | Amounts::Seconds(list)
    | Amounts::Meters(list)
    | Amounts::Calories(list)) = item.amounts().unwrap();
    *list.iter().max().unwrap()
}

fn ladder(profile: &Profile, item: &Item) -> Option<Ladder> {
    let entry = PLANNER.catalog().get(&item.exercise)?;
    racks::ladder(entry, profile.equipment.as_ref()?, profile.units)
}

/// The load and the most of a set that an exercise had in the last week that had it, on its heavier day and its lighter
/// one.
type Before = BTreeMap<(String, Option<Turn>), (f64, u32)>;

/// On the place's steps, under the cap, and up by a tenth at most but for the smallest step from a widened top (RX-04:
/// ACSM 2009, 2-10 %; the widened range is common practice).
fn loads(profile: &Profile, week: &Week, before: &mut Before) -> Result<(), String> {
    let mut now: Before = BTreeMap::new();
    for item in items(week) {
        let Some(load) = item.load_kg else { continue };
        let fault = |what: &str| Err(format!("{} at {load} kg: {what}", item.exercise));
        let Some(ladder) = ladder(profile, item) else { return fault("nothing here is loaded") };
        let ramp = item.ramp.iter().filter_map(|set| set.load_kg);
        if ramp.chain([load]).any(|load| !ladder.makes(load)) {
            return fault("the place cannot make it");
        }
        let known = profile.known_lifts.get(&item.exercise);
        if known.and_then(|known| known.cap).is_some_and(|cap| load > cap) {
            return fault("over the cap");
        }
        let tracked = (item.exercise.clone(), item.turn);
        if let Some((last, amount)) = before.get(&tracked) {
            let widened = *amount >= widened_top(profile, item);
            let small = ladder.next_above(*last) == Some(load) && widened;
            if load > last * 1.10 + 1e-9 && !small {
                return fault(&format!("up from {last} kg × {amount}"));
            }
        }
        let entry = now.entry(tracked).or_insert((load, 0));
        entry.1 = entry.1.max(most(item));
    }
    before.extend(now);
    Ok(())
}

/// Three repetitions over the top of the range, as far as the exercise allows (common practice).
fn widened_top(profile: &Profile, item: &Item) -> u32 {
    let entry = PLANNER.catalog().get(&item.exercise).unwrap();
    let dose = dose_for(profile.goal, profile.training_status, entry, item.turn);
    (dose.span(entry).high + 3).min(entry.reps[1])
}

/// No muscle gets more than the top of its range, or than the week at its fullest where that has more.
fn volume(plan: &Plan, week: &Week) -> Result<(), String> {
    for muscle in Muscle::ALL {
        let line = plan.volume.iter().find(|line| line.muscle == *muscle);
        let top = line.and_then(|line| line.high).unwrap_or(0.0);
        let bound = fractional(&plan.sessions, *muscle).max(top);
        let sets = fractional(&week.sessions, *muscle);
        if sets > bound + 1e-9 {
            return Err(format!("{muscle}: {sets} sets, at most {bound}"));
        }
    }
    Ok(())
}

fn conditioning(profile: &Profile, week: &Week) -> Result<(), String> {
    let mut groups = week.sessions.iter().flat_map(|session| &session.groups);
    let any = groups.any(|group| group.kind == GroupKind::Conditioning);
    match &profile.conditioning {
        Some(wish) if week.week >= wish.from_week => Ok(()),
        _ if any => Err("conditioning before its week".to_owned()),
        _ => Ok(()),
    }
}

/// Inside the limit, and where less than 85 % of it is used the session says why (common practice).
fn minutes(session: &Session) -> Result<(), String> {
    let minutes = session.minutes.as_ref().unwrap();
    let sum: u32 = session.groups.iter().map(|group| group.seconds.unwrap()).sum();
    let limit = minutes.limit * 60;
    if sum != minutes.planned_s || sum > limit {
        return Err(format!("{}: {sum} s of {limit}", session.day));
    }
    if (sum * 100 < limit * 85) != session.note.is_some() {
        return Err(format!("{}: {sum} s of {limit}, note {:?}", session.day, session.note));
    }
    Ok(())
}
