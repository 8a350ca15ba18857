//! `planes`: from three days a week pushes and pulls come both level and overhead.
//!
//! Common practice. A plane counts only where kit and limits leave an exercise of it.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::PLANE_MISSING;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Pattern, Role};

/// Planes by week.
pub(super) struct Planes;

const PLANES: [Pattern; 4] = [
    Pattern::HorizontalPush,
    Pattern::VerticalPush,
    Pattern::HorizontalPull,
    Pattern::VerticalPull,
];

/// Fewest days a week that carry both planes.
const FROM_DAYS: usize = 3;

/// The planes a request should have.
fn wanted(request: &Request) -> Vec<Pattern> {
    let possible =
        |plane: &Pattern| request.candidates.iter().any(|candidate| candidate.pattern == *plane);
    if request.days.len() < FROM_DAYS {
        Vec::new()
    } else {
        PLANES.into_iter().filter(possible).collect()
    }
}

impl Rule for Planes {
    fn id(&self) -> &'static str {
        "planes"
    }
    fn summary(&self) -> &'static str {
        "from three days a week pushes and pulls come both level and overhead"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for plane in wanted(weekly.request) {
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| weekly.candidate(pick).pattern == plane)
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            weekly.miss(self.id(), plane.id(), Tier::Ranges, at_least(done, 1.0), PLANE_MISSING);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let any_left = |plane: &Pattern| {
            request.eligible_for(Role::Work).any(|entry| entry.pattern == Some(*plane))
        };
        let wanted = PLANES.into_iter().filter(|_| request.days.len() >= FROM_DAYS);
        wanted
            .filter(any_left)
            .filter(|plane| week.sets_of(|entry| entry.pattern == Some(*plane)) == 0)
            .map(|plane| {
                let wanted = format!("a {plane} in the week");
                Finding::broken(self.id(), plane.id(), wanted, "none").as_shortfall()
            })
            .collect()
    }
}
