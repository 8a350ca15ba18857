//! `lead-lift`: the first lift is multi-joint, for one of the day's first two focus muscles, and nothing
//! has more sets that day.
//!
//! Jumps and throws may come before. Multi-joint work first: ACSM 2009; the rest is common practice.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::NO_LEAD;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::request::dose::Duty;
use crate::week::Week;
use crate::words::Pattern;

/// A main lift in every session that can have one.
pub(super) struct LeadLift;

impl Rule for LeadLift {
    fn id(&self) -> &'static str {
        "lead-lift"
    }
    fn summary(&self) -> &'static str {
        "the first lift is multi-joint, for a focus muscle, and nothing has more sets that day"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let of_duty = |wanted: &dyn Fn(Duty) -> bool| -> Vec<Term> {
                weekly
                    .on(day)
                    .filter(|pick| wanted(weekly.candidate(pick).duty))
                    .map(|pick| (pick.chosen, 1.0))
                    .collect()
            };
            let mains = of_duty(&|duty| duty == Duty::Main);
            let compounds = of_duty(&|duty| matches!(duty, Duty::Main | Duty::Compound));
            let leads = if mains.is_empty() { compounds } else { mains };
            if leads.is_empty() {
                continue;
            }
            let label = weekly.request.days[day].label();
            weekly.miss(self.id(), label, Tier::View, at_least(leads, 1.0), NO_LEAD);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let slow =
                |item: &&crate::week::Item| !item.pattern().is_some_and(Pattern::is_explosive);
            let Some(first) = session.work().find(slow) else { continue };
            let any_compound = session.work().any(crate::week::Item::is_compound);
            let most = session.work().map(|item| item.sets).max().unwrap_or(0);
            let in_focus = session.focus.is_empty()
                || session.focus.iter().take(2).any(|muscle| first.entry.direct.contains(muscle));
            let emphasized = first.entry.direct.iter().any(|muscle| {
                request.profile.emphasis.get(muscle) == Some(&crate::words::Emphasis::More)
            });
            let place = format!("{}, {}", session.label, first.entry.id);
            let mut remark = |wanted: &str, got: &str| {
                findings.push(Finding::broken(self.id(), place.clone(), wanted, got).as_remark());
            };
            if !first.is_compound() && any_compound && !emphasized {
                remark("a multi-joint lift first", "an isolation exercise");
            }
            if !in_focus && !emphasized {
                remark("a lift for one of the first two focus muscles", "another muscle's");
            }
            if first.sets < most && !emphasized {
                remark("the most sets of the day", &format!("{} of {most}", first.sets));
            }
        }
        findings
    }
}
