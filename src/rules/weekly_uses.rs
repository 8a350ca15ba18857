//! `weekly-uses`: an exercise is done at most two or three times a week.
//!
//! Three for main lifts of novices and strength goals, two else; trunk and calves are free; where fewer
//! than three exercises of a pattern are usable, half the days (common practice).

use std::collections::BTreeMap;

use super::left::left;
use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::resolve::uses;
use crate::week::Week;
use crate::words::{Goal, Status};

/// Days with the exercise, by exercise.
pub(super) struct WeeklyUses;

impl Rule for WeeklyUses {
    fn id(&self) -> &'static str {
        "weekly-uses"
    }
    fn summary(&self) -> &'static str {
        "an exercise is done at most two or three times a week"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let mut days: BTreeMap<usize, Vec<Term>> = BTreeMap::new();
        for pick in &weekly.picks {
            days.entry(pick.candidate).or_default().push((pick.chosen, 1.0));
        }
        for (candidate, terms) in days {
            let exercise = &weekly.request.candidates[candidate];
            if terms.len() > exercise.uses as usize {
                let (id, most) = (exercise.id.clone(), f64::from(exercise.uses));
                weekly.model.row(self.id(), id, terms, Op::Le, most);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut days: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
        for (_, item) in week.work() {
            let most = most_uses(request, &item.entry);
            days.entry(&item.entry.id).or_insert((0, most)).0 += 1;
        }
        days.into_iter()
            .filter(|(_, (times, most))| times > most)
            .map(|(id, (times, most))| {
                Finding::broken(
                    self.id(),
                    id,
                    format!("{most} times a week at most"),
                    times.to_string(),
                )
            })
            .collect()
    }
}

/// How often a week an entry may be done, by what kit, limits and level leave of its pattern.
fn most_uses(request: &Request, entry: &Entry) -> u32 {
    let profile = &request.profile;
    let often = profile.training_status == Status::Novice || profile.goal == Goal::Strength;
    let of_pattern = left(request).filter(|other| other.pattern == entry.pattern).count();
    let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    uses(entry, often, count(of_pattern), count(request.days.len()))
}
