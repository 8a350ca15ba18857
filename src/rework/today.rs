//! A rework that touches one day: the others stay to the letter.

use std::collections::{BTreeMap, BTreeSet};

use super::{Ask, BadAsk, changed, day_of, profile_of, request_of, slots};
use crate::input::plan::{Plan, Session};
use crate::input::profile::Profile;
use crate::planner::{Options, Planner};
use crate::request::{Barred, Candidate, Request, Rework};

/// What is asked for of one day, and what is out on it that the rest of the week may do.
pub(super) struct Today {
    /// The request, with the other days held.
    pub(super) request: Request,
    /// Exercises that are out on the day, and why.
    pub(super) barred: BTreeMap<String, Barred>,
}

/// The request of a rework that touches one day: what is missing or kept out counts for that day alone, so that
/// the profile of the other days stays as it was; its minutes and what must be in do change.
pub(super) fn only_today(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    (today, narrowed, options): (&str, Profile, &Options),
) -> Result<Today, BadAsk> {
    let profile = profile_of(plan)?;
    let open = slots(profile, today)?;
    if let Some(edited) = &ask.profile {
        let what = held_keys(profile, edited, today);
        if !what.is_empty() {
            return Err(BadAsk::HeldProfile { today: today.to_owned(), what: what.join(", ") });
        }
    }
    for day in ask.minutes.iter().map(|(day, _)| day).chain(&ask.drop_days) {
        if slots(profile, day)?.iter().any(|slot| !open.contains(slot)) {
            return Err(BadAsk::HeldDay { today: today.to_owned(), day: day.clone() });
        }
        if ask.drop_days.contains(day) {
            return Err(BadAsk::TodayDropped { today: today.to_owned() });
        }
    }
    let lasting = Ask {
        minutes: ask.minutes.clone(),
        must: ask.must.clone(),
        profile: ask.profile.clone(),
        ..Ask::default()
    };
    let request = request_of(planner, plan, &changed(profile, &lasting)?, options);
    let narrowed = request_of(planner, plan, &narrowed, options);
    let frozen = frozen(&request, today)?;
    let mut rework = Rework { frozen, ..Rework::of(plan, &request) };
    for day in (0..request.days.len()).filter(|day| !rework.frozen.contains(day)) {
        // Loads are found for the kit of the whole week, so what would need other kit today is out too.
        let same = |one: &&Candidate| {
            narrowed.candidate(&one.id).is_some_and(|today| today.kit == one.kit)
        };
        let out = request.candidates.iter().filter(|one| !same(one));
        rework.asked.extend(out.map(|one| ((day, one.id.clone()), false)));
        rework.asked.extend(ask.must.iter().map(|id| ((day, id.clone()), true)));
    }
    Ok(Today { request: Request { rework: Some(rework), ..request }, barred: narrowed.barred })
}

/// The keys by which an edited profile concerns more than one day: all that differ but the minutes of that day.
fn held_keys(profile: &Profile, edited: &Profile, today: &str) -> Vec<String> {
    let keys = |profile: &Profile| -> serde_json::Map<String, serde_json::Value> {
        let mut profile = profile.clone();
        for slot in slots(&profile, today).unwrap_or_default() {
            profile.sessions[slot].minutes = 0;
        }
        match serde_json::to_value(profile) {
            Ok(serde_json::Value::Object(keys)) => keys,
            _ => serde_json::Map::new(),
        }
    };
    let (before, after) = (keys(profile), keys(edited));
    let names: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let differ = names.into_iter().filter(|key| before.get(*key) != after.get(*key));
    differ.map(|key| format!("`{key}`")).collect()
}

/// The request's days that stay as they are: all but today.
fn frozen(request: &Request, today: &str) -> Result<BTreeSet<usize>, BadAsk> {
    slots(&request.profile, today)?;
    let is_today = |day: &crate::request::Day| day.weekday.id() == today || day.label() == today;
    let days = request.days.iter().enumerate();
    Ok(days.filter(|(_, day)| !is_today(day)).map(|(place, _)| place).collect())
}

/// Puts the sessions of the days that stay back in their place, to the letter.
pub(super) fn keep_other_days(new: &mut Plan, old: &Plan, request: &Request) {
    let frozen = &request.rework.as_ref().expect("a rework is under way").frozen;
    let put_back = |sessions: &mut Vec<Session>, before: &[Session]| {
        for session in sessions {
            let day = day_of(session, request);
            if day.is_some_and(|day| frozen.contains(&day))
                && let Some(was) = before.iter().find(|was| day_of(was, request) == day)
            {
                *session = was.clone();
            }
        }
    };
    put_back(&mut new.sessions, &old.sessions);
    for week in &mut new.weeks {
        if let Some(was) = old.weeks.iter().find(|was| was.week == week.week) {
            put_back(&mut week.sessions, &was.sessions);
        }
    }
}
