//! `exercise-count`: a session has three exercises at least and not more than its minutes carry.
//!
//! One in seven minutes straight or in five and a half paired, and seven or eight in all (common practice).

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::FEW_EXERCISES;
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::figures::{MINUTES_PER_ITEM, MINUTES_PER_PAIRED_ITEM};
use crate::week::{Session, Week};

/// Exercises by day.
pub(super) struct ExerciseCount;

impl Rule for ExerciseCount {
    fn id(&self) -> &'static str {
        "exercise-count"
    }
    fn summary(&self) -> &'static str {
        "a session has three exercises at least and not more than its minutes carry"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let done: Vec<Term> = weekly.on(day).map(|pick| (pick.chosen, 1.0)).collect();
            if done.len() >= 3 {
                let wish = at_least(done.clone(), 3.0).missed_at_most_by(1.0);
                weekly.miss(self.id(), label.clone(), Tier::View, wish, FEW_EXERCISES);
            }
            let most = f64::from(weekly.request.figures.most_items);
            weekly.model.convention(self.id(), label.clone(), done.clone(), Op::Le, most);
            let minutes = f64::from(weekly.request.days[day].minutes);
            let mut carried = done;
            let credit = 1.0 - MINUTES_PER_PAIRED_ITEM / MINUTES_PER_ITEM;
            carried.extend(weekly.on(day).filter_map(|pick| Some((pick.paired?, -credit))));
            let most = (minutes / MINUTES_PER_ITEM).max(2.0);
            weekly.model.convention(self.id(), label, carried, Op::Le, most);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        week.sessions.iter().filter_map(|session| self.session(request, session)).collect()
    }
}

impl ExerciseCount {
    fn session(&self, request: &Request, session: &Session) -> Option<Finding> {
        let groups = session.groups.iter().filter(|group| group.is_work());
        let sizes: Vec<usize> = groups.map(|group| group.items.len()).collect();
        let items: usize = sizes.iter().sum();
        let paired: usize = sizes.iter().filter(|size| **size > 1).sum();
        let minutes = f64::from(request.days[session.day].minutes);
        let few = request.figures.fewest_items as usize;
        let carried =
            as_f64(items - paired) * MINUTES_PER_ITEM + as_f64(paired) * MINUTES_PER_PAIRED_ITEM;
        let over = items > 2 && carried > minutes + 1e-6;
        let wanted = if items < few && as_f64(few) * MINUTES_PER_ITEM <= minutes {
            "three exercises".to_owned()
        } else if over || items > request.figures.most_items as usize {
            format!("no more exercises than {minutes} minutes carry")
        } else {
            return None;
        };
        let place = session.label.clone();
        Some(Finding::broken(self.id(), place, wanted, items.to_string()).as_remark())
    }
}

#[allow(clippy::cast_precision_loss, reason = "a session has a handful of items")]
fn as_f64(count: usize) -> f64 {
    count as f64
}
