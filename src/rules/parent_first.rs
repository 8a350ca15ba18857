//! `parent-first`: a variant comes with the lift that it is a variant of, or after it.
//!
//! A box squat beside back squats has a reason, one alone has none. Common practice.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::eligibility::is_named;
use crate::week::Week;

/// Variants by parent.
pub(super) struct ParentFirst;

impl Rule for ParentFirst {
    fn id(&self) -> &'static str {
        "parent-first"
    }
    fn summary(&self) -> &'static str {
        "a variant of a lift comes only beside the lift itself"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for pick in weekly.picks.clone() {
            let candidate = weekly.candidate(&pick);
            let Some(parent) = candidate.entry.variant_of.as_deref() else { continue };
            if is_free(weekly.request, &candidate.id) {
                continue;
            }
            let mut row: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|other| weekly.candidate(other).id == parent)
                .map(|other| (other.chosen, -1.0))
                .collect();
            if row.is_empty() {
                continue;
            }
            row.push((pick.chosen, 1.0));
            let subject = format!("{}_{}", candidate.id, weekly.day(&pick).label());
            weekly.model.convention(self.id(), subject, row, Op::Le, 0.0);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let done = week.exercises();
        let alone = done.iter().filter_map(|id| {
            let parent = request.entries.get(*id)?.variant_of.as_deref()?;
            let lacks = request.candidate(parent).is_some() && !done.contains(&parent);
            (lacks && !is_free(request, id)).then(|| {
                let wanted = format!("`{parent}` in the week beside its variant");
                Finding::broken(self.id(), *id, wanted, "the variant alone").as_remark()
            })
        });
        alone.collect()
    }
}

/// What the client names, kept from the last block or had in the plan before, needs no parent.
fn is_free(request: &Request, id: &str) -> bool {
    let before = request
        .rework
        .as_ref()
        .is_some_and(|rework| rework.picks.keys().any(|(_, name)| name == id));
    is_named(&request.profile, id) || request.previous_mains.contains(id) || before
}
