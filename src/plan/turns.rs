//! The shape of a week: what comes on several days is heavy on one of them and light on the others.
//!
//! A day's lead lift is its heavier work. Of a pattern that several days train, one day has the heavier turn and the
//! others the lighter one, whether it is the same lift or a relative. Common practice.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use itertools::Itertools as _;

use super::pair_up::Together;
use crate::request::candidate::Candidate;
use crate::request::dose::{self, Duty, FEW_REPS};
use crate::request::resolve::with_dose;
use crate::request::{Request, Wish};
use crate::search::Done;
use crate::words::{Goal, LoadKind, Measure, Pattern, Turn};

/// The turn of each (day, candidate) that has one.
pub type Turns = BTreeMap<(usize, usize), Turn>;

/// The heavier work of each pattern: of main lifts one that can lead a day, rather not before the client's own sport, on
/// a day without a heavy back, a known one, and the one with the most sets; else the first of a main lift that comes twice.
#[must_use]
pub fn heavier(request: &Request, days: &[Vec<Together>]) -> Vec<Done> {
    let mut heavier: Vec<Done> = Vec::new();
    // In the order in which a coach gives them their days: hinges that differ, as the deadlift is the heavier one wherever
    // it stands, what only one day can have, then squats, each on a day of its own where there are days.
    let by_pattern = by_pattern(request, days);
    let leading = |all: &[Done]| all.iter().filter(|done| can_lead(request, done)).count();
    let legs = |done: &Done| request.candidates[done.candidate].is_leg_lift();
    let is_tiring = |all: &[Done]| all.iter().any(legs);
    let differ = |all: &[Done]| {
        let hinges =
            all.iter().all(|done| request.candidates[done.candidate].pattern == Pattern::Hinge);
        hinges && all.iter().map(|done| done.candidate).all_unique()
    };
    let order = |all: &&Vec<Done>| (!is_tiring(all), !differ(all), leading(all));
    for all in by_pattern.values().sorted_by_key(order) {
        let tired = is_tiring(all);
        // A back has one heavy lift a day: squats and hinges stand in each other's way first, and other lifts rather go
        // where nothing is heavy yet.
        // A press overhead follows the bench and is not in its way.
        let lying = all
            .iter()
            .all(|done| request.candidates[done.candidate].pattern == Pattern::HorizontalPush);
        let follows = |other: &Done| {
            lying && request.candidates[other.candidate].pattern == Pattern::VerticalPush
        };
        let taken = |day: usize| {
            let on_day = || heavier.iter().filter(|other| other.day == day && !follows(other));
            let backs = on_day().filter(|other| tired && legs(other));
            (backs.count(), on_day().filter(|other| can_lead(request, other)).count())
        };
        let next = heavier_of(request, all, &taken);
        heavier.extend(next);
    }
    heavier
}

/// The turns of a week whose days are arranged.
#[must_use]
pub fn turns(request: &Request, days: &[Vec<Together>], heavier: &[Done]) -> Turns {
    let leads: BTreeSet<(usize, usize)> =
        days.iter().filter_map(|groups| lead(request, groups)).map(key).collect();
    let mut turns = Turns::new();
    // Who begins late learns each lift at one number of repetitions.
    if request.is_older_beginner() {
        return turns;
    }
    turns.extend(fast_turns(request, days));
    for all in by_pattern(request, days).into_values() {
        for done in all.iter().filter(|done| is_on_an_eve(request, done)) {
            turns.insert(key(done), Turn::Eve);
        }
        let Some(first) = all.iter().find(|done| heavier.contains(done)).copied() else { continue };
        let on_days: BTreeSet<usize> = all.iter().map(|done| done.day).collect();
        let mut light: BTreeSet<usize> = BTreeSet::new();
        for done in &all {
            let turn = match *done == first {
                _ if is_on_an_eve(request, done) => continue,
                true if request.days[done.day].minutes <= SHORT_MINUTES => continue,
                true if on_days.len() > 1 || leads.contains(&key(done)) => Turn::Heavier,
                // A third day of the same lift is as usual: heavy, light, medium.
                false if done.day != first.day && light.insert(done.candidate) => Turn::Lighter,
                _ => continue,
            };
            turns.insert(key(done), turn);
        }
    }
    turns
}

/// A fast lift with the bar that comes again for power is heavy first, and then light and fastest.
fn fast_turns(request: &Request, days: &[Vec<Together>]) -> Turns {
    let is_fast = |done: &&Done| {
        let candidate = &request.candidates[done.candidate];
        candidate.duty == Duty::Explosive && candidate.entry.load == LoadKind::BarTotal
    };
    let mut turns = Turns::new();
    if request.profile.goal != Goal::Power {
        return turns;
    }
    let done: Vec<&Done> = days.iter().flatten().flatten().filter(is_fast).collect();
    for one in &done {
        let others = || done.iter().filter(|other| other.candidate == one.candidate);
        let first = others().map(|other| other.day).min();
        if others().count() > 1 {
            let turn = if Some(one.day) == first { Turn::Heavier } else { Turn::Lighter };
            turns.insert(key(one), turn);
        }
    }
    turns
}

/// Whether a lift comes on the eve of sport that needs its muscles.
fn is_on_an_eve(request: &Request, done: &Done) -> bool {
    request.is_eve_for(&request.candidates[done.candidate].entry, done.day)
}

