//! `coach-view`: liked and well-known lifts come before equals, disliked ones last, and each exercise costs
//! attention.
//!
//! Whole points, so that ties for the seed are real.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::tier::Tier;
use crate::model::worth::worths;
use crate::request::Request;
use crate::week::Week;

/// The worth of each pick.
pub(super) struct CoachView;

impl Rule for CoachView {
    fn id(&self) -> &'static str {
        "coach-view"
    }
    fn summary(&self) -> &'static str {
        "liked and well-known lifts come before equals, disliked ones last"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let worths = worths(weekly.request);
        for pick in weekly.picks.clone() {
            let subject = weekly.name_of(&pick);
            weekly.count(self.id(), subject, Tier::View, pick.chosen, worths[pick.candidate]);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let done = week.exercises();
        let disliked =
            request.profile.exercises.avoid.iter().filter(|id| done.contains(id.as_str()));
        disliked
            .map(|id| {
                Finding::broken(self.id(), id.clone(), "left out (avoid)", "in the week")
                    .as_remark()
            })
            .collect()
    }
}
