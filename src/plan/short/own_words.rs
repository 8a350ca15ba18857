//! What the numbers of a plan do not give again: texts, ramps and searches of somebody's own, and sessions that cannot be
//! told by changes.

use super::shorten::{Writer, called};
use super::{expand, is_called};
use crate::input::plan::{Item, Plan, Session, Week};
use crate::input::profile::Profile;
use crate::input::short_plan::{ShortChange, ShortDose, ShortPlan, ShortSession, ShortWeek};

impl Writer<'_, '_> {
    /// Puts in what expanding the numbers alone does not give: texts of somebody's own, then whole sessions.
    pub(super) fn complete(&self, short: &mut ShortPlan, plan: &Plan, profile: Option<&Profile>) {
        let Ok(told) = expand(short, profile, self.entry) else {
            // What cannot be told by changes is told session by session.
            for (short, week) in short.weeks.iter_mut().zip(&plan.weeks) {
                *short = self.whole_week(week);
            }
            return;
        };
        let pairs = short.sessions.iter_mut().zip(plan.sessions.iter().zip(&told.sessions));
        for (short, (session, told)) in pairs {
            self.speak_session(short, session, told);
        }
        for block in &mut short.blocks {
            // A later block's sessions are told from one of its weeks; the weeks say the rest.
            for session in &mut block.sessions {
                session.note = None;
            }
        }
        let weeks = short.weeks.iter_mut().zip(plan.weeks.iter().zip(&told.weeks));
        for (short, (week, told)) in weeks {
            self.speak_week(short, week, told);
        }
        let Ok(told) = expand(short, profile, self.entry) else { return };
        let weeks = short.weeks.iter_mut().zip(plan.weeks.iter().zip(&told.weeks));
        for (short, (week, told)) in weeks {
            let like = |one: &Session, other: &Session| one.day == other.day && one.at == other.at;
            for session in &week.sessions {
                let same = told.sessions.iter().find(|told| like(told, session));
                if same != Some(session) {
                    // Changes beside it would be read by nobody, and an edit of them lost.
                    let at = session.at.as_deref();
                    let is_its = |called: &str| is_called(session.day, at, called);
                    short.items.retain(|change| !is_its(&change.day));
                    short.drop.retain(|drop| !is_its(&drop.day));
                    short.notes.retain(|called, _| !is_its(called));
                    short.sessions.push(self.whole_session(session));
                }
            }
        }
    }

    fn speak_session(&self, short: &mut ShortSession, session: &Session, told: &Session) {
        if session.note != told.note {
            short.note = Some(session.note.clone().unwrap_or_default());
        }
        let groups = short.groups.iter_mut().zip(session.groups.iter().zip(&told.groups));
        for (short, (group, told)) in groups {
            let items = short.items.iter_mut().zip(group.items.iter().zip(&told.items));
            for (short, (item, told)) in items {
                self.speak(&mut short.dose, item, told);
            }
        }
    }

    fn speak_week(&self, short: &mut ShortWeek, week: &Week, told: &Week) {
        let mut changes = std::mem::take(&mut short.items);
        for session in &week.sessions {
            let is_it = |one: &&Session| one.day == session.day && one.at == session.at;
            let Some(told) = told.sessions.iter().find(is_it) else { continue };
            let called = called(&week.sessions, session);
            if session.note != told.note {
                short.notes.insert(called.clone(), session.note.clone().unwrap_or_default());
            }
            let items = |session: &Session| -> Vec<Item> {
                session.groups.iter().flat_map(|group| group.items.clone()).collect()
            };
            for (item, told) in items(session).iter().zip(&items(told)) {
                let mut dose = ShortDose::default();
                self.speak(&mut dose, item, told);
                if dose == ShortDose::default() {
                    continue;
                }
                let place = changes.iter().position(|one| {
                    is_called(session.day, session.at.as_deref(), &one.day)
                        && one.swap.as_ref().unwrap_or(&one.exercise) == &item.exercise
                });
                let place = place.unwrap_or_else(|| {
                    changes.push(ShortChange {
                        day: called.clone(),
                        exercise: item.exercise.clone(),
                        ..ShortChange::default()
                    });
                    changes.len() - 1
                });
                add_texts(&mut changes[place].dose, dose);
            }
        }
        // In the order of the sessions, for reading.
        let order = |change: &ShortChange| {
            let sessions = week.sessions.iter().enumerate();
            let mut places = sessions.flat_map(|(day, session)| {
                let items = session.groups.iter().flat_map(|group| &group.items).enumerate();
                items.map(move |(place, item)| (day, place, session, item))
            });
            let is_it = |(_, _, session, item): &(usize, usize, &Session, &Item)| {
                is_called(session.day, session.at.as_deref(), &change.day)
                    && change.swap.as_ref().unwrap_or(&change.exercise) == &item.exercise
            };
            places.find(is_it).map(|(day, place, ..)| (day, place))
        };
        changes.sort_by_key(order);
        short.items = changes;
    }

    /// The texts, the ramp and the search that differ from what is told.
    fn speak(&self, dose: &mut ShortDose, item: &Item, told: &Item) {
        let own = |text: &Option<String>, told: &Option<String>| {
            (text != told).then(|| text.clone().unwrap_or_default())
        };
        dose.load_note = own(&item.load_note, &told.load_note).or(dose.load_note.take());
        dose.next = own(&item.next, &told.next).or(dose.next.take());
        dose.effort = own(&item.effort, &told.effort).or(dose.effort.take());
        if item.ramp != told.ramp {
            dose.ramp = Some(self.ramp(&item.ramp));
        }
        if item.find_load != told.find_load
            && let Some(find) = &item.find_load
        {
            dose.find_load = Some(self.find(find));
        }
    }
}

fn add_texts(dose: &mut ShortDose, texts: ShortDose) {
    dose.load_note = texts.load_note.or(dose.load_note.take());
    dose.next = texts.next.or(dose.next.take());
    dose.effort = texts.effort.or(dose.effort.take());
    dose.ramp = texts.ramp.or(dose.ramp.take());
    dose.find_load = texts.find_load.or(dose.find_load.take());
}
