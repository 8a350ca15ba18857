//! The whole course of a request: how its sessions end, and every week.

use crate::input::catalog::Entry;
use crate::input::clock;
use crate::input::plan::{Session, Week};
use crate::plan::conditioning::{self, Choice, interval_days};
use crate::plan::finisher::finisher;
use crate::plan::progression::{self, Lift};
use crate::plan::screening::{self, CarefulStart};
use crate::plan::{fit, pounds, spare_time, told};
use crate::request::Request;
use crate::strength::working_load::KnownLifts;
use crate::timing::fill_in;
use crate::words::{GroupKind, Role};

/// What follows the session's work, and what the plan says about it.
#[derive(Debug, Clone)]
pub struct Course<'a> {
    request: &'a Request,
    careful: CarefulStart,
    ending: Choice<'a>,
}

impl<'a> Course<'a> {
    /// The course of a request.
    #[must_use]
    pub fn new(request: &'a Request) -> Course<'a> {
        let careful = screening::advise(&request.profile).start;
        let usable: Vec<&Entry> = request.eligible_for(Role::Conditioning).collect();
        let ending = conditioning::choose(&request.profile, &usable, &careful);
        Course { request, careful, ending }
    }

    /// Wished conditioning that the place lacks, or why there is none.
    #[must_use]
    pub fn notes(&self) -> &[String] {
        &self.ending.notes
    }

    /// Adds conditioning at its fullest, or a finisher, to sessions that have neither, inside their minutes. The
    /// sessions stand in the order of the request's days.
    #[must_use]
    pub fn with_endings(&self, mut sessions: Vec<Session>) -> Vec<Session> {
        let finishers: Vec<&Entry> = self.request.eligible_for(Role::Finisher).collect();
        let hard = self.hard_ends(&sessions);
        for (place, (session, day)) in sessions.iter_mut().zip(&self.request.days).enumerate() {
            let ends = |kind| matches!(kind, GroupKind::Conditioning | GroupKind::Finisher);
            session.note = spare_time::at_its_fullest(session);
            if session.groups.iter().any(|group| ends(group.kind)) {
                continue;
            }
            let conditioning = self.ending.conditioning.as_ref().filter(|_| day.closing_s > 0);
            let planned = session.minutes.as_ref().map_or(0, |used| used.planned_s);
            let time = (day.minutes, (day.minutes * 60).saturating_sub(planned));
            let ending = match conditioning {
                Some(conditioning) => conditioning.in_turn(place).fullest(day.minutes, hard[place]),
                None => finisher(&self.request.profile, &finishers, time, place),
            };
            let Some(ending) = ending else { continue };
            session.groups.push(ending);
            fill_in(session, &|id| self.entry(id));
            if fit::is_too_long(session) {
                session.groups.pop();
                fill_in(session, &|id| self.entry(id));
            }
            session.note = spare_time::at_its_fullest(session);
        }
        pounds::fill_in(sessions.iter_mut(), self.request.profile.units);
        sessions
    }

    /// For each session, whether intervals may end it.
    fn hard_ends(&self, sessions: &[Session]) -> Vec<bool> {
        let none = || vec![false; sessions.len()];
        self.ending.conditioning.as_ref().map_or_else(none, |conditioning| {
            interval_days(sessions, conditioning, &|id| self.entry(id))
        })
    }

    /// Every week. `block` gives the composed sessions of a block, from 0, in the order of the request's days.
    #[must_use]
    pub fn weeks(&self, block: &dyn Fn(usize) -> Vec<Session>) -> Vec<Week> {
        let known = KnownLifts::of(&self.request.profile);
        let start = self.request.profile.start.as_deref();
        let mut weeks = progression::weeks(&progression::Course {
            profile: &self.request.profile,
            start: start.and_then(clock::date),
            careful: &self.careful,
            conditioning: self.ending.conditioning.as_ref(),
            entry: &|id| self.entry(id),
            lift: &|id| self.lift(&known, id),
            block: &|number| self.with_endings(block(number)),
        });
        let sessions = weeks.iter_mut().flat_map(|week| &mut week.sessions);
        pounds::fill_in(sessions, self.request.profile.units);
        weeks
    }

    fn entry(&self, id: &str) -> Option<&'a Entry> {
        self.request.entry(id)
    }

    fn lift(&self, known: &KnownLifts, id: &str) -> Lift {
        let profile = &self.request.profile;
        let Some(entry) = self.entry(id) else { return Lift::default() };
        told::lift(profile, &self.careful, known, entry)
    }
}

#[cfg(test)]
mod tests;
