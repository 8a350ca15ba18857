//! `recovery`: two sessions that are hard for a muscle are the client's recovery hours apart.
//!
//! From start to start with three hours' grace, over the turn of the week. The split says which muscle-days
//! may be hard; the others of a day stay under the hard threshold.

use super::reason::{Reason, keys};
use super::relaxation::Relaxation;
use super::{Figure, Finding, Force, Rule, Unit};
use crate::input::profile::{SplitChoice, SplitName};
use crate::model::Weekly;
use crate::program::Op;
use crate::request::Request;
use crate::request::day::GRACE_H;
use crate::request::figures::{HARD_DIRECT, HARD_HALVES};
use crate::split::design::{is_always_near_sport, is_near_sport};
use crate::week::{Session, Week};
use crate::words::Muscle;

/// Muscle-days that the split does not make hard stay under the threshold.
pub(super) struct Recovery;

const ID: &str = "recovery";
/// Hours after work to failure (Moran-Navarro et al. 2017: recovery is slower by a day or two).
const AFTER_FAILURE_H: f64 = 72.0;

impl Rule for Recovery {
    fn id(&self) -> &'static str {
        ID
    }
    fn summary(&self) -> &'static str {
        "two sessions that are hard for a muscle are the client's recovery hours apart"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                let Some(most) = most_of(weekly, muscle, day) else { continue };
                let subject = format!("{muscle}_{}", weekly.request.days[day].label());
                let direct = weekly.direct_on(muscle, day);
                if direct.is_empty() {
                    continue;
                }
                let [most_direct, most_halves] = most.map(f64::from);
                weekly.model.demand(ID, subject.clone(), direct, Op::Le, most_direct);
                let halves = weekly.halves_on(muscle, day);
                weekly.model.demand(ID, subject, halves, Op::Le, most_halves);
            }
        }
    }
    fn reason(&self, request: &Request, subject: &str) -> Reason {
        let apart = format!("hard sessions are {} h apart", request.profile.recovery_hours);
        let says = [format!(" stays light: its {apart}"), format!(" stay light: their {apart}")];
        Reason { path: keys(["recovery_hours"]), ..Reason::of_a_day(request, subject, says) }
    }
    fn relaxations(&self, _request: &Request, _subject: &str) -> Vec<Relaxation> {
        Vec::new()
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let asked = match &request.profile.split {
            SplitChoice::Own(_) => true,
            SplitChoice::Named(name) => *name != SplitName::Auto,
        };
        let mut findings = Vec::new();
        for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
            let hard: Vec<&Session> =
                week.sessions.iter().filter(|session| session.is_hard_for(muscle)).collect();
            for (place, one) in hard.iter().enumerate() {
                findings.extend(beside_sport(request, muscle, one));
                let others = &hard[place + 1..];
                findings
                    .extend(others.iter().filter_map(|other| between(request, muscle, one, other)));
            }
        }
        findings.into_iter().map(|one| if asked { one.as_remark() } else { one }).collect()
    }
}

/// What two hard sessions for a muscle miss: a breach where they are closer than the client's hours, a remark where
/// one of them went to failure and the next comes within three days.
fn between(request: &Request, muscle: Muscle, one: &Session, other: &Session) -> Option<Finding> {
    let hours = request.days[one.day].hours_to(&request.days[other.day]);
    let place = format!("{muscle}, {} and {}", one.label, other.label);
    let got = Figure::number(hours.round(), Unit::Hours);
    if request.too_close(one.day, other.day) {
        let wanted = format!("{} h between hard sessions", request.profile.recovery_hours);
        return Some(Finding::broken(ID, place, wanted, got));
    }
    let soon = |before: &Session, after: &Session| {
        to_failure(before, muscle)
            && hours_after(request, before, after) < AFTER_FAILURE_H - GRACE_H
    };
    (soon(one, other) || soon(other, one)).then(|| {
        let wanted = format!("{AFTER_FAILURE_H:.0} h after work to failure");
        Finding::broken(ID, place, wanted, got).as_remark()
    })
}

