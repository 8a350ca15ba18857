//! The sample plans, and a check that the hand-written one is right in itself.

use std::collections::BTreeMap;

use weekwright::input::catalog::Entry;
use weekwright::plan::file::{Plan, Session};
use weekwright::sheets::{Options, sheet};
use weekwright::words::Muscle;

/// Two weeks of three days with pairs, ramps and conditioning.
pub(crate) fn tide() -> Plan {
    read(include_str!("../fixtures/plans/tide-01.yaml"))
}

/// Names and notes that try to break out of every format.
pub(crate) fn exotic() -> Plan {
    read(include_str!("../fixtures/plans/exotic.yaml"))
}

/// The least that a hand-written plan has.
pub(crate) fn bare() -> Plan {
    read(
        "format: weekwright-plan/1\nprofile: tide-01.yaml\nsessions:\n  - day: thu\n    groups:\n      \
         - kind: single\n        items: [{exercise: plank, sets: 2, seconds: [30, 30]}]\n",
    )
}

/// The sample plan stretched to so many weeks.
pub(crate) fn weeks(count: u32) -> Plan {
    let mut plan = tide();
    let pattern = plan.weeks.clone();
    plan.weeks = (1..=count)
        .zip(pattern.into_iter().cycle())
        .map(|(number, mut week)| {
            week.week = number;
            week
        })
        .collect();
    plan
}

fn read(text: &str) -> Plan {
    serde_yaml::from_str(text).expect("a sample plan of the right shape")
}

/// The entries of the built-in catalog.
pub(crate) fn names() -> BTreeMap<String, Entry> {
    weekwright::catalog::Catalog::built_in().entries().clone()
}

/// The plan in a format, as text.
pub(crate) fn sheet_of(format: &str, plan: &Plan, options: &Options) -> String {
    let mut out = Vec::new();
    let sheet = sheet(format).expect("a known format");
    sheet.write(plan, &names(), options, &mut out).expect("a sheet");
    String::from_utf8(out).expect("UTF-8")
}

#[test]
fn the_minutes_of_the_sample_are_the_sum_of_its_groups() {
    let plan = tide();
    let weeks = plan.weeks.iter().flat_map(|week| &week.sessions);
    for session in weeks.chain(&plan.sessions) {
        let minutes = session.minutes.as_ref().expect("minutes");
        let sum: u32 = session.groups.iter().filter_map(|group| group.seconds).sum();
        assert_eq!(sum, minutes.planned_s, "{:?}", session.day);
        assert!((f64::from(sum) / 60.0 - minutes.planned).abs() <= 0.05 + 1e-9);
        assert!(sum <= minutes.limit * 60);
    }
}

/// Counted as Pelland et al. 2025 (doi:10.1007/s40279-025-02344-w) found to fit best: a direct
/// muscle gets one per set, an indirect one half.
#[test]
fn the_volume_of_the_sample_is_that_of_its_sets() {
    let plan = tide();
    let mut sets: BTreeMap<Muscle, f64> = BTreeMap::new();
    for (entry, count) in work(&plan.sessions) {
        for muscle in &entry.direct {
            *sets.entry(*muscle).or_default() += f64::from(count);
        }
        for muscle in &entry.indirect {
            *sets.entry(*muscle).or_default() += f64::from(count) / 2.0;
        }
    }
    let told: BTreeMap<Muscle, f64> =
        plan.volume.iter().map(|row| (row.muscle, row.sets)).collect();
    assert_eq!(told, sets);
}

fn work(sessions: &[Session]) -> Vec<(Entry, u32)> {
    let names = names();
    let groups =
        sessions.iter().flat_map(|session| &session.groups).filter(|group| group.is_work());
    groups
        .flat_map(|group| &group.items)
        .map(|item| (names[&item.exercise].clone(), item.sets))
        .collect()
}
