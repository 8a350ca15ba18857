//! Synthetic catalogs of realistic structure: the built-in exercises, fewer or with variants, so that a client can use
//! a given number of them. The same numbers give the same case on every machine.

#![allow(dead_code, reason = "each bench uses its own part")]

use weekwright::catalog::Catalog;
use weekwright::input::catalog::Entry;
use weekwright::input::profile::Profile;
use weekwright::planner::{Options, Planner};

/// Days and usable exercises of the cases that the targets are about.
pub(crate) const SIZES: [(usize, usize); 4] = [(3, 150), (4, 150), (5, 200), (6, 300)];

const DAYS: [&[&str]; 4] = [
    &["mon", "wed", "fri"],
    &["mon", "tue", "thu", "fri"],
    &["mon", "tue", "wed", "fri", "sat"],
    &["mon", "tue", "wed", "thu", "fri", "sat"],
];

/// A client with a well-filled room.
pub(crate) struct Case {
    /// `3x150`.
    pub(crate) name: String,
    /// Who plans, with the catalog.
    pub(crate) planner: Planner,
    /// Exercises beside the built-in ones.
    pub(crate) added: Vec<Entry>,
    /// The client.
    pub(crate) profile: Profile,
}

/// A case of so many days and exactly so many usable exercises.
#[must_use]
pub(crate) fn case(days: usize, usable: usize) -> Case {
    let mut profile = client(days);
    let mut added = variants(&profile, usable);
    let with =
        |added: &[Entry]| Planner::new(Catalog::built_in().with_entries(added.iter().cloned()));
    let usual = |planner: &Planner, profile: &Profile| {
        planner.request(profile, &Options::default()).candidates
    };
    let planner = with(&added);
    let left = |profile: &Profile| usual(&planner, profile);
    let candidates = left(&profile);
    let mut surplus = candidates.len() - usable;
    // Evenly over the list, and only what takes nothing else out with it.
    let spread = candidates.len() / surplus.max(1);
    let places = (0..spread).flat_map(|first| (first..candidates.len()).step_by(spread.max(1)));
    for place in places {
        if surplus == 0 {
            break;
        }
        profile.exercises.never.push(candidates[place].id.clone());
        if left(&profile).len() + 1 == usable + surplus {
            surplus -= 1;
        } else {
            profile.exercises.never.pop();
        }
    }
    // A profile may rule out a hundred; a variant that is not wanted need not be there.
    added.retain(|entry| !profile.exercises.never.contains(&entry.id));
    let built_in = Catalog::built_in();
    profile.exercises.never.retain(|id| built_in.get(id).is_some());
    let planner = with(&added);
    assert_eq!(usual(&planner, &profile).len(), usable, "each `never` takes out one");
    Case { name: format!("{days}x{usable}"), planner, added, profile }
}

fn client(days: usize) -> Profile {
    let sessions: Vec<String> = DAYS[days - 3]
        .iter()
        .map(|day| format!("{{day: {day}, at: \"18:30\", minutes: 60}}"))
        .collect();
    let text = format!(
        "client: case-{days:02}\ntraining_status: intermediate\ngoal: hypertrophy\nstart: 2027-01-04\nweeks: 4\n\
         equipment: [barbell, squat-rack, bench, adjustable-bench, dumbbells, kettlebell, ez-bar, trap-bar, pull-up-bar, \
         dip-bars, cable-station, lat-pulldown, leg-press, leg-curl-machine, leg-extension-machine, resistance-band, \
         mini-band, rings, plyo-box, ab-wheel, medicine-ball]\nsessions: [{}]\n",
        sessions.join(", ")
    );
    serde_yaml::from_str(&text).expect("the client is well formed")
}

/// Variants of usable exercises, round after round, until there are enough: of the same family, but slower to set up.
fn variants(profile: &Profile, usable: usize) -> Vec<Entry> {
    let candidates = Planner::built_in().request(profile, &Options::default()).candidates;
    let mut added: Vec<Entry> = Vec::new();
    for round in 1..10 {
        let catalog = Catalog::built_in().with_entries(added.iter().cloned());
        if Planner::new(catalog).request(profile, &Options::default()).candidates.len() >= usable {
            break;
        }
        added.extend(candidates.iter().map(|candidate| {
            let entry = candidate.entry.as_ref();
            Entry {
                id: format!("{}-variant-{round}", entry.id),
                name: format!("{}, variant {round}", entry.name),
                family: Some(entry.family.clone().unwrap_or_else(|| entry.id.clone())),
                setup_s: entry.setup_s + 5 * round,
                easier: Vec::new(),
                harder: Vec::new(),
                ..entry.clone()
            }
        }));
    }
    added
}
