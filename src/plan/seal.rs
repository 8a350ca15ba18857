//! Marks by which a plan shows later that somebody edited it, part by part.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use serde::Serialize;

use crate::catalog::sha256;
use crate::input::plan::{Plan, Session};
use crate::input::profile::Profile;

/// Letters of a mark: enough to tell an edit, and short enough for a line.
const LETTERS: usize = 12;

/// Marks every part of a finished plan.
pub fn seal(plan: &mut Plan) {
    let marks = marks(plan);
    if let Some(inputs) = &mut plan.inputs {
        inputs.parts_sha256 = marks;
    }
}

/// Marks the parts that are otherwise than in the plan before, by our own hand; the marks of all others stay, so that an
/// edit shows as before.
pub fn reseal(plan: &mut Plan, before: &Plan) {
    let Some(old) = before.inputs.as_ref().filter(|inputs| !inputs.parts_sha256.is_empty()) else {
        return;
    };
    let had_its_picks =
        old.picks_sha256.as_ref().is_some_and(|made| *made == picks(&before.sessions));
    let was = marks(before);
    let mut now = marks(plan);
    for (part, mark) in &mut now {
        if was.get(part) == Some(mark)
            && let Some(old) = old.parts_sha256.get(part)
        {
            mark.clone_from(old);
        }
    }
    if let Some(inputs) = &mut plan.inputs {
        inputs.parts_sha256 = now;
        if had_its_picks {
            inputs.picks_sha256 = Some(picks(&plan.sessions));
        }
    }
}

/// The parts that are no longer as they were sealed, in the order of the plan; a plan without marks has none.
#[must_use]
pub fn edited(plan: &Plan) -> Vec<String> {
    let Some(inputs) = plan.inputs.as_ref().filter(|inputs| !inputs.parts_sha256.is_empty()) else {
        return Vec::new();
    };
    // Another version may say the same in other words.
    if inputs.version != env!("CARGO_PKG_VERSION") {
        return Vec::new();
    }
    let now = marks(plan);
    let gone = inputs.parts_sha256.keys().filter(|part| !now.contains_key(*part));
    let differ = now.iter().filter(|(part, mark)| inputs.parts_sha256.get(*part) != Some(mark));
    let mut parts: Vec<String> = differ.map(|(part, _)| part).chain(gone).cloned().collect();
    parts.sort_by_key(|part| (part.len(), part.clone()));
    parts
}

/// The weeks that may be other than they were planned: edited since, or never sealed.
#[must_use]
pub fn open_weeks(plan: &Plan) -> BTreeSet<u32> {
    let sealed = plan.inputs.as_ref().is_some_and(|inputs| !inputs.parts_sha256.is_empty());
    let edited = edited(plan);
    let is_open = |week: &u32| !sealed || edited.contains(&format!("week-{week}"));
    plan.weeks.iter().map(|week| week.week).filter(is_open).collect()
}

/// SHA-256 of the days, exercises and sets of some sessions, in lower-case hex.
#[must_use]
pub fn picks(sessions: &[Session]) -> String {
    let mut text = String::new();
    for session in sessions {
        let work = session.groups.iter().filter(|group| group.is_work());
        for item in work.flat_map(|group| &group.items) {
            let at = session.at.as_deref().unwrap_or_default();
            let _ = writeln!(text, "{} {at} {} {}", session.day, item.exercise, item.sets);
        }
    }
    sha256(text.as_bytes())
}

/// SHA-256 of a profile as resolved, in lower-case hex.
#[must_use]
pub fn of_profile(profile: &Profile) -> String {
    sha256(&serde_json::to_vec(profile).expect("a profile has text keys only"))
}

fn marks(plan: &Plan) -> BTreeMap<String, String> {
    let head = (
        (&plan.client, plan.seed, &plan.solve, &plan.split),
        (&plan.exercises, &plan.reworked_from, &plan.exceptions, &plan.pauses),
    );
    let mut marks = BTreeMap::from([
        ("head".to_owned(), mark(&head)),
        ("sessions".to_owned(), mark(&plan.sessions)),
        ("shortfalls".to_owned(), mark(&plan.shortfalls)),
        ("cautions".to_owned(), mark(&plan.cautions)),
    ]);
    marks.extend(plan.weeks.iter().map(|week| (format!("week-{}", week.week), mark(week))));
    marks
}

fn mark(part: &impl Serialize) -> String {
    let bytes = serde_json::to_vec(part).expect("a plan has text keys only");
    let mut mark = sha256(&bytes);
    mark.truncate(LETTERS);
    mark
}
