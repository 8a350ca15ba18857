//! `arm-work`: for size past the first steps biceps, triceps and side delts have work of their own.
//!
//! Rows and presses give them half a set for each (Pelland et al. 2024), which is little where size is the goal; at
//! least two direct sets a week is common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::at_least;
use crate::model::points::{FEW_OF_ARMS, NO_OWN_WORK};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Emphasis, Goal, Kind, Muscle, Pattern, Role, Status};

/// Direct work by small muscle.
pub(super) struct ArmWork;

const SMALL: [(Muscle, Pattern); 3] = [
    (Muscle::Biceps, Pattern::ElbowFlexion),
    (Muscle::Triceps, Pattern::ElbowExtension),
    (Muscle::SideDelts, Pattern::ShoulderAbduction),
];

/// The muscles that should have work of their own.
fn wanted(request: &Request) -> impl Iterator<Item = (Muscle, Pattern)> {
    let profile = &request.profile;
    let size = profile.goal == Goal::Hypertrophy && profile.training_status != Status::Novice;
    SMALL.into_iter().filter(move |(muscle, _)| match profile.emphasis.get(muscle) {
        Some(Emphasis::More) => true,
        Some(Emphasis::Less) => false,
        None => size,
    })
}

/// Sets of their own that arms get in a week for size, by hand about three in two days. Common practice.
fn own_sets(request: &Request, muscle: Muscle) -> Option<f64> {
    let arms = matches!(muscle, Muscle::Biceps | Muscle::Triceps);
    let for_size = request.profile.goal == Goal::Hypertrophy;
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    let learns = request.profile.training_status == Status::Novice;
    let sets = match muscle {
        // Presses do more for the back of a beginner's arm than pulls for its front.
        Muscle::Triceps if learns => 3,
        _ => days.saturating_mul(3).div_ceil(2).min(MOST_OWN_SETS),
    };
    (arms && for_size).then(|| f64::from(sets))
}

/// The arms of who begins, which have their sets and no range of their own, from three days on.
fn of_a_beginner(request: &Request) -> impl Iterator<Item = (Muscle, Pattern)> {
    let learns = request.profile.training_status == Status::Novice && request.days.len() > 2;
    let wished = |muscle: Muscle| request.wants_less(muscle) || request.wants_more(muscle);
    SMALL.into_iter().filter(move |(muscle, _)| learns && !wished(*muscle))
}

/// More days give arms no more of their own: common practice.
const MOST_OWN_SETS: u32 = 9;

impl ArmWork {
    fn add_sets(&self, weekly: &mut Weekly, muscle: Muscle, pattern: Pattern) {
        let Some(sets) = own_sets(weekly.request, muscle) else { return };
        let own = |pick: &&Pick| serves(&weekly.candidate(pick).entry, pattern);
        let row = weekly.picks.iter().filter(own).flat_map(|pick| pick.sets_times(1.0)).collect();
        let wish = at_least(row, sets);
        weekly.miss(self.id(), format!("{}_sets", muscle.id()), Tier::View, wish, FEW_OF_ARMS);
    }
}

fn serves(entry: &Entry, pattern: Pattern) -> bool {
    entry.pattern == Some(pattern) && entry.kind == Some(Kind::Isolation)
}

impl Rule for ArmWork {
    fn id(&self) -> &'static str {
        "arm-work"
    }
    fn summary(&self) -> &'static str {
        "for size past the first steps biceps, triceps and side delts have work of their own"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (muscle, pattern) in wanted(weekly.request) {
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| serves(&weekly.candidate(pick).entry, pattern))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if done.is_empty() {
                continue;
            }
            let wish = at_least(done, 1.0);
            weekly.miss(self.id(), muscle.id(), Tier::Ranges, wish, NO_OWN_WORK);
            self.add_sets(weekly, muscle, pattern);
        }
        for (muscle, pattern) in of_a_beginner(weekly.request) {
            self.add_sets(weekly, muscle, pattern);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let lacks = wanted(request).filter(|(_, pattern)| {
            request.eligible_for(Role::Work).any(|entry| serves(entry, *pattern))
                && !week.work().any(|(_, item)| serves(&item.entry, *pattern))
        });
        lacks
            .map(|(muscle, _)| {
                Finding::broken(self.id(), muscle.id(), "work of its own", "none").as_shortfall()
            })
            .collect()
    }
}
