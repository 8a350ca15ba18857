//! `whole-body-day`: a day for the whole body has a multi-joint leg lift, a push and a pull; a day for legs and arms a leg
//! lift and one of the two.
//!
//! Common practice: a day has one clear idea, and this one's is everything.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::input::profile::{SplitChoice, SplitName};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::SIDE_MISSING;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::split::design::is_crossed;
use crate::week::{Session, Week};
use crate::words::{Kind, Muscle, Pattern, Role, Side};

/// Sides by whole-body day.
pub(super) struct WholeBodyDay;

const SIDES: [(&str, Side); 3] =
    [("leg lift", Side::Legs), ("push", Side::Push), ("pull", Side::Pull)];

/// Whether a multi-joint exercise of a pattern serves a side.
fn serves(kind: Option<Kind>, pattern: Pattern, side: Side) -> bool {
    let pressed = pattern.press_or_row() == Some(side);
    let legs = side == Side::Legs && pattern.side() == Some(Side::Legs);
    kind == Some(Kind::Compound) && (pressed || legs)
}

impl Rule for WholeBodyDay {
    fn id(&self) -> &'static str {
        "whole-body-day"
    }
    fn summary(&self) -> &'static str {
        "a day for the whole body has a multi-joint leg lift, a push and a pull"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let idea = &weekly.split.days[day];
            let label = weekly.request.days[day].label();
            let crossed = !idea.whole_body && is_crossed(weekly.request);
            let has = |side: Side| match side {
                _ if !crossed => idea.whole_body,
                Side::Legs => true,
                Side::Push => idea.takes(Muscle::Chest),
                Side::Pull => idea.takes(Muscle::Lats),
            };
            for (name, side) in SIDES.into_iter().filter(|(_, side)| has(*side)) {
                let done: Vec<Term> = weekly
                    .on(day)
                    .filter(|pick| {
                        let candidate = weekly.candidate(pick);
                        serves(candidate.entry.kind, candidate.pattern, side)
                    })
                    .map(|pick| (pick.chosen, 1.0))
                    .collect();
                if done.is_empty() {
                    continue;
                }
                let subject = format!("{}_{label}", name.replace(' ', "_"));
                weekly.miss(self.id(), subject, Tier::View, at_least(done, 1.0), SIDE_MISSING);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let crossed = is_crossed(request);
        let whole =
            week.sessions.iter().filter(|session| crossed || is_for_whole_body(request, session));
        let sides = whole.flat_map(|session| SIDES.map(|(name, side)| (session, name, side)));
        // One side of the arms is enough where the days are for legs and arms each.
        let other = |session: &Session, side: Side| {
            let other = if side == Side::Push { Side::Pull } else { Side::Push };
            side != Side::Legs && session.work().any(|item| entry_serves(&item.entry, other))
        };
        sides
            .filter(|(session, _, side)| !crossed || !other(session, *side))
            .filter(|(session, _, side)| {
                session.work().count() >= SIDES.len()
                    && request.eligible_for(Role::Work).any(|entry| entry_serves(entry, *side))
                    && !session.work().any(|item| entry_serves(&item.entry, *side))
            })
            .map(|(session, name, _)| {
                let wanted = format!("a multi-joint {name}");
                Finding::broken(self.id(), session.label.clone(), wanted, "none").as_remark()
            })
            .collect()
    }
}

fn entry_serves(entry: &Entry, side: Side) -> bool {
    entry.pattern.is_some_and(|pattern| serves(entry.kind, pattern, side))
}

/// Whether a session of a finished week is for the whole body. Unless the client asks for such days or for lists of their
/// own, it does not say so: one that trains both halves of the body is.
pub(super) fn is_for_whole_body(request: &Request, session: &Session) -> bool {
    match request.profile.split {
        SplitChoice::Own(_) => false,
        SplitChoice::Named(SplitName::FullBody) => true,
        SplitChoice::Named(_) => session.trains_both_halves(),
    }
}
