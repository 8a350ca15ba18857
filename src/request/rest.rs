//! The rest after a set: the dose's, as far as the exercise asks for it.

use super::dose::{Dose, Duty};
use super::standing::{is_bar_on_legs, is_fast_press};
use super::{Candidate, Request};
use crate::words::{Goal, LoadKind, Pattern, Side};

/// Seconds of rest after a set of a candidate that is done by a dose for so many repetitions.
pub(super) fn rest_s(request: &Request, candidate: &Candidate, dose: &Dose, amount: u32) -> u32 {
    let entry = &candidate.entry;
    // A lift whose own range ends under the dose is heavier than the dose means, and wants its rest.
    let cut_short = matches!(candidate.duty, Duty::Main | Duty::Compound) && amount < dose.reps[0];
    let rest_s = if cut_short { dose.rest_s.max(REST_OF_FEW_S) } else { dose.rest_s };
    // What a pull takes is the arms' and back's, not the whole body's.
    let pulls = candidate.pattern.side() == Some(Side::Pull);
    let rest_s = if pulls { rest_s.min(MOST_REST_OF_PULLS_S) } else { rest_s };
    // A press overhead is over before the whole body is tired.
    let overhead = candidate.pattern == Pattern::VerticalPush;
    let rest_s = if overhead { rest_s.min(MOST_REST_OVERHEAD_S) } else { rest_s };
    // A form of the bench comes beside the bench itself.
    let form = candidate.pattern == Pattern::HorizontalPush && entry.variant_of.is_some();
    let rest_s = if form { rest_s.min(MOST_REST_OF_FORMS_S) } else { rest_s };
    let driven = is_fast_press(request, entry);
    let rest_s = if driven { rest_s.min(MOST_REST_DRIVEN_S) } else { rest_s };
    // Nor is a band's, or that of a push-up or bridge, which end long before the lungs do.
    let bare = matches!(entry.load, LoadKind::Bodyweight | LoadKind::Band) && !entry.is_hung();
    let rest_s = if bare { rest_s.min(MOST_REST_WITHOUT_A_LOAD_S) } else { rest_s };
    // A stack that the arms move is set down and taken up again in no time.
    let arms = matches!(candidate.pattern.side(), Some(Side::Push | Side::Pull));
    let by_stack = entry.load == LoadKind::Stack && arms;
    let rest_s = if by_stack { rest_s.min(MOST_REST_OF_STACKS_S) } else { rest_s };
    // A jump or a throw is over in a second; a bar that is caught is not.
    let flies = candidate.pattern.flies();
    let jumps = candidate.pattern == Pattern::Jump && request.profile.goal == Goal::Power;
    let most = if jumps { MOST_REST_OF_JUMPS_FOR_POWER_S } else { MOST_REST_OF_JUMPS_S };
    let rest_s = if flies { rest_s.min(most) } else { rest_s };
    // One leg after the other rests while the other works.
    let in_turn = candidate.pattern == Pattern::Lunge;
    let rest_s = if in_turn { rest_s.min(MOST_REST_OF_LUNGES_S) } else { rest_s };
    let most =
        if request.is_brisk() { brisk_s(candidate.duty) } else { short_s(request, candidate) };
    let rest_s = rest_s.min(most);
    let rest_s = match candidate.duty {
        _ if candidate.pattern == Pattern::Balance => rest_s.min(REST_OF_BALANCE_S),
        Duty::Hold => rest_s.min(REST_OF_HOLDS_S),
        // What is pushed or dragged fast is done fresh.
        Duty::Carry if request.profile.goal == Goal::Power => rest_s.min(REST_FOR_POWER_S),
        Duty::Carry => rest_s.min(REST_OF_CARRIES_S),
        _ => rest_s,
    };
    let lasts = request.profile.goal.rests_briefly();
    let least = if lasts { LEAST_REST_OF_BRIEF_BARS_S } else { LEAST_REST_OF_BARS_S };
    if is_bar_on_legs(entry) { rest_s.max(least) } else { rest_s }
}

