//! A plan and the rework of one of its weeks, put together.

use std::collections::BTreeMap;

use super::date_of;
use crate::input::place::Equipment;
use crate::input::plan::{Exception, Item, Plan, Session, Week};
use crate::plan::calendar::calendar;
use crate::plan::fit;
use crate::planner::Planner;
use crate::rework::profile_of;
use crate::strength::first_load;

/// A plan and the rework of one of its weeks, to be put together.
pub(super) struct Parts<'a> {
    pub(super) planner: &'a Planner,
    pub(super) plan: &'a Plan,
    pub(super) made: &'a Plan,
    pub(super) week: u32,
    pub(super) asked: Vec<String>,
    /// The kit of another place.
    pub(super) kit: Option<&'a Equipment>,
}

impl Parts<'_> {
    /// The plan with the reworked sessions of the week that are open, and without those that are lost.
    pub(super) fn spliced(
        &self,
        is_open: &dyn Fn(&Session) -> bool,
        is_lost: &dyn Fn(&Session) -> bool,
    ) -> Plan {
        let mut new = self.plan.clone();
        let Some(week) = new.weeks.iter_mut().find(|week| week.week == self.week) else {
            return new;
        };
        let mut exceptions = Vec::new();
        let before = week.clone();
        week.sessions.retain(|session| {
            if is_lost(session) {
                exceptions.push(self.exception(&before, session));
            }
            !is_lost(session)
        });
        for session in week.sessions.iter_mut().filter(|session| is_open(session)) {
            let Some(mut now) = self.session(session) else { continue };
            let same = now.groups == session.groups;
            if same {
                continue;
            }
            let about = format!("This day only: {}.", self.asked.join(", "));
            now.note = Some(match &session.note {
                Some(note) => format!("{about} {note}"),
                None => about,
            });
            exceptions.push(self.exception(&before, session));
            *session = now;
        }
        new.exceptions.extend(exceptions);
        new
    }

    fn exception(&self, week: &Week, session: &Session) -> Exception {
        Exception {
            week: self.week,
            day: session.day.to_string(),
            date: date_of(week, session).map(|date| date.to_string()),
            at: None,
            asked: self.asked.clone(),
            equipment: self.kit.cloned(),
        }
    }

    /// The reworked session as the week does it: with its sets and its reserve, and with a load to be found where the
    /// exercise was not done before.
    fn session(&self, was: &Session) -> Option<Session> {
        let is_it = |one: &&Session| one.day == was.day && one.at == was.at;
        let full = self.made.sessions.iter().find(is_it)?;
        let status = profile_of(self.made).ok()?.training_status;
        let in_block = calendar(status, 52).into_iter().find(|one| one.week == self.week)?.in_block;
        let like = self.made.weeks.get(in_block as usize);
        let mut now =
            like.and_then(|week| week.sessions.iter().find(is_it)).unwrap_or(full).clone();
        let known = self.known();
        for group in now.groups.iter_mut().filter(|group| group.is_work()) {
            for item in &mut group.items {
                let key = (item.exercise.clone(), item.turn);
                let planned = full
                    .groups
                    .iter()
                    .flat_map(|group| &group.items)
                    .find(|one| one.exercise == item.exercise);
                match known.get(&key) {
                    // Another place may not have the load.
                    Some(then) if self.kit.is_none() || then.load_kg.is_none() => {
                        as_then(item, then);
                    }
                    _ => as_new(item, planned),
                }
            }
        }
        let entry =
            |id: &str| self.planner.catalog().get(id).or_else(|| self.plan.exercises.get(id));
        fit::to_minutes(&mut now, full, &entry);
        Some(now)
    }

    /// Each exercise as the week has it, else as the last week before that had it.
    fn known(&self) -> BTreeMap<(String, Option<crate::words::Turn>), Item> {
        let mut known = BTreeMap::new();
        for week in self.plan.weeks.iter().filter(|week| week.week <= self.week) {
            let groups = week.sessions.iter().flat_map(|session| &session.groups);
            for item in groups.flat_map(|group| &group.items) {
                known.insert((item.exercise.clone(), item.turn), item.clone());
            }
        }
        known
    }
}

/// Loads, numbers and words of an exercise that the client does anyway.
fn as_then(item: &mut Item, then: &Item) {
    let sets = item.sets;
    let (turn, instead) = (item.turn, item.instead.clone());
    *item = Item { sets, turn, instead, ..then.clone() };
    for list in [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories]
        .into_iter()
        .flatten()
    {
        let last = list.last().copied().unwrap_or(1);
        list.resize(sets as usize, last);
    }
}

/// An exercise that no week had: its load is found on the day.
fn as_new(item: &mut Item, planned: Option<&Item>) {
    let Some(planned) = planned else { return };
    if item.load_kg.is_none() {
        item.find_load.clone_from(&planned.find_load);
        item.load_note.clone_from(&planned.load_note);
        first_load::to_week(item);
    }
    item.next = None;
}
