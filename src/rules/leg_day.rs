//! `leg-day`: a day for the legs has a loaded squat or press on both legs, and a week a loaded hinge.
//!
//! Lunges and curls alone are no leg day, and a hinge on one leg is held back by balance. Common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::at_least;
use crate::model::points::{NO_HINGE, NO_LEG_LIFT};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::Request;
use crate::request::standing::loads_both_legs;
use crate::week::{Session, Week};
use crate::words::{Goal, Muscle, Pattern, Role, Status};

/// Two-legged squats by leg day.
pub(super) struct LegDay;

/// Squats, leg presses and hack squats with a load; where the glutes should get more, thrusts as well.
fn serves(request: &Request, entry: &Entry) -> bool {
    let thrusts = request.wants_more(Muscle::Glutes) && !request.wants_more(Muscle::Quads);
    loads_both_legs(entry, Pattern::Squat)
        || (thrusts && loads_both_legs(entry, Pattern::HipExtension))
}

/// Deadlifts and the like on both legs, with a load; for power, where fast lifts drive both hips, one on a leg or a swing
/// as well.
fn is_hinge(request: &Request, entry: &Entry) -> bool {
    let fast = request.profile.goal == Goal::Power
        && request.profile.training_status != Status::Novice
        && entry.pattern == Some(Pattern::Hinge)
        && entry.is_loaded();
    fast || entry.main && loads_both_legs(entry, Pattern::Hinge)
}

/// Fewer days leave the hinge to the lunge or the bridge.
const HINGE_FROM_DAYS: usize = 2;

impl Rule for LegDay {
    fn id(&self) -> &'static str {
        "leg-day"
    }
    fn summary(&self) -> &'static str {
        "a day for the legs has a loaded squat or press on both legs, and a week a loaded hinge"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let request = weekly.request;
        let of_it = |pick: &&Pick| is_hinge(request, &weekly.candidate(pick).entry);
        let hinges = weekly.picks.iter().filter(of_it);
        let hinges: Vec<Term> = hinges.map(|pick| (pick.chosen, 1.0)).collect();
        if weekly.request.days.len() >= HINGE_FROM_DAYS && !hinges.is_empty() {
            let wish = at_least(hinges, 1.0);
            weekly.miss(self.id(), "hinge", Tier::Ranges, wish, NO_HINGE);
        }
        // Who wants less for the quads squats on one of the leg days.
        if weekly.request.wants_less(Muscle::Quads) {
            return;
        }
        for day in weekly.days() {
            let idea = &weekly.split.days[day];
            let arms_too = idea.takes(Muscle::Chest) || idea.takes(Muscle::Lats);
            let for_legs = !arms_too && idea.hard.contains(&Muscle::Quads);
            let done: Vec<Term> = weekly
                .on(day)
                .filter(|pick| serves(weekly.request, &weekly.candidate(pick).entry))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if !for_legs || done.is_empty() {
                continue;
            }
            let label = weekly.request.days[day].label();
            weekly.miss(self.id(), label, Tier::Ranges, at_least(done, 1.0), NO_LEG_LIFT);
        }
    }
    /// A finished week does not name its leg days: they train the quads hard and no large muscle of the upper half.
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        let hinges = request.candidates.iter().any(|one| is_hinge(request, &one.entry));
        let has_hinge = week.work().any(|(_, item)| is_hinge(request, &item.entry));
        if request.days.len() >= HINGE_FROM_DAYS && hinges && !has_hinge {
            let wanted = "a loaded hinge on both legs";
            findings.push(Finding::broken(self.id(), "hinge", wanted, "none").as_shortfall());
        }
        if request.wants_less(Muscle::Quads)
            || !request.eligible_for(Role::Work).any(|entry| serves(request, entry))
        {
            return findings;
        }
        let without = week.sessions.iter().filter(|session| {
            is_leg_day(session) && !session.work().any(|item| serves(request, &item.entry))
        });
        findings.extend(without.map(|session| {
            let wanted = "a loaded squat or press on both legs";
            Finding::broken(self.id(), session.label.clone(), wanted, "none").as_shortfall()
        }));
        findings
    }
}

fn is_leg_day(session: &Session) -> bool {
    let upper = [Muscle::Chest, Muscle::Lats, Muscle::UpperBack];
    session.direct(Muscle::Quads) >= 3 && upper.iter().all(|muscle| session.direct(*muscle) == 0)
}
