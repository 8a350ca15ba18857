//! `pain`: nothing loads heavily what hurts, for the first block; by then the coach has asked again.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::screening::{Reported, kept_out};
use crate::week::Week;

/// What loads a region that hurts is never made a variable; the recount looks again.
pub(super) struct Pain;

impl Rule for Pain {
    fn id(&self) -> &'static str {
        "pain"
    }
    fn summary(&self) -> &'static str {
        "for the first block nothing loads heavily what hurts, unless it was tried and is painless"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn is_of_the_first_block(&self) -> bool {
        true
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let items = week.sessions.iter().flat_map(|session| {
            session.groups.iter().flat_map(|group| &group.items).map(move |item| (session, item))
        });
        items
            .filter_map(|(session, item)| {
                let reported = kept_out(&request.profile, &item.entry)?;
                if !matches!(reported, Reported::Pain(_)) {
                    return None;
                }
                let place = format!("{}, {}", session.label, item.entry.id);
                let wanted = format!("not this: {reported}");
                Some(Finding::broken(self.id(), place, wanted, "it is there"))
            })
            .collect()
    }
}
