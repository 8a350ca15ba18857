//! `limits`: nothing loads what the client's limits keep out, or pregnancy.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::eligibility::limited;
use crate::request::screening::{Reported, kept_out};
use crate::week::Week;

/// What a limit keeps out is never made a variable; the recount looks again.
pub(super) struct Limits;

impl Rule for Limits {
    fn id(&self) -> &'static str {
        "limits"
    }
    fn summary(&self) -> &'static str {
        "nothing loads what the client's limits keep out"
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
                let place = format!("{}, {}", session.label, item.entry.id);
                let wanted = match limited(&request.profile, &item.entry) {
                    Some(stress) => format!("nothing tagged `{stress}`"),
                    None => match kept_out(&request.profile, &item.entry)? {
                        reported @ Reported::Pregnancy(_) => format!("not this: {reported}"),
                        Reported::Pain(_) => return None,
                    },
                };
                Some(Finding::broken(self.id(), place, wanted, "it is there"))
            })
            .collect()
    }
}