fn by_pattern(request: &Request, days: &[Vec<Together>]) -> BTreeMap<Pattern, Vec<Done>> {
    let mut by_pattern: BTreeMap<Pattern, Vec<Done>> = BTreeMap::new();
    for done in days.iter().flatten().flatten() {
        let candidate = &request.candidates[done.candidate];
        if takes_turns(candidate) {
            by_pattern.entry(candidate.pattern).or_default().push(*done);
        }
    }
    by_pattern
}

fn key(done: &Done) -> (usize, usize) {
    (done.day, done.candidate)
}

/// Multi-joint work in repetitions that is not there for speed. Help that nobody asked for has no heavier day, nor have
/// push-ups, squats and bridges with the body's own weight, and few repetitions on a bar no lighter one.
fn takes_turns(candidate: &Candidate) -> bool {
    let own = candidate.entry.load == LoadKind::Bodyweight;
    let few = own && (candidate.amount <= FEW_REPS || !candidate.entry.is_hung());
    matches!(candidate.duty, Duty::Main | Duty::Compound)
        && candidate.entry.measure == Measure::Reps
        && (candidate.entry.load != LoadKind::Assisted || candidate.is_wished())
        && !few
}

/// Sessions up to so many minutes have no time for the long rests of a heavier day.
const SHORT_MINUTES: u32 = 30;

/// The first slow lift of a day, where it is a main lift and stands as a lead does.
fn lead<'a>(request: &Request, groups: &'a [Together]) -> Option<&'a Done> {
    let slow = |group: &&Together| {
        group.iter().all(|done| !request.candidates[done.candidate].pattern.is_explosive())
    };
    let first = groups.iter().find(slow)?;
    let is_main = request.candidates[first[0].candidate].duty == Duty::Main;
    let stands = first.len() == 1 || !request.leads_alone(first[0].day);
    (is_main && stands).then(|| &first[0])
}

fn heavier_of(
    request: &Request,
    all: &[Done],
    taken: &dyn Fn(usize) -> (usize, usize),
) -> Option<Done> {
    let candidate = |done: &Done| &request.candidates[done.candidate];
    let twice = |done: &Done| {
        all.iter().any(|other| other.candidate == done.candidate && other.day != done.day)
    };
    let stands = |done: &Done| !done.paired || !request.leads_alone(done.day) || twice(done);
    let is_main =
        |done: &Done| candidate(done).duty == Duty::Main || candidate(done).wish == Wish::Must;
    let main = |done: &&Done| is_main(done) && stands(done);
    // What is made for fewer repetitions is the heavier of two: a deadlift before its Romanian form.
    let most_reps = |done: &Done| candidate(done).entry.reps.last().copied();
    let hinge = all.iter().all(|done| candidate(done).pattern == Pattern::Hinge);
    let minutes = all.iter().map(|done| request.days[done.day].minutes);
    let longest = minutes.max().unwrap_or(0);
    let rank = |done: &&Done| {
        let leads = can_lead(request, done);
        let prime = candidate(done).prime();
        let soon = request.profile.goal != Goal::Power
            && prime.is_some_and(|prime| request.is_before_sport(prime, done.day));
        // A hard day of the back is no reason to spare the knees.
        let eve = match request.profile.goal {
            Goal::Power => request.is_light_eve(done.day),
            _ => prime.is_some_and(|prime| request.is_eve_of(prime, done.day)),
        };
        let before_sport = soon || eve;
        let known = request.profile.known_lifts.contains_key(&candidate(done).id);
        // A form of another lift of the week, such as a paused bench, is the lighter of the two unless it has to come.
        let is_form = candidate(done).wish != Wish::Must
            && all.iter().any(|other| {
                candidate(done).entry.variant_of.as_ref() == Some(&candidate(other).id)
            });
        let asked_for = known || candidate(done).wish == Wish::Must;
        // What should get more has its heavier day first, whatever else that day has.
        let first = candidate(done).is_wished_for_more(request) && !hinge;
        let (backs, all) = if first { (0, 0) } else { taken(done.day) };
        let form = most_reps(done);
        let is_bar = candidate(done).entry.load == LoadKind::BarTotal;
        // A known lift is the heavier one; among hinges the bar is, and the deadlift, known or not.
        let form = if hinge {
            (0, !is_bar, false, form, false, backs)
        } else {
            (backs, !asked_for, is_form, None, !is_bar, 0)
        };
        // Of about as many sets the first day is the heavier one.
        let sets = std::cmp::Reverse(done.sets / 2);
        // The long rests of the heavier day want the longer one.
        let hurried = request.days[done.day].minutes + MUCH_SHORTER <= longest;
        let place = (hurried, all, sets, done.day);
        (is_on_an_eve(request, done), !leads, before_sport, form, most_reps(done), place)
    };
    all.iter().filter(main).min_by_key(rank).copied()
}

/// A day that is so many minutes shorter than another one is hurried beside it.
const MUCH_SHORTER: u32 = 25;

/// Whether a lift can lead a day, as it is done.
fn can_lead(request: &Request, done: &Done) -> bool {
    let candidate = &request.candidates[done.candidate];
    let stands = !done.paired || !request.leads_alone(done.day);
    (candidate.wish == Wish::Must || candidate.leads(request)) && stands
}

/// Candidates with the dose of their turn, by day and place in the request.
#[must_use]
pub fn turned(request: &Request, turns: &Turns) -> BTreeMap<(usize, usize), Candidate> {
    let profile = &request.profile;
    let dosed = turns.iter().map(|(key, turn)| {
        let usual = &request.candidates[key.1];
        let entry = Arc::clone(&usual.entry);
        let dose = dose::for_client(profile, &entry, Some(*turn));
        (*key, with_dose(request, usual.clone(), &dose))
    });
    dosed.collect()
}
