//! What leads a day by a wish, and what has its whole rest there.

use super::Request;
use super::candidate::{Candidate, Wish};
use super::dose::Duty;
use crate::words::{Goal, LoadKind, Pattern, Standing};

impl Request {
    /// Whether a main lift may lead a day because the client likes it, asks for it or wants more of its muscle: a thrust for the glutes,
    /// an incline press for the chest, a pull-up for the lats.
    #[must_use]
    pub fn is_wished_lead(&self, one: &Candidate) -> bool {
        // Rows tire the back that squats and presses for strength stand on.
        let strong = matches!(self.profile.goal, Goal::Strength | Goal::Power);
        let tires = strong && one.pattern == Pattern::HorizontalPull;
        // What is asked for and known, itself or as what it is a form of, may be any main lift.
        let known = |id: &String| self.profile.known_lifts.contains_key(id);
        let is_known = known(&one.id) || one.entry.variant_of.as_ref().is_some_and(known);
        let asked = one.wish == Wish::Must && one.entry.is_hung();
        let wished = one.prime().is_some_and(|prime| self.wants_more(prime));
        let own = asked || (one.is_wished() || wished) && is_known;
        let staple = one.duty == Duty::Main && (own || one.entry.standing == Standing::Staple);
        // Getting up from a chair is what an older beginner asks for it for.
        let rises = self.is_older_beginner() && one.is_wished() && one.is_squat_on_both_legs();
        // Where nothing is heavy, whatever lift is liked may open a day: a swing, a step up, a split squat.
        let slow = one.is_compound() && !one.pattern.is_explosive();
        let liked = !self.trains_heavy() && one.is_wished() && slow;
        rises || liked || staple && !tires && !one.is_each_side() && (one.is_wished() || wished)
    }

    /// Whether it is a form that the client likes of a lift whose load is known, where strength is the goal: the lift itself
    /// leads first, and its form comes after it or on another day.
    #[must_use]
    pub fn is_liked_form(&self, one: &Candidate) -> bool {
        let known = |id: &String| self.profile.known_lifts.contains_key(id);
        // A front squat is to a known back squat what a paused bench is to the bench.
        let squats = one.is_squat_on_both_legs()
            && self
                .candidates
                .iter()
                .any(|other| other.is_squat_on_both_legs() && known(&other.id));
        self.profile.goal == Goal::Strength
            && one.wish != Wish::Must
            && !known(&one.id)
            && (squats || one.entry.variant_of.as_ref().is_some_and(known))
    }

    /// Whether a lift is done for its load, with its whole rest: a main lift with the bar on two legs or arms, or a known
    /// one where size, strength or power is the goal.
    #[must_use]
    pub fn wants_its_rest(&self, one: &Candidate) -> bool {
        let with_the_bar = one.entry.load == LoadKind::BarTotal && !one.is_each_side();
        let on_a_stack = one.entry.load == LoadKind::Stack;
        let known = self.trains_heavy() && self.profile.known_lifts.contains_key(&one.id);
        // Where the legs should be fast, the bench goes in turn with a pull.
        let spare = self.profile.goal == Goal::Power && one.pattern.press_or_row().is_some();
        !spare && one.duty == Duty::Main && (with_the_bar || known && !on_a_stack)
    }
}