/// Whether a session takes a set of a muscle to failure.
fn to_failure(session: &Session, muscle: Muscle) -> bool {
    session.work().any(|item| item.rir == Some(0) && item.entry.direct.contains(&muscle))
}

/// Hours from one session's start to the next start of another, over the turn of the week.
pub(super) fn hours_after(request: &Request, before: &Session, after: &Session) -> f64 {
    const WEEK_MIN: u32 = 7 * 24 * 60;
    let (from, to) = (request.days[before.day].start_min, request.days[after.day].start_min);
    f64::from((to + WEEK_MIN - from) % WEEK_MIN) / 60.0
}

/// Direct sets and halves of what is not hard.
const LIGHT: [u32; 2] = [HARD_DIRECT - 1, HARD_HALVES - 1];
/// Those beside hard sport: one lift with its three sets, as two are hardly worth a warm-up. Common practice.
const BESIDE_SPORT: [u32; 2] = [HARD_DIRECT, HARD_HALVES + 1];

/// Those of a hard day where sport is near every day of the week, so that no other day is there for it: two lifts of three and four
/// sets. Common practice.
const AMONG_SPORT: [u32; 2] = [2 * HARD_DIRECT + 2, 4 * HARD_HALVES];

/// The most of a muscle on a day that is near hard sport for it.
fn most_beside_sport(request: &Request, muscle: Muscle) -> [u32; 2] {
    if is_always_near_sport(request, muscle) { AMONG_SPORT } else { BESIDE_SPORT }
}

/// Hard sport on the side leaves room for one lift.
fn beside_sport(request: &Request, muscle: Muscle, session: &Session) -> Option<Finding> {
    let [direct, halves] = most_beside_sport(request, muscle);
    let over = session.direct(muscle) > direct || session.halves(muscle) > halves;
    (over && is_near_sport(request, muscle, session.day)).then(|| {
        let wanted = format!("{} h from hard training elsewhere", request.profile.recovery_hours);
        Finding::broken(ID, format!("{muscle}, {}", session.label), wanted, "a hard session nearer")
    })
}

/// Whether a muscle stays light on a day because another day, too close to this one, may be hard for it.
pub(super) fn is_kept_light(weekly: &Weekly, muscle: Muscle, day: usize) -> bool {
    let hard = |day: usize| weekly.split.days[day].hard.contains(&muscle);
    !hard(day) && weekly.days().any(|other| hard(other) && weekly.request.too_close(day, other))
}

/// The most direct sets and halves of a muscle on a day where the split does not make it hard, and a hard session would
/// stand too close to another one or to other training.
fn most_of(weekly: &Weekly, muscle: Muscle, day: usize) -> Option<[u32; 2]> {
    let is_hard = weekly.split.days[day].hard.contains(&muscle);
    let close = |other: usize| weekly.request.too_close(day, other);
    let is_near = is_near_sport(weekly.request, muscle, day);
    if !is_hard && weekly.days().any(close) && !has_one_lift(weekly, muscle, day) {
        Some(LIGHT)
    } else {
        is_near.then(|| most_beside_sport(weekly.request, muscle))
    }
}

/// Whether a day beside hard sport has the one lift of a muscle that the split makes hard on no day close by: of days that
/// follow each other the first.
fn has_one_lift(weekly: &Weekly, muscle: Muscle, day: usize) -> bool {
    let request = weekly.request;
    let hard = |day: usize| weekly.split.days[day].hard.contains(&muscle);
    let close = |one: usize, other: usize| one != other && request.too_close(one, other);
    let open = |day: usize| {
        let crowded = weekly.days().any(|other| hard(other) && close(day, other));
        is_near_sport(request, muscle, day) && !hard(day) && !crowded
    };
    let mut given: Vec<usize> = Vec::new();
    for one in weekly.days().filter(|one| open(*one)) {
        if !given.iter().any(|earlier| close(*earlier, one)) {
            given.push(one);
        }
    }
    given.contains(&day)
}
