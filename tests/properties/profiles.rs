//! Random valid profiles: any days, minutes, kit, limits and wishes.

use std::collections::BTreeMap;

use proptest::collection::{btree_map, vec};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use weekwright::diagnostic::Diagnostic;
use weekwright::input::place::{Equipment, Offer, Stock};
use weekwright::input::profile::{
    Choices, GradedLimit, KnownLift, Limit, OtherTraining, Profile, SessionSlot, SplitChoice,
    SplitName, StrictTarget, TargetWish,
};
use weekwright::words::{
    Effort, Emphasis, Goal, Grade, Kit, Muscle, Role, Status, Stress, Supersets, Weekday,
};

use crate::rules::check::PLANNER;

/// Profiles that ask for nothing in strict words.
pub(crate) fn ordinary() -> impl Strategy<Value = Profile> {
    let person = (select(Status::ALL), select(Goal::ALL), option::weighted(0.15, 1940..1965_u16));
    let room = (kit(), limits(), select(Supersets::ALL));
    let wishes = (emphasis(), choices(), option::weighted(0.3, ranges()));
    let time = (24..=72_u32, option::weighted(0.25, sport()), 0..=4_u32);
    (person, weeks_days(), room, wishes, time).prop_map(
        |((status, goal, born), (sessions, split), (kit, limits, supersets), wishes, time)| {
            let (emphasis, exercises, targets) = wishes;
            let (recovery_hours, sport, variety) = time;
            Profile {
                training_status: status,
                goal,
                birth_year: born,
                start: Some("2027-01-04".to_owned()),
                sessions,
                split,
                equipment: Some(equipment(&kit)),
                limits,
                supersets,
                emphasis,
                exercises,
                targets: targets.unwrap_or_default(),
                recovery_hours,
                other_training: sport.into_iter().collect(),
                variety: f64::from(variety) / 4.0,
                ..blank()
            }
        },
    )
}

/// The same with exercises of any level that must be in or were done lately, or sets that must be reached.
pub(crate) fn demanding() -> impl Strategy<Value = Profile> {
    let strict = (select(Muscle::ALL), 1..=10_u32, 0..=6_u32);
    let lately = (subsequence(work(), 0..=4), 5..=120_u32, 1..=12_u32);
    (ordinary(), subsequence(work(), 0..=3), option::of(strict), lately).prop_map(
        |(mut profile, must, strict, (lately, load, reps))| {
            let known = KnownLift { load: f64::from(load), reps, rir: 1, cap: None };
            profile.known_lifts = lately.into_iter().map(|id| (id, known.clone())).collect();
            let named = |id: &String| {
                let lists = &profile.exercises;
                lists.prefer.contains(id) || lists.avoid.contains(id) || lists.never.contains(id)
            };
            let must = must.into_iter().filter(|id| !named(id)).collect();
            profile.exercises.must = must;
            if let Some((muscle, low, more)) = strict {
                let range = [f64::from(low), f64::from(low + more)];
                profile
                    .targets
                    .insert(muscle, TargetWish::Strict(StrictTarget { range, strict: true }));
            }
            profile
        },
    )
}

/// Short weeks with little kit, quick to plan.
pub(crate) fn small() -> impl Strategy<Value = Profile> {
    let days = subsequence(Weekday::ALL, 1..=2);
    let minutes = select(vec![20, 30, 45]);
    let kit =
        select(vec![vec![], vec![Kit::Dumbbells], vec![Kit::ResistanceBand, Kit::BandAnchor]]);
    (days, minutes, kit, select(Status::ALL), select(Goal::ALL)).prop_map(
        |(days, minutes, kit, status, goal)| Profile {
            training_status: status,
            goal,
            sessions: days.into_iter().map(|day| SessionSlot { day, at: None, minutes }).collect(),
            equipment: Some(equipment(&kit)),
            ..blank()
        },
    )
}

fn blank() -> Profile {
    let text = "{client: random, training_status: novice, goal: general-fitness, equipment: [], sessions: []}";
    serde_yaml::from_str(text).unwrap()
}

