//! `complete-week`: the small work that lifts leave out and that completes a week of the goal.
//!
//! What that is stands in [`crate::request::completing`]. Common practice.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::{INCOMPLETE, UNSTEADY};
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::request::completing::parts;
use crate::week::Week;

/// Exercises in the week by what completes it.
pub(super) struct CompleteWeek;

impl Rule for CompleteWeek {
    fn id(&self) -> &'static str {
        "complete-week"
    }
    fn summary(&self) -> &'static str {
        "a week has the small work that its goal and the client's sport ask for beside the lifts"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for part in parts(weekly.request) {
            let done = weekly.picks.iter().filter(|pick| part.has(&weekly.candidate(pick).entry));
            let done: Vec<Term> = done.map(|pick| (pick.chosen, 1.0)).collect();
            if !done.is_empty() {
                let times = f64::from(part.times);
                let cost = if part.carries { UNSTEADY } else { INCOMPLETE };
                let wish = at_least(done, times).missed_by(times);
                weekly.miss(self.id(), part.name, Tier::View, wish, cost);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for part in parts(request) {
            let possible = request.candidates.iter().any(|one| part.has(&one.entry));
            let done = week.work().filter(|(_, item)| part.has(&item.entry)).count();
            if possible && done == 0 {
                let wanted = part
                    .patterns
                    .iter()
                    .map(|pattern| pattern.id().replace('-', " "))
                    .collect::<Vec<_>>();
                let family = part.family.map(|family| family.replace('-', " "));
                let wanted = format!("some {}", family.unwrap_or_else(|| wanted.join(" or ")));
                let finding = Finding::broken(self.id(), "week".to_owned(), wanted, "none");
                findings.push(finding.as_remark());
            }
        }
        findings
    }
}
