//! `focus`: a day's focus is up to four muscles that hold 60 % of its sets.
//!
//! Full-body days need no focus. Common practice.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::week::Week;

/// The focus by day.
pub(super) struct Focus;

const MOST: usize = 4;
const SHARE: f64 = 0.60;

impl Rule for Focus {
    fn id(&self) -> &'static str {
        "focus"
    }
    fn summary(&self) -> &'static str {
        "a day's focus is up to four muscles that hold 60 % of its sets"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, _request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in week.sessions.iter().filter(|session| !session.focus.is_empty()) {
            if session.focus.len() > MOST {
                let got = session.focus.len().to_string();
                let wanted = "four muscles at most";
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            let sets: u32 = session.work().map(|item| item.sets).sum();
            let held = session
                .sets_of(|entry| entry.direct.iter().any(|muscle| session.focus.contains(muscle)));
            let share = f64::from(held) / f64::from(sets.max(1));
            if share < SHARE && !session.trains_both_halves() {
                let got = format!("{:.0} %", share * 100.0);
                let wanted = "60 % of the sets";
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
        }
        findings
    }
}