/// The least rest after a lift that ends before its dose: common practice.
const REST_OF_FEW_S: u32 = 90;

impl Request {
    /// Whether sessions are short, so that they have to move much: what is heavy or grows by its last sets keeps its rest,
    /// and so does who is 65 or older.
    #[must_use]
    pub(crate) fn is_brisk(&self) -> bool {
        /// Half an hour and a few minutes more, on the mean, and on any day.
        const MEAN_MIN: u32 = 35;
        const MOST_MIN: u32 = 40;
        let days = u32::try_from(self.days.len()).unwrap_or(u32::MAX);
        let minutes: u32 = self.days.iter().map(|day| day.minutes).sum();
        let heavy = matches!(self.profile.goal, Goal::Strength | Goal::Power | Goal::Hypertrophy);
        let heavy = heavy || self.is_senior();
        !heavy && minutes <= MEAN_MIN * days && self.days.iter().all(|day| day.minutes <= MOST_MIN)
    }
}

/// The longest rest of a main lift where every session ends within three quarters of an hour or little more: another exercise
/// is worth more than a minute (Iversen et al. 2021: one to two minutes where time is short).
fn short_s(request: &Request, candidate: &Candidate) -> u32 {
    const SHORT_MIN: u32 = 50;
    let short = request.days.iter().all(|day| day.minutes <= SHORT_MIN);
    match request.profile.goal {
        _ if !short || candidate.duty != Duty::Main => u32::MAX,
        Goal::Hypertrophy => 105,
        Goal::GeneralFitness | Goal::FatLoss => 90,
        Goal::Strength | Goal::Power | Goal::Endurance => u32::MAX,
    }
}

/// The longest rest in such a week: the halves of a pair rest by turns, so that a muscle has twice that. Common practice.
const fn brisk_s(duty: Duty) -> u32 {
    match duty {
        Duty::Main => 60,
        Duty::Compound => 45,
        _ => 30,
    }
}

/// The longest rest after a pull: common practice.
const MOST_REST_OF_PULLS_S: u32 = 150;

/// The longest rest after a press overhead: common practice.
const MOST_REST_OVERHEAD_S: u32 = 180;

/// The longest rest after a form of the bench press: common practice.
const MOST_REST_OF_FORMS_S: u32 = 165;

/// The longest rest after a press overhead where the legs drive it, for speed: common practice.
const MOST_REST_DRIVEN_S: u32 = 105;

/// The longest rest after work with a band or the body's own weight: common practice.
const MOST_REST_WITHOUT_A_LOAD_S: u32 = 75;

/// The longest rest after presses and pulls on a stack: common practice.
const MOST_REST_OF_STACKS_S: u32 = 105;

/// The longest rest after a lunge, of which each leg has half the time: common practice.
const MOST_REST_OF_LUNGES_S: u32 = 90;

/// The longest rest after a jump or throw of few repetitions: common practice.
const MOST_REST_OF_JUMPS_S: u32 = 60;

/// The same of jumps where power is the goal and every one is the best there is: common practice.
const MOST_REST_OF_JUMPS_FOR_POWER_S: u32 = 75;

/// The longest rest after what is pushed or dragged fast: common practice.
const REST_FOR_POWER_S: u32 = 90;

/// The longest rest after standing on one leg, a hold and a carry, which end where attention or grip do: common practice.
const REST_OF_BALANCE_S: u32 = 30;
const REST_OF_HOLDS_S: u32 = 45;
const REST_OF_CARRIES_S: u32 = 60;

/// The least rest after a squat or hinge with the bar: common practice.
const LEAST_REST_OF_BARS_S: u32 = 120;

/// The same where the goal is to lose fat or to last, which rest briefly else: ten and more repetitions of a squat or hinge
/// take a minute to breathe out of (RX-07: 1-2 min after long sets).
const LEAST_REST_OF_BRIEF_BARS_S: u32 = 90;
