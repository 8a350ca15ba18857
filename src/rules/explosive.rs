//! `explosive-work`: a power goal has three explosive exposures a week, or as many as it has days, fresh.
//!
//! One to three sets of three to six fast repetitions each (ACSM 2009).

use super::{Finding, Force, Rule};
use crate::model::goal::at_least;
use crate::model::points::{
    EXPOSURE_MISSING, FAST_ONCE, JUMPS_ONCE, NO_JUMP, NO_THROW, THROWS_ONCE,
};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::{Goal, LoadKind, Pattern, Role};

/// Days with explosive work.
pub(super) struct ExplosiveWork;

const EXPOSURES: u32 = 3;
/// Explosive exercises of a session at most: a jump and a throw, and in an hour a lift with the bar as well. Common
/// practice.
fn most_a_day(minutes: u32) -> f64 {
    const FULL_SESSION: u32 = 60;
    if minutes >= FULL_SESSION { 3.0 } else { 2.0 }
}

/// Exposures that a request should have.
fn wanted(request: &Request) -> u32 {
    let possible = request
        .eligible_for(Role::Work)
        .any(|entry| entry.pattern.is_some_and(Pattern::is_explosive));
    let days = u32::try_from(request.days.len()).unwrap_or(u32::MAX);
    if request.profile.goal == Goal::Power && possible { EXPOSURES.min(days) } else { 0 }
}

impl ExplosiveWork {
    /// The days on which a movement comes, be it twice.
    fn days_with(&self, weekly: &mut Weekly, name: &str, pattern: Pattern) -> Vec<Term> {
        let days: Vec<usize> = weekly.days().collect();
        let mut found = Vec::new();
        for day in days {
            let of_it = weekly.on(day).filter(|pick| weekly.candidate(pick).pattern == pattern);
            let done: Vec<Term> = of_it.map(|pick| (pick.chosen, 1.0)).collect();
            let label = weekly.request.days[day].label();
            if !done.is_empty() {
                found.push(weekly.if_any(self.id(), format!("{name}_{label}"), label, done));
            }
        }
        found
    }
}

impl Rule for ExplosiveWork {
    fn id(&self) -> &'static str {
        "explosive-work"
    }
    fn summary(&self) -> &'static str {
        "a power goal has three explosive exposures a week, or as many as it has days"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let wanted = wanted(weekly.request);
        if wanted == 0 {
            return;
        }
        let mut exposures: Vec<Term> = Vec::new();
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let done: Vec<Term> = weekly
                .on(day)
                .filter(|pick| weekly.candidate(pick).pattern.is_explosive())
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            let most = most_a_day(weekly.request.days[day].minutes);
            weekly.model.convention(self.id(), label.clone(), done.clone(), Op::Le, most);
            exposures.push(weekly.if_any(self.id(), format!("explosive_{label}"), label, done));
        }
        let wish = at_least(exposures, f64::from(wanted));
        weekly.miss(self.id(), "week", Tier::Ranges, wish, EXPOSURE_MISSING);
        // A fast lift with the bar is trained like any lift: heavier once, lighter and faster once.
        let bar = |pick: &&Pick| {
            let one = weekly.candidate(pick);
            one.pattern.is_explosive() && one.entry.load == LoadKind::BarTotal
        };
        let fast: Vec<Term> =
            weekly.picks.iter().filter(bar).map(|pick| (pick.chosen, 1.0)).collect();
        if fast.len() > 1 {
            let wish = at_least(fast, 2.0).missed_by(2.0);
            weekly.miss(self.id(), "bar", Tier::View, wish, FAST_ONCE);
        }
        for (name, pattern, none, once) in [
            ("jump", Pattern::Jump, NO_JUMP, JUMPS_ONCE),
            ("throw", Pattern::Throw, NO_THROW, THROWS_ONCE),
        ] {
            let of_it =
                weekly.picks.iter().filter(|pick| weekly.candidate(pick).pattern == pattern);
            let of_it: Vec<Term> = of_it.map(|pick| (pick.chosen, 1.0)).collect();
            if of_it.is_empty() {
                continue;
            }
            let wish = at_least(of_it, 1.0).missed_by(1.0);
            weekly.miss(self.id(), name, Tier::View, wish, none);
            if wanted > 1 {
                let wish = at_least(self.days_with(weekly, name, pattern), 2.0).missed_by(2.0);
                weekly.miss(self.id(), format!("{name}s"), Tier::View, wish, once);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let explosive = |session: &&crate::week::Session| {
            session.work().any(|item| item.pattern().is_some_and(Pattern::is_explosive))
        };
        let days = week.sessions.iter().filter(explosive).count();
        let wanted = wanted(request);
        let short = days < wanted as usize;
        short
            .then(|| {
                let wanted = format!("{wanted} days with explosive work");
                Finding::broken(self.id(), "week", wanted, days.to_string()).as_shortfall()
            })
            .into_iter()
            .collect()
    }
}
