//! `trunk-order`: the trunk is fresh for squats, hinges and carries.
//!
//! No loaded trunk flexion and no spinal erector work before or between them (common practice).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::candidate::grade;
use crate::week::{Item, Week};
use crate::words::{Pattern, Stress};

/// Trunk work by place in a session.
pub(super) struct TrunkOrder;

fn tires_trunk(item: &Item) -> bool {
    item.pattern() == Some(Pattern::TrunkExtension)
        || (item.pattern().is_some_and(Pattern::is_trunk)
            && grade(&item.entry, Stress::LoadedSpinalFlexion).is_some())
}

impl Rule for TrunkOrder {
    fn id(&self) -> &'static str {
        "trunk-order"
    }
    fn summary(&self) -> &'static str {
        "the trunk is fresh for squats, hinges and carries"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, _request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let items: Vec<&Item> = session.work().collect();
            let last = items.iter().rposition(|item| {
                matches!(item.pattern(), Some(Pattern::Squat | Pattern::Hinge | Pattern::Carry))
            });
            let early = items.iter().take(last.unwrap_or(0)).filter(|item| tires_trunk(item));
            findings.extend(early.map(|item| {
                let place = format!("{}, {}", session.label, item.entry.id);
                let wanted = "after the last squat, hinge and carry";
                Finding::broken(self.id(), place, wanted, "before one").as_remark()
            }));
        }
        findings
    }
}
