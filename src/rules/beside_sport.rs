//! `beside-sport`: what the client's own sport works hard the day before or after is left alone, where another day is free.
//!
//! Calves are sore after the long run, and legs that are to be fresh tomorrow are not trained today. Common practice.

use super::{Figure, Finding, Force, Rule, Unit};
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::EVE_OF_SPORT;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::request::day::A_DAY_H;
use crate::week::Week;
use crate::words::{Muscle, Pattern};

/// Sets by day beside sport.
pub(super) struct BesideSport;

/// More sets than a day ever has.
const MOST: f64 = 60.0;

/// Whether hard sport for a muscle is a day away from a session.
fn is_near(request: &Request, muscle: Muscle, day: usize) -> bool {
    request.hard_elsewhere(muscle).any(|sport| sport.hours_to(&request.days[day]) <= A_DAY_H)
}

/// Whether a muscle had better have another day: its sport is near this one and not near all.
fn waits(request: &Request, muscle: Muscle, day: usize) -> bool {
    let mut days = 0..request.days.len();
    is_near(request, muscle, day) && days.any(|other| !is_near(request, muscle, other))
}

/// Whether it is a jump or a throw, of which a few fresh ones tire nobody.
const fn is_over_in_a_second(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Jump | Pattern::Throw)
}

impl Rule for BesideSport {
    fn id(&self) -> &'static str {
        "beside-sport"
    }
    fn summary(&self) -> &'static str {
        "what the client's sport works hard the day before or after is trained on another day"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let request = weekly.request;
            let waiting = weekly.on(day).filter(|pick| {
                let one = weekly.candidate(pick);
                !is_over_in_a_second(one.pattern)
                    && one.prime().is_some_and(|prime| waits(request, prime, day))
            });
            let sets: Vec<Term> = waiting.flat_map(|pick| pick.sets_times(1.0)).collect();
            if !sets.is_empty() {
                let wish = at_most(sets, 0.0).missed_by(MOST);
                weekly.miss(self.id(), request.days[day].label(), Tier::View, wish, EVE_OF_SPORT);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many sets are worth a remark.
        const MANY_SETS: u32 = 6;
        let found = week.sessions.iter().filter_map(|session| {
            let near = session.work().filter(|item| {
                let prime = item.entry.direct.first();
                let fast = item.pattern().is_some_and(is_over_in_a_second);
                !fast && prime.is_some_and(|prime| waits(request, *prime, session.day))
            });
            let sets: u32 = near.map(|item| item.sets).sum();
            let wanted = "what sport works hard a day away on another day";
            let got = Figure::sets(2 * sets, Unit::Sets);
            let finding = Finding::broken(self.id(), session.label.clone(), wanted, got);
            (sets > MANY_SETS).then(|| finding.as_remark())
        });
        found.collect()
    }
}
