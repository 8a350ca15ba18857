//! `family`: a day has one exercise of a family, two of small work for what should get more.

use std::collections::BTreeMap;

use super::pattern_repeats::comes_twice;
use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::Kind;

/// Close variants would train the same thing twice.
pub(super) struct Family;

/// How many of an exercise's family a day may have: of small work that may come twice two, with dumbbells and then on a cable.
fn most(request: &Request, entry: &Entry) -> u32 {
    let twice = entry.kind == Some(Kind::Isolation) && comes_twice(request, entry);
    if twice { 2 } else { 1 }
}

/// The family of an entry: its own, or its id.
fn family(entry: &Entry) -> &str {
    entry.family.as_deref().unwrap_or(&entry.id)
}

impl Rule for Family {
    fn id(&self) -> &'static str {
        "family"
    }
    fn summary(&self) -> &'static str {
        "a day has one exercise of a family, two of small work that comes twice"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let mut members: BTreeMap<(usize, &str), (u32, Vec<Term>)> = BTreeMap::new();
        for pick in &weekly.picks {
            let entry = &weekly.candidate(pick).entry;
            let (least, terms) =
                members.entry((pick.day, family(entry))).or_insert((2, Vec::new()));
            *least = (*least).min(most(weekly.request, entry));
            terms.push((pick.chosen, 1.0));
        }
        for ((day, name), (most, terms)) in members {
            if terms.len() > 1 {
                let subject = format!("{name}_{}", weekly.request.days[day].label());
                weekly.model.demand(self.id(), subject, terms, Op::Le, f64::from(most));
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
            for item in session.work() {
                let name = family(&item.entry);
                let count = seen.entry(name).or_default();
                *count += 1;
                let most = most(request, &item.entry);
                if *count > most {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    let wanted = if most == 1 { "one" } else { "two" };
                    let wanted = format!("{wanted} of the family `{name}`");
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
