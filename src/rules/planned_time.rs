//! `planned-time`: a session uses 85-100 % of its minutes, and says its seconds right.
//!
//! Under that only where every target is at its high end, or the plan says why (common practice).

use super::{Finding, Force, Rule, Weeks, to_halves};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::IDLE;
use crate::model::tier::Tier;
use crate::request::Request;
use crate::request::candidate::VERY_SHORT_SESSION;
use crate::week::Week;
use crate::words::Goal;

/// Planned seconds by day and by group.
pub(super) struct PlannedTime;

const LEAST_SHARE: f64 = 0.85;
/// The model aims higher: ramp sets that turn out shorter leave time over.
const AIM: f64 = 0.88;
/// A short session has no minute to lose.
const AIM_OF_SHORT: f64 = 0.92;
/// On the eve of a match a session may be so short, and legs are fresh. Common practice.
const EVE_SHARE: f64 = 0.78;
/// Idle time is counted in begun units of so many seconds, so that lifts which differ by their set-up are equal.
const IDLE_S: f64 = 180.0;
/// From so much under the aim on each unit counts twice: that holds one more exercise.
const VERY_IDLE_S: f64 = 300.0;

/// Whether a session may be short as there is a match the day after. Where speed is the goal and days are few, what is fast
/// and light fills its hour.
fn ends_early(request: &Request, day: usize) -> bool {
    let fast = request.profile.goal == Goal::Power;
    request.is_primer(day) || !fast && request.is_eve_of_a_match(day)
}

impl Rule for PlannedTime {
    fn id(&self) -> &'static str {
        "planned-time"
    }
    fn summary(&self) -> &'static str {
        "a session uses 85-100 % of its minutes, and says its seconds right"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let (seconds, whole) = (weekly.seconds_on(day), &weekly.request.days[day]);
            let eve = ends_early(weekly.request, day);
            let aim = if whole.minutes <= VERY_SHORT_SESSION { AIM_OF_SHORT } else { AIM };
            let share = if eve { EVE_SHARE } else { aim };
            let wanted = f64::from(whole.minutes) * 60.0 * share;
            let least = wanted - f64::from(whole.minutes * 60 - whole.work_s());
            let (label, most) = (whole.label(), whole.minutes);
            let further = least - VERY_IDLE_S;
            for (subject, least) in [(label.clone(), least), (format!("{label}_further"), further)]
            {
                let wish = at_least(seconds.clone(), least).in_whole(IDLE_S);
                let wish = wish.missed_by(f64::from(most));
                weekly.miss(self.id(), subject, Tier::View, wish, IDLE);
            }
        }
    }
    fn holds_in(&self) -> Weeks {
        Weeks::Every
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let full = request
            .targets
            .iter()
            .all(|(muscle, target)| week.halves(*muscle) >= to_halves(target.high));
        let mut findings = Vec::new();
        for session in &week.sessions {
            let limit = f64::from(request.days[session.day].minutes) * 60.0;
            let share = f64::from(session.seconds()) / limit;
            let eve = ends_early(request, session.day);
            let least = if eve { EVE_SHARE } else { LEAST_SHARE };
            if share < least && !full {
                let got = format!("{:.0} %", share * 100.0);
                let wanted = format!("{:.0} % of the minutes used", least * 100.0);
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            for group in &session.groups {
                let counted = group.recounted_s();
                if let Some(said) = group.seconds.filter(|said| *said != counted) {
                    let id = group.items.first().map_or("", |item| item.entry.id.as_str());
                    let place = format!("{}, {id}", session.label);
                    let (wanted, got) = (format!("{counted} s"), format!("{said} s"));
                    findings.push(Finding::broken(self.id(), place, wanted, got));
                }
            }
        }
        findings
    }
}
