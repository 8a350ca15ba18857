//! `coach-view`: liked and well-known lifts come before equals, disliked ones last, and each exercise costs
//! attention.
//!
//! Whole points, so that ties for the seed are real.

use super::usual_sets::usual_sets;
use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::points::{
    MORE_FOR_STRENGTH, MORE_OF_A_LIFT, MORE_OF_A_MAIN_LIFT, PUSHED_SET, THIRD_SMALL_SET,
};
use crate::model::tier::Tier;
use crate::model::worth::worths;
use crate::request::dose::Duty;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Pattern, Side};

/// The worth of each pick.
pub(super) struct CoachView;

/// Points for each set above the fewest: two of many exercises are a week without an idea.
fn set_points(request: &Request, candidate: &Candidate) -> f64 {
    let multi_joint = matches!(candidate.duty, Duty::Main | Duty::Compound);
    let wished = candidate.prime().is_some_and(|prime| request.wants_more(prime));
    let of_pushed = if request.is_pushed(&candidate.id) { PUSHED_SET } else { 0.0 };
    match candidate.duty {
        // A fast lift with a bar is practised, a jump only woken up with.
        Duty::Explosive if request.profile.goal == Goal::Power => {
            if candidate.entry.load == LoadKind::BarTotal { 2.0 * PUSHED_SET } else { PUSHED_SET }
        }
        // Where speed is the goal the legs and what is fast have the sets, and a press or pull three or four.
        Duty::Main
            if request.profile.goal == Goal::Power
                && candidate.pattern.press_or_row().is_some() =>
        {
            MORE_OF_A_LIFT
        }
        // A thrust fills up what squats and pulls leave.
        Duty::Main
            if matches!(request.profile.goal, Goal::Strength | Goal::Power)
                && candidate.pattern == Pattern::HipExtension
                && !wished =>
        {
            of_pushed
        }
        // Pulls keep pace with presses; what is heavy is squatted, pulled off the floor and pressed.
        Duty::Main
            if request.profile.goal == Goal::Strength
                && candidate.pattern.press_or_row() == Some(Side::Pull) =>
        {
            MORE_OF_A_MAIN_LIFT + of_pushed
        }
        Duty::Main if matches!(request.profile.goal, Goal::Strength | Goal::Power) => {
            MORE_FOR_STRENGTH + of_pushed
        }
        // Rounds are dense where minutes are few: three of a lift before another exercise.
        _ if multi_joint && request.is_brisk() => MORE_OF_A_LIFT + PUSHED_SET + of_pushed,
        Duty::Main => MORE_OF_A_MAIN_LIFT + of_pushed,
        _ if multi_joint => MORE_OF_A_LIFT + of_pushed,
        // Steadiness comes from many short tries.
        _ if candidate.pattern == Pattern::Balance => PUSHED_SET,
        _ if usual_sets(request, candidate.duty) < 3 && !wished && !request.is_brisk() => {
            THIRD_SMALL_SET
        }
        _ => 0.0,
    }
}

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
            let candidate = weekly.candidate(&pick);
            let extra = set_points(weekly.request, candidate);
            weekly.count(
                self.id(),
                subject.clone(),
                Tier::View,
                pick.chosen,
                worths[pick.candidate],
            );
            if extra != 0.0 {
                weekly.count(self.id(), subject, Tier::View, pick.extra, extra);
            }
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
