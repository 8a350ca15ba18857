//! `session-size`: a session has enough exercises to be worth it and not more than its minutes carry.
//!
//! At least two where the minutes hold them (hard); three, at most one in seven minutes straight or in five
//! and a half paired, and seven or eight in all are remarks (common practice).

use super::{Finding, Force, Rule};
use crate::input::profile::{SessionSlot, SplitChoice};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::figures::{MINUTES_PER_ITEM, MINUTES_PER_PAIRED_ITEM};
use crate::week::{Session, Week};
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
        "a session has at least two exercises and not more than its minutes carry"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let done: Vec<Term> = weekly.on(day).map(|pick| (pick.chosen, 1.0)).collect();
            if holds_two(weekly, day) {
                weekly.model.row(self.id(), label.clone(), done.clone(), Op::Ge, 2.0);
            }
            let third = weekly.model.least(format!("few_{label}"), 1.0);
            let mut three = done.clone();
            three.push((third, 1.0));
            if done.len() >= 3 {
                weekly.model.row(self.id(), label.clone(), three, Op::Ge, 3.0);
                weekly.view.push((third, -20.0));
            }
            let most = f64::from(weekly.request.figures.most_items);
            weekly.model.row(self.id(), label.clone(), done.clone(), Op::Le, most);
            let minutes = f64::from(weekly.request.days[day].minutes);
            let mut carried = done;
            let credit = 1.0 - MINUTES_PER_PAIRED_ITEM / MINUTES_PER_ITEM;
            carried.extend(weekly.on(day).filter_map(|pick| Some((pick.paired?, -credit))));
            let most = (minutes / MINUTES_PER_ITEM).max(2.0);
            weekly.model.row(self.id(), label, carried, Op::Le, most);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        week.sessions.iter().flat_map(|session| self.session(request, session)).collect()
    }
}

impl SessionSize {
    fn session(&self, request: &Request, session: &Session) -> Vec<Finding> {
        let items = session.work().count();
        let paired: usize = session
            .groups
            .iter()
            .filter(|group| group.is_work() && group.items.len() > 1)
            .map(|group| group.items.len())
            .sum();
        let day = &request.days[session.day];
        let place = session.label.clone();
        let mut findings = Vec::new();
        let minutes = f64::from(day.minutes);
        let wanted = request.figures.fewest_items as usize;
        let enough = two_fit(request, session.day);
        if items < FEWEST && enough {
            findings.push(Finding::broken(
                self.id(),
                place.clone(),
                "two exercises at least",
                items.to_string(),
            ));
        } else if items < wanted && enough && as_f64(wanted) * MINUTES_PER_ITEM <= minutes {
            let got = items.to_string();
            findings.push(Finding::broken(self.id(), place.clone(), "three exercises", got).as_remark());
        }
        let (straight, paired) = (as_f64(items - paired), as_f64(paired));
        let carried = straight * MINUTES_PER_ITEM + paired * MINUTES_PER_PAIRED_ITEM;
        if items > 2 && carried > minutes + 1e-6 || items > request.figures.most_items as usize {
            let wanted = format!("no more exercises than {minutes} minutes carry");
            findings.push(Finding::broken(self.id(), place, wanted, items.to_string()).as_remark());
        }
        findings
    }
}

#[allow(clippy::cast_precision_loss, reason = "a session has a handful of items")]
fn as_f64(count: usize) -> f64 {
    count as f64
}

/// Whether the two quickest exercises of different families that the client's own list has for a day fit its minutes.
fn two_fit(request: &Request, day: usize) -> bool {
    let minutes = request.days[day].minutes;
    let mut quickest: Vec<(u32, &str)> = request
        .candidates
        .iter()
        .filter(|candidate| own_list(request, day).is_none_or(|list| {
            candidate.entry.direct.iter().all(|muscle| list.contains(muscle))
        }))
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
