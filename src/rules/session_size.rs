//! `session-size`: a session has at least two exercises where its minutes hold them.

use super::{Finding, Force, Rule, Weeks};
use crate::input::profile::{SessionSlot, SplitChoice};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::Muscle;

/// Exercises by day.
pub(super) struct SessionSize;

/// Fewest exercises that are a demand.
const FEWEST: usize = 2;

impl Rule for SessionSize {
    fn id(&self) -> &'static str {
        "session-size"
    }
    fn summary(&self) -> &'static str {
        "a session has at least two exercises where its minutes hold them"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let done: Vec<Term> = weekly.on(day).map(|pick| (pick.chosen, 1.0)).collect();
            if holds_two(weekly, day) {
                weekly.model.demand(self.id(), label, done, Op::Ge, 2.0);
            }
        }
    }
    fn holds_in(&self) -> Weeks {
        Weeks::Full
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let few = week.sessions.iter().filter(|session| session.work().count() < FEWEST);
        few.filter(|session| two_fit(request, session.day))
            .map(|session| {
                let (place, got) = (session.label.clone(), session.work().count().to_string());
                Finding::broken(self.id(), place, "two exercises at least", got)
            })
            .collect()
    }
}

/// Whether the two quickest exercises of different families that the client's own list has for a day fit its minutes.
fn two_fit(request: &Request, day: usize) -> bool {
    let minutes = request.days[day].minutes;
    let mut quickest: Vec<(u32, &str)> = request
        .candidates
        .iter()
        .filter(|candidate| {
            own_list(request, day).is_none_or(|list| {
                candidate.entry.direct.iter().all(|muscle| list.contains(muscle))
            })
        })
        .map(|candidate| {
            let sets = candidate.sets_in(minutes)[0];
            let rests = sets.saturating_sub(1) * candidate.rest_s;
            let family = candidate.entry.family.as_deref().unwrap_or(&candidate.id);
            (candidate.start_s + sets * candidate.work_s + rests, family)
        })
        .collect();
    quickest.sort_unstable();
    let Some((first, family)) = quickest.first().copied() else { return false };
    let second = quickest.iter().find(|(_, other)| *other != family);
    second.is_some_and(|(second, _)| first + second <= request.days[day].work_s())
}

/// The client's own list of muscles for a day, where there is one.
fn own_list(request: &Request, day: usize) -> Option<&[Muscle]> {
    let SplitChoice::Own(lists) = &request.profile.split else { return None };
    let day = &request.days[day];
    let same = |slot: &SessionSlot| slot.day == day.weekday && slot.at == day.at;
    let place = request.profile.sessions.iter().position(same)?;
    lists.get(place).map(Vec::as_slice)
}

/// Whether the two quickest exercises of different families fit the day.
fn holds_two(weekly: &Weekly, day: usize) -> bool {
    let mut quickest: Vec<(u32, &str)> = weekly
        .on(day)
        .map(|pick| {
            let exercise = weekly.candidate(pick);
            let sets = pick.sets[0];
            let rests = sets.saturating_sub(1) * exercise.rest_s;
            let family = exercise.entry.family.as_deref().unwrap_or(&exercise.id);
            (exercise.start_s + sets * exercise.work_s + rests, family)
        })
        .collect();
    quickest.sort_unstable();
    let Some((first, family)) = quickest.first().copied() else { return false };
    quickest
        .iter()
        .find(|(_, other)| *other != family)
        .is_some_and(|(second, _)| first + second <= weekly.request.days[day].work_s())
}
