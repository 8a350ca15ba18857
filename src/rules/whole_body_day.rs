//! `whole-body-day`: a day for the whole body has a multi-joint leg lift, a push and a pull; a day for legs and arms a leg
//! lift and one of the two.
//!
//! Of several days for the whole body each has one push, one pull and two lifts for the legs, one where power is the goal:
//! what is more on one day is missed on another. Common practice: a day has one clear idea, and this one's is everything.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::input::profile::{SplitChoice, SplitName};
use crate::model::Weekly;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{ONE_LEG_LIFT, SIDE_AGAIN, SIDE_MISSING};
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::{Session, Week};
use crate::words::{Goal, Kind, Muscle, Pattern, Role, Side};

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

/// How many lifts of a side a day for the whole body has, of several.
fn most_of(request: &Request, side: Side) -> f64 {
    let two = side == Side::Legs && request.profile.goal != Goal::Power;
    if two { 2.0 } else { 1.0 }
}

/// Whether the client's sport pulled hard the day before, and another day is free of that: the pull waits for it.
fn is_spared(request: &Request, side: Side, day: usize) -> bool {
    let pulled = |day: usize| {
        [Muscle::Lats, Muscle::UpperBack].iter().all(|muscle| request.is_after_sport(*muscle, day))
    };
    side == Side::Pull && pulled(day) && !(0..request.days.len()).all(pulled)
}

/// More lifts over that than a day ever has.
const MOST_OVER: f64 = 12.0;

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
            // Lists of the client's own ask for nothing but what they name.
            let open = !matches!(weekly.request.profile.split, SplitChoice::Own(_));
            let crossed = open && idea.takes(Muscle::Glutes);
            let [chest, lats] = [Muscle::Chest, Muscle::Lats].map(|muscle| idea.takes(muscle));
            let has = |side: Side| match side {
                _ if idea.whole_body => true,
                Side::Legs => crossed && (chest || lats),
                Side::Push => crossed && chest,
                Side::Pull => crossed && lats,
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
                if idea.whole_body && weekly.request.days.len() > 1 {
                    let most = most_of(weekly.request, side);
                    let more = at_most(done.clone(), most).missed_by(MOST_OVER);
                    let again = format!("{subject}_again");
                    weekly.miss(self.id(), again, Tier::View, more, SIDE_AGAIN);
                    if most > 1.0 {
                        let second = at_least(done.clone(), most);
                        let subject = format!("{subject}_second");
                        weekly.miss(self.id(), subject, Tier::View, second, ONE_LEG_LIFT);
                    }
                }
                if !is_spared(weekly.request, side, day) {
                    weekly.miss(self.id(), subject, Tier::View, at_least(done, 1.0), SIDE_MISSING);
                }
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let whole = week.sessions.iter().filter(|session| is_for_whole_body(request, session));
        whole
            .flat_map(|session| SIDES.map(|(name, side)| (session, name, side)))
            .filter(|(session, _, side)| {
                session.work().count() >= SIDES.len()
                    && !is_spared(request, *side, session.day)
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
