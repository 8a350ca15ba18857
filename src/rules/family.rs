//! `family`: a day has one exercise of a family.

use std::collections::{BTreeMap, BTreeSet};

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;

/// Close variants would train the same thing twice.
pub(super) struct Family;

/// The family of an entry: its own, or its id.
fn family(entry: &Entry) -> &str {
    entry.family.as_deref().unwrap_or(&entry.id)
}

impl Rule for Family {
    fn id(&self) -> &'static str {
        "family"
    }
    fn summary(&self) -> &'static str {
        "a day has one exercise of a family"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let mut members: BTreeMap<(usize, &str), Vec<Term>> = BTreeMap::new();
        for pick in &weekly.picks {
            let key = (pick.day, family(&weekly.candidate(pick).entry));
            members.entry(key).or_default().push((pick.chosen, 1.0));
        }
        for ((day, name), terms) in members {
            if terms.len() > 1 {
                let subject = format!("{name}_{}", weekly.request.days[day].label());
                weekly.model.demand(self.id(), subject, terms, Op::Le, 1.0);
            }
        }
    }
    fn recount(&self, _request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let mut seen = BTreeSet::new();
            for item in session.work() {
                let name = family(&item.entry);
                if !seen.insert(name) {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    let wanted = format!("one of the family `{name}`");
                    findings.push(Finding::broken(
                        self.id(),
                        place,
                        wanted,
                        "another the same day",
                    ));
                }
            }
        }
        findings
    }
}
