//! `exercise-count`: a session has three exercises at least and not more than its minutes carry.
//!
//! In forty minutes five are usual, in an hour six, and one more is the most, in half an hour two; for a beginner seven,
//! and up to nine where nine minutes are left for each (common practice).

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{FEW_EXERCISES, ONE_TOO_MANY, ROOM_LEFT};
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::figures::MINUTES_PER_ITEM;
use crate::week::{Session, Week};
use crate::words::Goal;

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
            let usual = f64::from(usual_items(weekly.request, day));
            if f64::from(u32::try_from(done.len()).unwrap_or(u32::MAX)) > usual {
                let wish = at_least(done.clone(), usual).missed_by(usual);
                weekly.miss(self.id(), format!("{label}_usual"), Tier::View, wish, ROOM_LEFT);
                let wish = at_most(done.clone(), usual).missed_by(usual);
                weekly.miss(self.id(), format!("{label}_crowd"), Tier::View, wish, ONE_TOO_MANY);
            }
            let most = f64::from(most_items(weekly.request, day));
            weekly.model.convention(self.id(), label, done, Op::Le, most);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        week.sessions.iter().filter_map(|session| self.session(request, session)).collect()
    }
}

impl ExerciseCount {
    fn session(&self, request: &Request, session: &Session) -> Option<Finding> {
        let items = u32::try_from(session.work().count()).unwrap_or(u32::MAX);
        let minutes = request.days[session.day].minutes;
        let few = request.figures.fewest_items;
        let wanted = if items < few && f64::from(few) * MINUTES_PER_ITEM <= f64::from(minutes) {
            "three exercises".to_owned()
        } else if items > most_items(request, session.day) {
            format!("no more exercises than {minutes} minutes carry")
        } else {
            return None;
        };
        let place = session.label.clone();
        Some(Finding::broken(self.id(), place, wanted, items.to_string()).as_remark())
    }
}

/// The exercises that a coach writes into so many minutes: for few heavy repetitions one less.
fn usual_items(request: &Request, day: usize) -> u32 {
    /// Up to so many minutes heavy lifts are as many, as small work has fewer sets beside them.
    const AS_MANY_MIN: u32 = 60;
    let minutes = request.days[day].minutes;
    let strong = matches!(request.profile.goal, Goal::Strength | Goal::Power);
    let heavy = strong && minutes > AS_MANY_MIN;
    // Two sets of each leave a beginner from 65 on the time for one exercise more.
    let more = u32::from(request.is_older_beginner()) + of_size(request, minutes);
    let usual = usual_in(minutes) + more - u32::from(heavy);
    usual.min(most_items(request, day))
}

/// One more where size is the goal and pairs of small work end an hour or more, past the first steps.
fn of_size(request: &Request, minutes: u32) -> u32 {
    const AN_HOUR: u32 = 60;
    u32::from(request.builds_size() && minutes >= AN_HOUR)
}

/// The exercises that are usual in so many minutes.
const fn usual_in(minutes: u32) -> u32 {
    match minutes {
        0..=20 => 3,
        21..=30 => 4,
        31..=40 => 5,
        41..=60 => 6,
        61..=80 => 7,
        81..=100 => 8,
        _ => 9,
    }
}

/// The most exercises of a day: one or two more than usual, and what its minutes carry.
fn most_items(request: &Request, day: usize) -> u32 {
    /// More than usual by so many is still a session and no list; small work in a short one is quick.
    const OVER_USUAL: u32 = 1;
    const OVER_USUAL_WHEN_SHORT: u32 = 2;
    const SHORT_MINUTES: u32 = 30;
    /// One exercise in so many minutes is no crowd, up to so many.
    const UNHURRIED: u32 = 9;
    const MOST_FOR_BEGINNERS: u32 = 9;
    let minutes = request.days[day].minutes;
    let more = f64::from(u32::from(request.is_older_beginner()));
    let carried = f64::from(minutes) / MINUTES_PER_ITEM + 1.0 + more;
    let usual = request.figures.most_items;
    let most = usual.max((minutes / UNHURRIED).min(MOST_FOR_BEGINNERS));
    let over = if minutes <= SHORT_MINUTES { OVER_USUAL_WHEN_SHORT } else { OVER_USUAL };
    let over = over + u32::from(request.is_older_beginner()) + of_size(request, minutes);
    let most = most.min(usual_in(minutes) + over);
    let most = (1..=most).rev().find(|most| f64::from(*most) <= carried);
    most.unwrap_or(1).max(2)
}
