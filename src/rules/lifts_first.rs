//! `lifts-first`: chest, lats and quads are done more often by a lift than by work of one joint.
//!
//! A fly beside a press rounds a week off; three flies and one press are a week without an idea. One more is for who
//! wants more of the muscle. Common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::LIFT_PASSED_BY;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Kind, Muscle};

/// Lifts and single-joint work by large muscle.
pub(super) struct LiftsFirst;

const MUSCLES: [Muscle; 3] = [Muscle::Chest, Muscle::Lats, Muscle::Quads];

/// Whether an exercise is done for a muscle, and over several joints.
fn lift_for(entry: &Entry, muscle: Muscle) -> Option<bool> {
    let is_prime = entry.direct.first() == Some(&muscle);
    is_prime.then(|| entry.kind == Some(Kind::Compound))
}

/// How many more exercises of one joint than lifts a muscle may have.
fn leeway(request: &Request, muscle: Muscle) -> u32 {
    u32::from(request.wants_more(muscle))
}

impl Rule for LiftsFirst {
    fn id(&self) -> &'static str {
        "lifts-first"
    }
    fn summary(&self) -> &'static str {
        "chest, lats and quads are done as often by a lift as by work of one joint"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for muscle in MUSCLES {
            let row: Vec<Term> = weekly
                .picks
                .iter()
                .filter_map(|pick| {
                    let is_lift = lift_for(&weekly.candidate(pick).entry, muscle)?;
                    Some((pick.chosen, if is_lift { -1.0 } else { 1.0 }))
                })
                .collect();
            if row.iter().all(|(_, sign)| *sign > 0.0) || row.iter().all(|(_, sign)| *sign < 0.0) {
                continue;
            }
            let wish = at_most(row, f64::from(leeway(weekly.request, muscle))).missed_by(20.0);
            weekly.miss(self.id(), muscle.id(), Tier::View, wish, LIFT_PASSED_BY);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for muscle in MUSCLES {
            let usable = request.candidates.iter();
            if !usable.clone().any(|one| lift_for(&one.entry, muscle) == Some(true)) {
                continue;
            }
            let kinds = week.work().filter_map(|(_, item)| lift_for(&item.entry, muscle));
            let (lifts, small): (Vec<bool>, Vec<bool>) = kinds.partition(|is_lift| *is_lift);
            if small.len() > lifts.len() + leeway(request, muscle) as usize {
                let wanted = "as many lifts as exercises of one joint";
                let got = format!("{} and {}", lifts.len(), small.len());
                findings.push(Finding::broken(self.id(), muscle.id(), wanted, got).as_remark());
            }
        }
        findings
    }
}
