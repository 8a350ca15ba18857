//! `sets-per-exercise`: an exercise has two to five sets, two to four for a novice.
//!
//! One set is enough in sessions up to 25 minutes, over 65, and in an easier week (common practice; one set to
//! begin with over 65: Fragala et al. 2019). The bounds of the set variables hold it in the model.

use super::{Finding, Force, Rule, Weeks};
use crate::request::Request;
use crate::week::Week;
use crate::words::Status;

/// Sets by exercise.
pub(super) struct SetsPerExercise;

impl Rule for SetsPerExercise {
    fn id(&self) -> &'static str {
        "sets-per-exercise"
    }
    fn summary(&self) -> &'static str {
        "an exercise has two to five sets, two to four for a novice"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn holds_in(&self) -> Weeks {
        Weeks::Full
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let most = if request.profile.training_status == Status::Novice { 4 } else { 5 };
        let old = request.needs_balance();
        week.work()
            .filter_map(|(session, item)| {
                let short = request.days[session.day].minutes <= 25;
                let least = if short || old { 1 } else { 2 };
                (item.sets < least || item.sets > most).then(|| {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    let wanted = format!("{least} to {most} sets");
                    Finding::broken(self.id(), place, wanted, item.sets.to_string())
                })
            })
            .collect()
    }
}