type Days = (Vec<SessionSlot>, SplitChoice);

fn weeks_days() -> impl Strategy<Value = Days> {
    let hours = select(vec![None, Some("07:00"), Some("18:30")]);
    let slots = subsequence(Weekday::ALL, 1..=6).prop_flat_map(move |days| {
        (Just(days.clone()), vec((20..=90_u32, hours.clone()), days.len()))
    });
    slots.prop_flat_map(|(days, chosen)| {
        let slots: Vec<SessionSlot> = days
            .into_iter()
            .zip(chosen)
            .map(|(day, (minutes, at))| SessionSlot { day, at: at.map(str::to_owned), minutes })
            .collect();
        let count = slots.len();
        (Just(slots), split(count))
    })
}

fn split(days: usize) -> impl Strategy<Value = SplitChoice> {
    let names = vec![
        SplitName::FullBody,
        SplitName::UpperLower,
        SplitName::PushPullLegs,
        SplitName::BodyPart,
    ];
    prop_oneof![
        5 => Just(SplitChoice::Named(SplitName::Auto)),
        2 => select(names).prop_map(SplitChoice::Named),
        1 => vec(subsequence(Muscle::ALL, 1..=6), days).prop_map(SplitChoice::Own),
    ]
}

fn kit() -> impl Strategy<Value = Vec<Kit>> {
    prop_oneof![
        Just(Vec::new()),
        subsequence(Kit::ALL, 1..=3),
        subsequence(Kit::ALL, 4..=15),
        Just(Kit::ALL.to_vec()),
    ]
}

pub(crate) fn equipment(kit: &[Kit]) -> Equipment {
    let items = kit.iter().map(|kit| (*kit, Stock::Offer(Offer::default()))).collect();
    Equipment { items, ..Equipment::default() }
}

fn limits() -> impl Strategy<Value = Vec<Limit>> {
    let one = |(tag, whole): (Stress, bool)| {
        let graded = GradedLimit { tag, allow: Grade::Light };
        if whole { Limit::Whole(tag) } else { Limit::Graded(graded) }
    };
    (subsequence(Stress::ALL, 0..=4), vec(any::<bool>(), 4))
        .prop_map(move |(tags, whole)| tags.into_iter().zip(whole).map(one).collect())
}

fn emphasis() -> impl Strategy<Value = BTreeMap<Muscle, Emphasis>> {
    btree_map(select(Muscle::ALL), select(Emphasis::ALL), 0..=2)
}

fn ranges() -> impl Strategy<Value = BTreeMap<Muscle, TargetWish>> {
    let range = (1..=12_u32, 0..=8_u32)
        .prop_map(|(low, more)| TargetWish::Range([f64::from(low), f64::from(low + more)]));
    btree_map(select(Muscle::ALL), range, 1..=3)
}

fn choices() -> impl Strategy<Value = Choices> {
    subsequence(work(), 0..=6).prop_map(|ids| {
        let mut choices = Choices::default();
        for (place, id) in ids.into_iter().enumerate() {
            match place % 3 {
                0 => choices.prefer.push(id),
                1 => choices.avoid.push(id),
                _ => choices.never.push(id),
            }
        }
        choices
    })
}

fn sport() -> impl Strategy<Value = OtherTraining> {
    (select(Weekday::ALL), select(Effort::ALL), subsequence(Muscle::ALL, 1..=4))
        .prop_map(|(day, load, muscles)| OtherTraining { day, at: None, load, muscles })
}

fn work() -> Vec<String> {
    let work = PLANNER.catalog().iter().filter(|entry| entry.role == Role::Work);
    work.map(|entry| entry.id.clone()).collect()
}

/// Whether the input checks take a profile as it would be written.
pub(crate) fn faults(profile: &Profile) -> Vec<String> {
    let text = serde_yaml::to_string(profile).unwrap();
    let faults = PLANNER.load(&text, None).err().unwrap_or_default();
    let errors = faults.diagnostics.into_iter().filter(Diagnostic::is_error);
    errors.map(|fault| format!("{} {}", fault.code, fault.message)).collect()
}
