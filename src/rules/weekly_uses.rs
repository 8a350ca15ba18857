//! `weekly-uses`: an exercise is done at most two or three times a week.
//!
//! Three for main lifts of novices and strength goals, two else; trunk and calves are free; where fewer
//! than three exercises of a pattern are usable, half the days (common practice).

use std::collections::BTreeMap;

use super::{Bound, Figure, Finding, Force, Rule, Unit};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;

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
                weekly.model.demand(self.id(), id, terms, Op::Le, most);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut days: BTreeMap<&str, (u32, u32)> = BTreeMap::new();
        for (_, item) in week.work() {
            let most = request.weekly_uses(&item.entry);
            days.entry(&item.entry.id).or_insert((0, most)).0 += 1;
        }
        days.into_iter()
            .filter(|(_, (times, most))| times > most)
            .map(|(id, (times, most))| {
                Finding::broken(
                    self.id(),
                    id,
                    Figure::number(most, Unit::TimesAWeek).bounded(Bound::AtMost),
                    Figure::number(times, Unit::Plain),
                )
            })
            .collect()
    }
}
