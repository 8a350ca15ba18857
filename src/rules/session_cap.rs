//! `session-cap`: a session holds no more direct sets of a muscle than the client's status allows.
//!
//! 6, 8 and 11 by status, 8 and 11 where the week has no other day, 11 on a body-part split, half as many again for the glutes. The last is the limit of what a preprint could detect
//! (Remmert et al. 2025), not a danger line; the others are common practice.

use super::{Bound, Figure, Finding, Force, Rule, Unit};
use crate::model::Weekly;
use crate::program::Op;
use crate::request::Request;
use crate::week::Week;
use crate::words::Muscle;

/// Direct sets by muscle and day.
pub(super) struct SessionCap;

impl Rule for SessionCap {
    fn id(&self) -> &'static str {
        "session-cap"
    }
    fn summary(&self) -> &'static str {
        "a session holds no more direct sets of a muscle than the client's status allows"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                let subject = format!("{muscle}_{}", weekly.request.days[day].label());
                let cap = f64::from(weekly.request.figures.session_cap_of(muscle));
                let direct = weekly.direct_on(muscle, day);
                if !direct.is_empty() {
                    weekly.model.demand(self.id(), subject, direct, Op::Le, cap);
                }
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                let cap = request.figures.session_cap_of(muscle);
                let direct = session.direct(muscle);
                if direct > cap {
                    findings.push(Finding::broken(
                        self.id(),
                        format!("{}, {muscle}", session.label),
                        Figure::number(cap, Unit::DirectSets).bounded(Bound::AtMost),
                        Figure::number(direct, Unit::Plain),
                    ));
                }
            }
        }
        findings
    }
}
