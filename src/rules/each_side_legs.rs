//! `each-side-legs`: a session has at most two leg exercises that go one side at a time, a day for the whole body one where
//! there is a load for both legs, and so has every day of who wants less for the quads.
//!
//! They take twice the time and much balance; the two-legged main lift comes first (common practice).

use super::whole_body_day::is_for_whole_body;
use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::standing::loads_both_legs;
use crate::week::{Item, Week};
use crate::words::{Muscle, Pattern, Side, Sides};

/// Each-side leg exercises by day.
pub(super) struct EachSideLegs;

const MOST: usize = 2;

/// Whether both legs have a load to squat with, so that one exercise on one leg is enough for a day for the whole body.
fn has_load_for_both(request: &Request) -> bool {
    request.candidates.iter().any(|one| loads_both_legs(&one.entry, Pattern::Squat))
}

fn most(request: &Request, whole_body: bool) -> usize {
    let spares = request.wants_less(Muscle::Quads);
    if (whole_body || spares) && has_load_for_both(request) { 1 } else { MOST }
}

fn is_each_side_leg(item: &Item) -> bool {
    item.entry.sides == Sides::Each && item.is_compound() && item.side() == Some(Side::Legs)
}

fn is_two_legged_main(item: &Item) -> bool {
    item.entry.main && item.entry.sides == Sides::Both && item.side() == Some(Side::Legs)
}

impl Rule for EachSideLegs {
    fn id(&self) -> &'static str {
        "each-side-legs"
    }
    fn summary(&self) -> &'static str {
        "a session has at most two leg exercises one side at a time, after the two-legged main lift"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let legs: Vec<Term> = weekly
                .on(day)
                .filter(|pick| {
                    let one = weekly.candidate(pick);
                    one.is_each_side()
                        && one.is_compound()
                        && one.pattern.side() == Some(Side::Legs)
                })
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            let label = weekly.request.days[day].label();
            let most = most(weekly.request, weekly.split.days[day].whole_body);
            let most = if most == MOST { 2.0 } else { 1.0 };
            weekly.model.convention(self.id(), label, legs, Op::Le, most);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let legs = session.work().filter(|item| is_each_side_leg(item)).count();
            let most = most(request, is_for_whole_body(request, session));
            if legs > most {
                let wanted = if most == MOST {
                    "two leg exercises one side at a time"
                } else {
                    "one leg exercise one side at a time"
                };
                let got = legs.to_string();
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            let items: Vec<&Item> = session.work().collect();
            let main = items.iter().rposition(|item| is_two_legged_main(item)).unwrap_or(0);
            let early = items[..main].iter().filter(|item| is_each_side_leg(item));
            findings.extend(early.map(|item| {
                let place = format!("{}, {}", session.label, item.entry.id);
                Finding::broken(self.id(), place, "after the two-legged main lift", "before it")
                    .as_remark()
            }));
        }
        findings
    }
}
