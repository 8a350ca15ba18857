//! The demo files: invented, complete, and each a client who can be planned.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::{fs, thread};

use weekwright::Budget;
use weekwright::input::profile::{Profile, SplitChoice};
use weekwright::planner::{Options, Planner};
use weekwright::words::{Goal, Status};

use super::{files, name, root};
use crate::loaded_demo;

/// Clients and places. A schema that an editor wants beside them is neither.
fn demos() -> Vec<PathBuf> {
    let yaml = |file: &PathBuf| file.extension().is_some_and(|ending| ending == "yaml");
    files("profiles").into_iter().filter(yaml).collect()
}

/// The clients: the files directly in `profiles/`.
fn clients() -> Vec<PathBuf> {
    let directly = root().join("profiles");
    demos().into_iter().filter(|file| file.parent() == Some(&directly)).collect()
}

fn loaded() -> Vec<(PathBuf, Profile)> {
    let load = |file: PathBuf| {
        let loaded = loaded_demo(file.file_stem().and_then(|stem| stem.to_str()).unwrap());
        let warnings = loaded.warnings.diagnostics;
        assert!(warnings.is_empty(), "{}: {warnings:?}", file.display());
        (file, loaded.profile)
    };
    clients().into_iter().map(load).collect()
}

#[test]
fn every_demo_file_says_that_it_is_invented_and_names_its_schema() {
    for file in demos() {
        let text = fs::read_to_string(&file).unwrap();
        let mut lines = text.lines();
        assert!(lines.next().unwrap_or_default().starts_with("# Invented: "), "{}", name(&file));
        let place = name(&file).starts_with("profiles/places/");
        let schema = if place { "place" } else { "profile" };
        let modeline = format!("# yaml-language-server: $schema={schema}.schema.json");
        assert_eq!(lines.next(), Some(modeline.as_str()), "{}", name(&file));
    }
}

#[test]
fn the_demos_show_each_kind_of_client() {
    let profiles = loaded();
    let any = |test: &dyn Fn(&Profile) -> bool| profiles.iter().any(|(_, profile)| test(profile));
    let days: BTreeSet<usize> = profiles.iter().map(|(_, one)| one.sessions.len()).collect();
    assert_eq!(days, BTreeSet::from([2, 3, 4, 5, 6]));
    let novices = profiles.iter().filter(|(_, one)| one.training_status == Status::Novice);
    assert!(novices.count() >= 3);
    assert!(any(&|one| !one.limits.is_empty()), "one with limits");
    assert!(any(&|one| matches!(&one.split, SplitChoice::Own(days) if days.len() == 3)));
    assert!(any(&|one| one.sessions.iter().all(|slot| slot.minutes == 25)), "short sessions");
    assert!(any(&|one| {
        one.goal == Goal::Strength && one.known_lifts.values().any(|lift| lift.cap.is_some())
    }));
    assert!(any(&|one| one.goal == Goal::Power));
    assert!(any(&|one| one.birth_year.is_some_and(|year| year <= 1960)), "one over 65");
    assert!(any(&|one| {
        let later = one.conditioning.as_ref().is_some_and(|wish| wish.from_week == 3);
        later && !one.other_training.is_empty()
    }));
    for place in ["boathouse", "hotel-room", "home-bands", "town-gym"] {
        assert!(any(&|one| one.place.as_deref() == Some(place)), "one in {place}");
    }
}

/// With less work than usual, so that the test stays quick; `.ci/run` plans each with all of it.
#[test]
fn every_demo_client_is_planned_and_passes_the_audit() {
    let budget = Budget { runs: 1, proposals_a_day: 400, ..Budget::default() };
    let options = Options { budget, ..Options::default() };
    let planner = Planner::built_in();
    let profiles = loaded();
    let plan = |(file, profile): &(PathBuf, Profile)| {
        let name = name(file);
        let plan = planner.plan(profile, &options).unwrap_or_else(|why| panic!("{name}: {why:?}"));
        let audit = planner.audit(&plan).unwrap_or_else(|why| panic!("{name}: {why:?}"));
        assert!(audit.passes(), "{name}: {:?}", audit.findings);
        assert_eq!(plan.sessions.len(), profile.sessions.len(), "{name}");
    };
    let (first, second) = profiles.split_at(profiles.len() / 2);
    thread::scope(|scope| {
        let other = scope.spawn(|| second.iter().for_each(plan));
        first.iter().for_each(plan);
        other.join().unwrap();
    });
}
