//! How a week that is reworked may be shared out: as planned anew, and a plan by hand also as it is written.

use std::collections::BTreeSet;

use super::day_of;
use crate::audit;
use crate::input::plan::{self, Plan};
use crate::request::Request;
use crate::split::idea::ANY_DAY;
use crate::split::{Split, SplitDay, design};
use crate::week::{Session, Week};
use crate::words::Muscle;

/// The splits worth trying for a plan that is reworked.
pub(crate) fn splits(old: &Plan, request: &Request) -> Vec<Split> {
    let splits = design::candidates(request);
    let stays = |session: &&plan::Session| day_of(session, request).is_some();
    let sessions: Vec<plan::Session> = old.sessions.iter().filter(stays).cloned().collect();
    let Ok(week) = audit::week_of(&sessions, request) else { return splits };
    let by_hand = request.rework.as_ref().is_some_and(|rework| rework.as_written);
    let own = by_hand.then(|| as_written(&week, request));
    with_held_days(own.into_iter().chain(splits).collect(), &week, request)
}

/// The split that a week by hand stands on: each day is for what it trains, and a muscle is hard where the week trains
/// it hard, or where no such day is too close.
fn as_written(week: &Week, request: &Request) -> Split {
    let session = |day: usize| week.sessions.iter().find(|session| session.day == day);
    let trained = |day: usize, muscle: &Muscle| {
        session(day).is_some_and(|session| session.is_hard_for(*muscle))
    };
    let mut hard: Vec<BTreeSet<Muscle>> = vec![BTreeSet::new(); request.days.len()];
    // What is trained hard has its day before what is not.
    for wanted in [true, false] {
        for day in 0..request.days.len() {
            for muscle in Muscle::ALL.iter().filter(|muscle| trained(day, muscle) == wanted) {
                let close = |other: usize| request.too_close(day, other);
                let taken =
                    (0..hard.len()).any(|other| hard[other].contains(muscle) && close(other));
                if muscle.recovers_fast() || !(taken || design::blocked(request, *muscle, day)) {
                    hard[day].insert(*muscle);
                }
            }
        }
    }
    let days = hard.into_iter().enumerate().map(|(day, hard)| {
        let work = session(day).into_iter().flat_map(Session::work);
        let direct = work.flat_map(|item| item.entry.direct.clone());
        let muscles: BTreeSet<Muscle> = direct.chain(ANY_DAY.iter().copied()).collect();
        SplitDay {
            idea: "as written".to_owned(),
            hard: &hard & &muscles,
            muscles,
            whole_body: session(day).is_some_and(Session::trains_both_halves),
        }
    });
    Split { name: "as written".to_owned(), days: days.collect() }
}

/// Splits that let the held days be what they are: a muscle is hard there where the plan trains it hard, and stays
/// light on the open day where that is too close.
fn with_held_days(splits: Vec<Split>, week: &Week, request: &Request) -> Vec<Split> {
    let frozen = request.rework.as_ref().map(|rework| rework.frozen.clone()).unwrap_or_default();
    let held = |mut split: Split| {
        for session in week.sessions.iter().filter(|session| frozen.contains(&session.day)) {
            let trained = session.work().flat_map(|item| &item.entry.direct).copied();
            let hard = |muscle: &_| session.is_hard_for(*muscle);
            split.days[session.day].muscles.extend(trained);
            let hard: BTreeSet<_> =
                split.days[session.day].muscles.iter().copied().filter(hard).collect();
            for (place, day) in split.days.iter_mut().enumerate() {
                if !frozen.contains(&place) && request.too_close(place, session.day) {
                    day.hard.retain(|muscle| muscle.recovers_fast() || !hard.contains(muscle));
                }
            }
            split.days[session.day].hard = hard;
        }
        split
    };
    splits.into_iter().map(held).collect()
}
