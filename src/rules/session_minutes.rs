//! `session-minutes`: a session fits the minutes its day has.
//!
//! Set-up, the way in, ramp sets, work and rests, less the rests that pairs share, with preparation and
//! conditioning set aside.

use super::reason::{AskedBy, Reason};
use super::subject::day_of;
use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::Op;
use crate::request::Request;
use crate::week::Week;

/// Seconds of the day's picks stay inside its working seconds.
pub(super) struct SessionMinutes;

impl Rule for SessionMinutes {
    fn id(&self) -> &'static str {
        "session-minutes"
    }
    fn summary(&self) -> &'static str {
        "a session fits the minutes its day has"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let seconds = weekly.seconds_on(day);
            let day = &weekly.request.days[day];
            let (label, limit) = (day.label(), f64::from(day.work_s()));
            weekly.model.demand(self.id(), label, seconds, Op::Le, limit);
        }
    }
    fn reason(&self, request: &Request, subject: &str) -> Reason {
        let says = day_of(request, subject).map_or_else(Default::default, |day| {
            let (minutes, work) = (request.days[day].minutes, request.days[day].work_s() / 60);
            let warm_up =
                if work < minutes { format!(", {work} of them for work") } else { String::new() };
            [
                format!(" has {minutes} minutes{warm_up}"),
                format!(" have {minutes} minutes each{warm_up}"),
            ]
        });
        Reason { asked_by: AskedBy::Minutes, ..Reason::of_a_day(request, subject, says) }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        week.sessions
            .iter()
            .filter_map(|session| {
                let limit = request.days[session.day].minutes * 60;
                let planned = session.seconds();
                (planned > limit).then(|| {
                    let wanted = format!("{} minutes at most", limit / 60);
                    let got = format!("{} min {} s", planned / 60, planned % 60);
                    Finding::broken(self.id(), session.label.clone(), wanted, got)
                })
            })
            .collect()
    }
}
