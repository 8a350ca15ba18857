//! Tiny weeks to draw: days, minutes, status and a handful of exercises.

use proptest::sample::{select, subsequence};
use proptest::strategy::{Just, Strategy};
use weekwright::words::Role;

use crate::rules::check::PLANNER;

/// A tiny catalog to draw from.
pub(super) const POOL: [&str; 14] = [
    "back-squat",
    "leg-press",
    "goblet-squat",
    "split-squat",
    "deadlift",
    "leg-curl",
    "hip-thrust",
    "bench-press",
    "push-up",
    "incline-push-up",
    "overhead-press",
    "barbell-row",
    "lat-pulldown",
    "plank",
];

/// Every other working exercise of the catalog: what one is passed over for keeps nothing out once it is gone itself.
pub(super) fn all_but(ids: &[&str]) -> Vec<String> {
    let work = PLANNER.catalog().iter().filter(|entry| entry.role == Role::Work);
    work.map(|entry| entry.id.clone()).filter(|id| !ids.contains(&id.as_str())).collect()
}

/// Draws of days, minutes, status and exercises.
pub(super) fn draws()
-> impl Strategy<Value = (Vec<&'static str>, u32, &'static str, Vec<&'static str>)> {
    let days = select(vec![vec!["mon", "thu"], vec!["mon", "wed", "fri"]]);
    let status = select(vec!["novice", "intermediate", "advanced"]);
    days.prop_flat_map(move |days| {
        let count = if days.len() == 2 { 3..=4 } else { 3..=3 };
        let minutes = select(vec![25_u32, 45, 60]);
        (Just(days), minutes, status.clone(), subsequence(POOL.to_vec(), count))
    })
}
