//! `fresh-lifts`: where two days are too close for a muscle, the lifts of each are for what is fresh.
//!
//! The day after bench and pulldown is for the press overhead and the row: a second bench of two sets is a warm-up and
//! no more. Common practice.

use super::recovery::is_kept_light;
use super::{Figure, Finding, Force, Rule, Unit};
use crate::model::Weekly;
use crate::model::points::TIRED_LIFT;
use crate::model::tier::Tier;
use crate::request::{Candidate, Request};
use crate::week::{Session, Week};
use crate::words::Muscle;

/// Lifts by what is fresh.
pub(super) struct FreshLifts;

/// So many sets at most are a thin lift.
const THIN_SETS: u32 = 2;

fn is_tired(weekly: &Weekly, candidate: &Candidate, day: usize) -> bool {
    let prime = candidate.prime();
    candidate.is_compound() && prime.is_some_and(|prime| is_kept_light(weekly, prime, day))
}

impl Rule for FreshLifts {
    fn id(&self) -> &'static str {
        "fresh-lifts"
    }
    fn summary(&self) -> &'static str {
        "where two days are too close for a muscle, the lifts of each are for what is fresh"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for pick in weekly.picks.clone() {
            if is_tired(weekly, weekly.candidate(&pick), pick.day) {
                let subject = format!("{}_{}", weekly.name_of(&pick), weekly.day(&pick).label());
                weekly.count(self.id(), subject, Tier::View, pick.chosen, TIRED_LIFT);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many thin lifts are worth a remark.
        const MANY: u32 = 3;
        let found = week.sessions.iter().filter_map(|session| {
            let thin = session.work().filter(|item| {
                let tired = |muscle: &Muscle| is_hard_nearby(request, week, session, *muscle);
                item.sets <= THIN_SETS
                    && item.is_compound()
                    && item.entry.direct.first().is_some_and(tired)
            });
            let count = u32::try_from(thin.count()).unwrap_or(u32::MAX);
            let wanted = "lifts for what is fresh";
            let got = Figure::number(count, Unit::Plain);
            let finding = Finding::broken(self.id(), session.label.clone(), wanted, got);
            (count >= MANY).then(|| finding.as_remark())
        });
        found.collect()
    }
}

/// Whether a session too close to this one is hard for a muscle.
fn is_hard_nearby(request: &Request, week: &Week, session: &Session, muscle: Muscle) -> bool {
    let close = |other: &&Session| request.too_close(session.day, other.day);
    week.sessions.iter().filter(close).any(|other| other.is_hard_for(muscle))
}
