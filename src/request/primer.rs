//! Days beside hard sport where speed is the goal.
//!
//! The eve of a match is a primer, which wakes the body and tires nothing: a jump without a load or a throw, a light
//! press or pull that the client knows, a row with much left, something for the trunk. What is done for eights elsewhere, works one joint or has to
//! be tried out first stands on the other days. The day after hard practice has no slow work for the legs but a step up, and
//! what lowers the body for a few. Common practice.

use super::standing::{is_bar_on_legs, is_pull_off_the_floor};
use super::{Candidate, Request, Wish};
use crate::input::catalog::Entry;
use crate::words::{Goal, Kind, Muscle, Pattern, Side, Status};

/// Of fewer days each is needed for training.
const FROM_DAYS: usize = 3;

impl Request {
    /// Whether a day is a primer: the eve of a match of who is past the first steps and has two other days.
    #[must_use]
    pub fn is_primer(&self, day: usize) -> bool {
        self.profile.goal == Goal::Power
            && self.profile.training_status != Status::Novice
            && self.days.len() >= FROM_DAYS
            && self.is_eve_of_a_match(day)
    }

    /// Whether legs are slow on a day, as they trained hard elsewhere the day before and other days are free of that: who is
    /// to be fast does little with them, and that quickly. Common practice.
    #[must_use]
    pub fn has_slow_legs(&self, day: usize) -> bool {
        let fast =
            self.profile.goal == Goal::Power && self.profile.training_status != Status::Novice;
        let after = |day: usize| self.is_after_sport(Muscle::Quads, day);
        fast && after(day) && !(0..self.days.len()).all(after)
    }

    /// Whether a known pull off the floor is done light and quick on the eve of the match, as the day between is no day
    /// for legs and a squat has the fresh one.
    #[must_use]
    pub fn is_quick_pull(&self, entry: &Entry) -> bool {
        let slow = (0..self.days.len()).any(|day| self.has_slow_legs(day));
        let pull = is_pull_off_the_floor(entry) && self.is_pushed(&entry.id);
        slow && pull && self.has_a_known_squat()
    }

    /// Whether an exercise may stand on a day: any but on a primer and with slow legs, where what a coach insists on may.
    #[must_use]
    pub fn suits(&self, candidate: usize, day: usize) -> bool {
        let one = &self.candidates[candidate];
        let primer = self.is_primer(day) && !self.primes(&one.entry);
        let slow = self.has_slow_legs(day) && self.is_slow_leg_work(&one.entry);
        !self.is_tired_pull(one, day) && (one.wish == Wish::Must || !primer && !slow)
    }

    /// Whether a heavy pull would come the day after sport that pulled as hard, and another day is free of that.
    fn is_tired_pull(&self, one: &Candidate, day: usize) -> bool {
        let pulls = one.is_compound() && one.pattern.side() == Some(Side::Pull);
        let heavy = self.profile.goal == Goal::Strength && pulls;
        let tired = |day: usize| one.prime().is_some_and(|prime| self.is_after_sport(prime, day));
        heavy && tired(day) && !(0..self.days.len()).all(tired)
    }

    /// Whether legs that were driven yesterday had better not do it: all but a step up, and a known pull off the floor where
    /// a known squat has the fresh day.
    fn is_slow_leg_work(&self, entry: &Entry) -> bool {
        match entry.pattern {
            Some(Pattern::Lunge) => entry.family() != "step-up",
            Some(Pattern::Squat | Pattern::HipExtension) => true,
            Some(Pattern::Hinge) => {
                let known = is_pull_off_the_floor(entry) && self.is_pushed(&entry.id);
                !known || !self.has_a_known_squat()
            }
            _ => false,
        }
    }

    /// Whether a squat with the bar is known or liked, which has the fresh day of the legs.
    fn has_a_known_squat(&self) -> bool {
        let squats = |one: &Candidate| {
            one.pattern == Pattern::Squat && is_bar_on_legs(&one.entry) && self.is_pushed(&one.id)
        };
        self.candidates.iter().any(squats)
    }

    fn primes(&self, entry: &Entry) -> bool {
        let lift = entry.kind == Some(Kind::Compound);
        let known = self.is_pushed(&entry.id);
        match entry.pattern {
            // A jump with a load that is not known would have to be found, and the clean has its fresh day.
            Some(Pattern::Jump) => known || !entry.is_loaded(),
            Some(Pattern::ExplosivePull) => false,
            Some(pattern) if pattern.is_explosive() || pattern.is_trunk() => true,
            Some(Pattern::HorizontalPull) => lift,
            Some(Pattern::HorizontalPush) => lift && known,
            _ => known && is_pull_off_the_floor(entry) && self.has_a_known_squat(),
        }
    }
}
