//! `kit`: every exercise has its kit at the place.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::eligibility::kit_for;
use crate::week::Week;

/// What the place does not have is never made a variable; the recount looks again.
pub(super) struct UsableKit;

impl Rule for UsableKit {
    fn id(&self) -> &'static str {
        "kit"
    }
    fn summary(&self) -> &'static str {
        "every exercise has its kit at the place"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let items = week.sessions.iter().flat_map(|session| {
            session.groups.iter().flat_map(|group| &group.items).map(move |item| (session, item))
        });
        items
            .filter_map(|(session, item)| {
                let lacks = kit_for(&request.profile, &item.entry).err()?;
                let place = format!("{}, {}", session.label, item.entry.id);
                Some(Finding::broken(self.id(), place, "kit that is there", lacks.to_string()))
            })
            .collect()
    }
}
