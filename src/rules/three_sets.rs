//! `three-sets`: a lift that a day is built on, what is fast, and a lift that is asked for come for three sets.
//!
//! Two sets of a main lift are hardly worth its warm-up; where a week asks for less, it asks for fewer lifts. Common
//! practice. Of who begins late only for what is asked for; not in a very short session, nor where a day follows another
//! closely and trains lightly what that one trained hard.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::at_least;
use crate::model::points::THIN_LIFT;
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::request::candidate::VERY_SHORT_SESSION;
use crate::request::dose::Duty;
use crate::request::{Request, Wish};
use crate::week::{Session, Week};
use crate::words::Goal;

/// Third sets.
pub(super) struct ThreeSets;

/// The fewest sets of a lift that is done in earnest.
const SETS: u32 = 3;

/// Whether three sets are asked of an exercise, on a day that has the time.
fn is_asked(request: &Request, entry: &Entry, day: usize) -> bool {
    let exercises = &request.profile.exercises;
    let wished = [&exercises.must, &exercises.prefer].iter().any(|ids| ids.contains(&entry.id));
    let asked = match Duty::of(entry) {
        // Where lifts go in turn, and from 65 on, two sets of the second and third keep fit: the lead has its own row.
        Duty::Main if !request.trains_heavy() => {
            wished || (request.leads_alone(day) && !request.is_senior())
        }
        Duty::Main | Duty::Explosive => true,
        Duty::Compound | Duty::Carry => wished,
        _ => false,
    };
    let begins_late = request.is_older_beginner() && !exercises.must.contains(&entry.id);
    asked && request.days[day].minutes > VERY_SHORT_SESSION && !begins_late
}

/// Whether a day is fast and far from the limit, which tires little: two sets of a lift are no day's work but before a match.
fn is_fast_day(request: &Request, day: usize) -> bool {
    request.profile.goal == Goal::Power && !request.is_primer(day)
}

/// Whether a day is close to another and trains lightly some of what the exercise trains. What is asked for is not paid
/// with the light day.
fn is_light(weekly: &Weekly, pick: &Pick) -> bool {
    let hard = &weekly.split.days[pick.day].hard;
    let one = weekly.candidate(pick);
    let light = one.wish != Wish::Must && one.entry.direct.iter().any(|one| !hard.contains(one));
    light
        && !is_fast_day(weekly.request, pick.day)
        && weekly.days().any(|other| weekly.request.too_close(pick.day, other))
}

/// The same of a finished week.
fn was_light(request: &Request, week: &Week, session: &Session, entry: &Entry) -> bool {
    if request.profile.exercises.must.contains(&entry.id) || is_fast_day(request, session.day) {
        return false;
    }
    let mut close = week.sessions.iter().filter(|other| request.too_close(session.day, other.day));
    close.any(|other| entry.direct.iter().any(|muscle| other.is_hard_for(*muscle)))
}

impl Rule for ThreeSets {
    fn id(&self) -> &'static str {
        "three-sets"
    }
    fn summary(&self) -> &'static str {
        "main lifts, fast ones and those asked for come for three sets or more"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for pick in weekly.picks.clone() {
            let [fewest, most] = pick.sets;
            let is_asked = is_asked(weekly.request, &weekly.candidate(&pick).entry, pick.day);
            if is_asked && fewest < SETS && most >= SETS && !is_light(weekly, &pick) {
                let lacks = f64::from(SETS - fewest);
                let done = vec![(pick.extra, 1.0), (pick.chosen, -lacks)];
                let wish = at_least(done, 0.0).missed_by(lacks);
                weekly.miss(self.id(), weekly.name_of(&pick), Tier::Ranges, wish, THIN_LIFT);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let asked = session.work().filter(|item| is_asked(request, &item.entry, session.day));
            let asked = asked.filter(|item| !was_light(request, week, session, &item.entry));
            findings.extend(asked.filter(|item| item.sets < SETS).map(|item| {
                let subject = format!("{} {}", item.entry.id, session.label);
                let got = item.sets.to_string();
                Finding::broken(self.id(), subject, "three sets", got).as_shortfall()
            }));
        }
        findings
    }
}
