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
    let added = variants(&profile, usable);
    let planner = Planner::new(Catalog::built_in().with_entries(added.iter().cloned()));
    let candidates = planner.request(&profile, &Options::default()).candidates;
    let surplus = candidates.len() - usable;
    let place = |number: usize| number * candidates.len() / surplus.max(1);
    profile.exercises.never = (0..surplus).map(|one| candidates[place(one)].id.clone()).collect();
    let left = planner.request(&profile, &Options::default()).candidates.len();
    assert_eq!(left, usable, "each `never` takes out one");
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
    let request = Planner::built_in().request(profile, &Options::default());
    let missing = usable.saturating_sub(request.candidates.len());
    let rounds = (1..).flat_map(|round| request.candidates.iter().map(move |one| (round, one)));
    rounds
        .take(missing)
        .map(|(round, candidate)| {
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
        })
        .collect()
}
