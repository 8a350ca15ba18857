//! `whole-body-day`: a day for the whole body has a multi-joint leg lift, a push and a pull.
//!
//! Common practice: a day has one clear idea, and this one's is everything.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::{Kind, Pattern, Side};

/// Sides by whole-body day.
pub(super) struct WholeBodyDay;

/// Points that a missing side costs.
const MISSING: f64 = 18.0;

const SIDES: [(&str, Side); 3] =
    [("leg lift", Side::Legs), ("push", Side::Push), ("pull", Side::Pull)];

/// Whether a multi-joint exercise of a pattern serves a side.
fn serves(kind: Option<Kind>, pattern: Pattern, side: Side) -> bool {
    let pressed = pattern.press_or_row() == Some(side);
    let legs = side == Side::Legs && pattern.side() == Some(Side::Legs);
    kind == Some(Kind::Compound) && (pressed || legs)
}

impl Rule for WholeBodyDay {
    fn id(&self) -> &'static str {
        "whole-body-day"
    }
    fn summary(&self) -> &'static str {
        "a day for the whole body has a multi-joint leg lift, a push and a pull"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days().filter(|day| weekly.split.days[*day].whole_body) {
            let label = weekly.request.days[day].label();
            for (name, side) in SIDES {
                let mut row: Vec<Term> = weekly
                    .on(day)
                    .filter(|pick| {
                        let candidate = weekly.candidate(pick);
                        serves(candidate.entry.kind, candidate.pattern, side)
                    })
                    .map(|pick| (pick.chosen, 1.0))
                    .collect();
                if row.is_empty() {
                    continue;
                }
                let subject = format!("{}_{label}", name.replace(' ', "_"));
                let missing = weekly.model.continuous(format!("without_{subject}"), 0.0, 1.0);
                row.push((missing, 1.0));
                weekly.model.row(self.id(), subject, row, Op::Ge, 1.0);
                weekly.view.push((missing, -MISSING));
            }
        }
    }
    /// A finished week does not say which days are for the whole body; `main-lift-repeats`, `planes` and
    /// `coverage` recount what matters over the week.
    fn recount(&self, _request: &Request, _week: &Week) -> Vec<Finding> {
        Vec::new()
    }
}
