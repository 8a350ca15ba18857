//! `different-exercises`: the week has no more different exercises than the client can learn.
//!
//! Up to 22 for a beginner, 28 and 40 after (common practice).

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::points::TO_LEARN;
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::Status;

/// Different exercises by week.
pub(super) struct DifferentExercises;

impl Rule for DifferentExercises {
    fn id(&self) -> &'static str {
        "different-exercises"
    }
    fn summary(&self) -> &'static str {
        "the week has no more different exercises than the client can learn"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let used: Vec<Term> = weekly.used.values().map(|used| (*used, 1.0)).collect();
        let asked = weekly.request.profile.exercises.must.len();
        let most =
            f64::from(weekly.request.figures.different.max(u32::try_from(asked).unwrap_or(200)));
        if weekly.request.profile.training_status == Status::Novice {
            for (candidate, used) in weekly.used.clone() {
                let id = weekly.request.candidates[candidate].id.clone();
                weekly.count(self.id(), id, Tier::View, used, TO_LEARN);
            }
        }
        weekly.model.convention(self.id(), "week", used, Op::Le, most);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let most = request.figures.different as usize;
        let done = week.exercises().len();
        (done > most)
            .then(|| {
                let wanted = format!("{most} different exercises at most");
                Finding::broken(self.id(), "week", wanted, done.to_string()).as_remark()
            })
            .into_iter()
            .collect()
    }
}
