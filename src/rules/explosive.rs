//! `explosive-work`: a power goal has three explosive exposures a week, or as many as it has days, fresh.
//!
//! One to three sets of three to six fast repetitions each (ACSM 2009).

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{
    EXPOSURE_MISSING, FAST_ONCE, JUMPS_ONCE, NO_FAST_LOAD, NO_JUMP, NO_SPRING, NO_THROW,
    SQUATTED_ONCE, THROWS_ONCE,
};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::standing::{is_fast_bar, is_pull_off_the_floor, loads_both_legs};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Pattern, Role, Status};

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

    /// A fast lift with the bar is trained like any lift: heavier once, lighter and faster once. The pull off the floor has
    /// another day.
    fn add_bars(&self, weekly: &mut Weekly) {
        let of = |weekly: &Weekly, day: Option<usize>, is_of: fn(&Entry) -> bool| -> Vec<Term> {
            let on_day = |pick: &&Pick| day.is_none_or(|day| pick.day == day);
            let picks = weekly.picks.iter().filter(on_day);
            let picks = picks.filter(|pick| is_of(&weekly.candidate(pick).entry));
            picks.map(|pick| (pick.chosen, 1.0)).collect()
        };
        let fast = of(weekly, None, is_fast_bar);
        if fast.len() > 1 {
            let wish = at_least(fast, 2.0).missed_by(2.0);
            weekly.miss(self.id(), "bar", Tier::View, wish, FAST_ONCE);
        }
        for day in weekly.days() {
            let (fast, pulls) =
                (of(weekly, Some(day), is_fast_bar), of(weekly, Some(day), is_pull_off_the_floor));
            if !fast.is_empty() && !pulls.is_empty() {
                let label = weekly.request.days[day].label();
                let wish = at_most([fast, pulls].concat(), 1.0).missed_by(3.0);
                let subject = format!("{label}_bar");
                weekly.miss(self.id(), subject, Tier::View, wish, FAST_ONCE);
            }
        }
    }

    /// What is known of the fast lifts has a day of fresh legs, and such a day no second throw.
    fn add_fresh(&self, weekly: &mut Weekly) {
        let request = weekly.request;
        let fresh = |day: usize| !request.has_slow_legs(day) && !request.is_primer(day);
        if weekly.days().all(fresh) {
            return;
        }
        let known = |entry: &Entry| is_fast_bar(entry) && request.is_pushed(&entry.id);
        let bars = weekly
            .picks
            .iter()
            .filter(|pick| fresh(pick.day) && known(&weekly.candidate(pick).entry));
        let bars: Vec<Term> = bars.map(|pick| (pick.chosen, 1.0)).collect();
        if !bars.is_empty() {
            let wish = at_least(bars, 1.0).missed_by(1.0);
            weekly.miss(self.id(), "fresh_bar", Tier::View, wish, SQUATTED_ONCE);
        }
        for day in weekly.days().filter(|day| fresh(*day)).collect::<Vec<_>>() {
            let throws =
                weekly.on(day).filter(|pick| weekly.candidate(pick).pattern == Pattern::Throw);
            let throws: Vec<Term> = throws.map(|pick| (pick.chosen, 1.0)).collect();
            if throws.len() > 1 {
                let label = request.days[day].label();
                let wish = at_most(throws, 1.0).missed_by(2.0);
                weekly.miss(self.id(), format!("{label}_throws"), Tier::View, wish, THROWS_ONCE);
            }
        }
    }

    /// Of three days and more two have a squat with a load on both legs, past the first steps: heavy once, and quick once.
    fn add_squats(&self, weekly: &mut Weekly) {
        const DAYS: usize = 3;
        let learns = weekly.request.profile.training_status == Status::Novice;
        let squats = |pick: &&Pick| loads_both_legs(&weekly.candidate(pick).entry, Pattern::Squat);
        let row: Vec<Term> =
            weekly.picks.iter().filter(squats).map(|pick| (pick.chosen, 1.0)).collect();
        // Where the day between two matches and practices is none for legs, the pull has the other.
        let slow = weekly.days().any(|day| weekly.request.has_slow_legs(day));
        if weekly.request.days.len() >= DAYS && !learns && !slow && row.len() > 1 {
            let wish = at_least(row, 2.0).missed_by(2.0);
            weekly.miss(self.id(), "squats", Tier::View, wish, SQUATTED_ONCE);
        }
    }

    /// Past the first steps each day has something fast under a load: a lift with the bar, or a jump with a weight.
    fn add_loaded(&self, weekly: &mut Weekly) {
        let is_fast = |entry: &Entry| {
            entry.load != LoadKind::Bodyweight
                && matches!(entry.pattern, Some(Pattern::Jump | Pattern::ExplosivePull))
        };
        for day in weekly.days() {
            let fast = weekly.on(day).filter(|pick| is_fast(&weekly.candidate(pick).entry));
            let done: Vec<Term> = fast.map(|pick| (pick.chosen, 1.0)).collect();
            // A primer wakes the legs with nothing in the hands.
            let loads = weekly.request.profile.training_status != Status::Novice
                && !weekly.request.is_primer(day);
            if !done.is_empty() && loads {
                let label = weekly.request.days[day].label();
                let wish = at_least(done, 1.0).missed_by(1.0);
                weekly.miss(self.id(), format!("{label}_loaded"), Tier::View, wish, NO_FAST_LOAD);
            }
        }
    }

    /// Each day begins with a jump or a throw, the first one with a jump without a load, while the legs are fresh, and the eve
    /// of a match, to wake them; who learns jumps every time.
    fn add_springs(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let learns = weekly.request.profile.training_status == Status::Novice;
            let jumps = day == 0 || learns || weekly.request.is_primer(day);
            let springs = |pick: &&Pick| match weekly.candidate(pick).pattern {
                Pattern::Jump => true,
                Pattern::Throw => !jumps,
                _ => false,
            };
            let free = |pick: &&Pick| springs(pick) && !weekly.candidate(pick).entry.is_loaded();
            let bare = jumps && weekly.on(day).any(|pick| free(&pick));
            let done: Vec<Term> = weekly
                .on(day)
                .filter(|pick| if bare { free(pick) } else { springs(pick) })
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if !done.is_empty() {
                let wish = at_least(done, 1.0).missed_by(1.0);
                weekly.miss(self.id(), format!("{label}_spring"), Tier::View, wish, NO_SPRING);
            }
        }
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
        self.add_bars(weekly);
        self.add_fresh(weekly);
        self.add_squats(weekly);
        self.add_springs(weekly);
        self.add_loaded(weekly);
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
