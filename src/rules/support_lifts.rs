//! `support-lifts`: what supports the big lifts of the legs comes once a week.
//!
//! Squats and hinges train the legs where strength, power or size is the goal; one lunge, one leg curl and one calf raise
//! fill what they leave, and one carry is enough for the hands. More of them cost the evening that heavy lifts need. Common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::SUPPORT_AGAIN;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::candidate::Station;
use crate::request::dose::Duty;
use crate::request::standing::loads_both_legs;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Pattern};

/// Support by movement.
pub(super) struct SupportLifts;

/// From so many days on legs have two days of their own or more.
const MANY_DAYS: usize = 4;

/// How often a movement supports a week of the goal at most.
fn most(request: &Request, pattern: Pattern) -> Option<u32> {
    let goal = request.profile.goal;
    let heavy = matches!(goal, Goal::Strength | Goal::Power);
    match pattern {
        // With nothing but dumbbells one leg at a time is what is heavy.
        Pattern::Lunge if goal == Goal::Hypertrophy && !squats_heavy(request) => None,
        Pattern::Lunge if heavy || goal == Goal::Hypertrophy => Some(1),
        // A back for size has one day with a load in front of it; strength has a heavy and a lighter one.
        Pattern::Hinge if goal == Goal::Hypertrophy => Some(1),
        // One that is known or asked for is one of them.
        Pattern::Hinge if heavy => {
            let own = request.candidates.iter().any(|one| is_own_hinge(request, one));
            Some(if goal == Goal::Power { 1 } else { 2 } - u32::from(own))
        }
        Pattern::KneeFlexion | Pattern::PlantarFlexion if heavy => Some(1),
        Pattern::Carry => Some(1),
        // Squats, pulls and jumps leave the hips nothing to thrust for.
        Pattern::HipExtension if goal == Goal::Power => Some(0),
        Pattern::HipExtension if goal == Goal::Strength => {
            Some(u32::from(request.days.len() < MANY_DAYS))
        }
        _ => None,
    }
}

/// Whether a bar or a machine loads both legs.
fn squats_heavy(request: &Request) -> bool {
    request.candidates.iter().any(|one| {
        let big = one.entry.load == LoadKind::BarTotal || matches!(one.station, Station::Fixed(_));
        big && loads_both_legs(&one.entry, Pattern::Squat)
    })
}

/// Whether a hinge is known or asked for, and comes anyway.
fn is_own_hinge(request: &Request, one: &Candidate) -> bool {
    one.pattern == Pattern::Hinge && one.duty == Duty::Main && request.is_pushed(&one.id)
}

/// Whether an exercise is support that nobody asked for.
fn supports(request: &Request, entry: &Entry, pattern: Pattern) -> bool {
    entry.pattern == Some(pattern) && !request.is_pushed(&entry.id)
}

/// Whether the client wants more of what a movement trains first.
fn is_wanted(request: &Request, pattern: Pattern) -> bool {
    request.candidates.iter().any(|one| {
        one.pattern == pattern && one.prime().is_some_and(|prime| request.wants_more(prime))
    })
}

fn limits(request: &Request) -> impl Iterator<Item = (Pattern, u32)> {
    Pattern::ALL.iter().filter_map(move |pattern| {
        let most = most(request, *pattern)?;
        let wanted = is_wanted(request, *pattern);
        // More for the backs of the thighs is one hinge more and no hinge every day: curls are the rest of it.
        let hinges = *pattern == Pattern::Hinge;
        (hinges || !wanted).then_some((*pattern, most + u32::from(wanted)))
    })
}

impl Rule for SupportLifts {
    fn id(&self) -> &'static str {
        "support-lifts"
    }
    fn summary(&self) -> &'static str {
        "what supports the big lifts of the legs comes once a week"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        /// More than a week ever has.
        const MOST: f64 = 14.0;
        for (pattern, most) in limits(weekly.request).collect::<Vec<_>>() {
            let picks = weekly.picks.iter().filter(|pick| {
                let one = weekly.candidate(pick);
                supports(weekly.request, &one.entry, pattern)
            });
            let row: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
            if !row.is_empty() {
                let wish = at_most(row, f64::from(most)).missed_by(MOST);
                weekly.miss(self.id(), pattern.id(), Tier::View, wish, SUPPORT_AGAIN);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many over the most are worth a remark.
        const MANY: u32 = 2;
        let found = limits(request).filter_map(|(pattern, most)| {
            let supports =
                |(_, item): &(_, &crate::week::Item)| supports(request, &item.entry, pattern);
            let times = week.work().filter(supports).count();
            let times = u32::try_from(times).unwrap_or(u32::MAX);
            let wanted = format!("{most} of a kind beside squats and hinges");
            let finding = Finding::broken(self.id(), pattern.id(), wanted, times.to_string());
            (times >= most + MANY).then(|| finding.as_remark())
        });
        found.collect()
    }
}
