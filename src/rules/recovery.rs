//! `recovery`: two sessions that are hard for a muscle are the client's recovery hours apart.
//!
//! From start to start with three hours' grace, over the turn of the week. The split says which muscle-days
//! may be hard; the others of a day stay under the hard threshold.

use super::{Finding, Force, Rule};
use crate::input::profile::{SplitChoice, SplitName};
use crate::program::Op;
use crate::model::Weekly;
use crate::request::Request;
use crate::request::figures::{HARD_DIRECT, HARD_FRACTIONAL};
use crate::week::Week;
use crate::words::Muscle;

/// Muscle-days that the split does not make hard stay under the threshold.
pub(super) struct Recovery;

impl Rule for Recovery {
    fn id(&self) -> &'static str {
        "recovery"
    }
    fn summary(&self) -> &'static str {
        "two sessions that are hard for a muscle are the client's recovery hours apart"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                if weekly.split.days[day].hard.contains(&muscle) || !is_tight(weekly, muscle, day) {
                    continue;
                }
                let subject = format!("{muscle}_{}", weekly.request.days[day].label());
                let direct = weekly.direct_on(muscle, day);
                if direct.is_empty() {
                    continue;
                }
                let under = f64::from(HARD_DIRECT) - 1.0;
                weekly.model.row(self.id(), subject.clone(), direct, Op::Le, under);
                let halves = weekly.halves_on(muscle, day);
                weekly.model.row(self.id(), subject, halves, Op::Le, 2.0 * HARD_FRACTIONAL - 1.0);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let asked = match &request.profile.split {
            SplitChoice::Own(_) => true,
            SplitChoice::Named(name) => *name != SplitName::Auto,
        };
        let mut findings = Vec::new();
        for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
            for (place, one) in week.sessions.iter().enumerate() {
                for other in &week.sessions[place + 1..] {
                    let both = one.is_hard_for(muscle) && other.is_hard_for(muscle);
                    if both && request.too_close(one.day, other.day) {
                        let hours = request.days[one.day].hours_to(&request.days[other.day]);
                        let finding = Finding::broken(
                            self.id(),
                            format!("{muscle}, {} and {}", one.label, other.label),
                            format!("{} h between hard sessions", request.profile.recovery_hours),
                            format!("{hours:.0} h"),
                        );
                        findings.push(if asked { finding.as_remark() } else { finding });
                    }
                }
            }
        }
        findings
    }
}

/// Whether a hard session that day would stand too close to another hard one, or to other training.
fn is_tight(weekly: &Weekly, muscle: Muscle, day: usize) -> bool {
    let hard = |other: usize| weekly.split.days[other].hard.contains(&muscle);
    crate::split::design::blocked(weekly.request, muscle, day)
        || weekly.days().any(|other| hard(other) && weekly.request.too_close(day, other))
        || weekly.days().any(|other| !hard(other) && weekly.request.too_close(day, other))
}
