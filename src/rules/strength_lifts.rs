//! `strength-lifts`: where strength is the goal, squat, hinge and bench each come as a main lift, and squat and bench
//! on two days from three days a week on, or of two long ones that are apart.
//!
//! What is to get strong is done heavy and at least twice a week (ACSM 2026 overview); one heavy hinge is enough for a
//! back, and from three days on the press overhead is rather done with the bar too (common practice).

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::{MAIN_MISSING, MAIN_ONCE, NO_BAR_PRESS};
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::dose::takes_few_reps;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, LoadKind, Muscle, Pattern, Standing, Status};

/// Main lifts for squat, hinge and bench.
pub(super) struct StrengthLifts;

/// Fewer days have no room for two of each, but two long ones that are apart.
const TWICE_FROM_DAYS: usize = 3;
const LONG_MIN: u32 = 55;

/// A movement, its pattern, and whether it comes on two days.
const LIFTS: [(&str, Pattern, bool); 3] = [
    ("squat", Pattern::Squat, true),
    ("bench", Pattern::HorizontalPush, true),
    ("hinge", Pattern::Hinge, false),
];

/// From so many days on the press overhead is one of the lifts.
const PRESS_FROM_DAYS: usize = 3;

/// Whether an entry is the lift itself: a staple with a bar, from 65 on with any load, or a loaded lift that the client
/// knows where they know none of its kind with the bar.
fn is_lift(request: &Request, entry: &Entry, pattern: Pattern) -> bool {
    let any_load = request.is_senior() || knows_without_bar(request, entry, pattern);
    entry.pattern == Some(pattern)
        && entry.main
        && (entry.load == LoadKind::BarTotal || (any_load && entry.is_loaded()))
        && entry.standing == Standing::Staple
}

/// Whether a client knows a lift, and none of its pattern with the bar.
fn knows_without_bar(request: &Request, entry: &Entry, pattern: Pattern) -> bool {
    let known = &request.profile.known_lifts;
    let with_bar = |id: &String| {
        let entry = request.entries.get(id);
        entry.is_some_and(|one| one.pattern == Some(pattern) && one.load == LoadKind::BarTotal)
    };
    known.contains_key(&entry.id) && !known.keys().any(with_bar)
}

/// Whether an entry trains the lift: the lift that is known without a bar, or one of its kind with a bar.
fn trains(request: &Request, entry: &Entry, pattern: Pattern) -> bool {
    let own = knows_without_bar(request, entry, pattern) && is_lift(request, entry, pattern);
    let with_bar = entry.load == LoadKind::BarTotal && takes_few_reps(entry);
    own || entry.pattern == Some(pattern) && entry.main && with_bar
}

/// The movements of which the client can do the lift.
fn wanted(request: &Request) -> impl Iterator<Item = (&'static str, Pattern, bool)> {
    LIFTS.into_iter().filter(move |(_, pattern, _)| {
        request.profile.goal == Goal::Strength
            && request.candidates.iter().any(|one| is_lift(request, &one.entry, *pattern))
    })
}

/// From 65 on one heavy day of a lift is enough, and who begins on two days has room for twice where one of its kind is known.
fn comes_twice(request: &Request, pattern: Pattern, twice: bool) -> bool {
    let long = request.days.iter().all(|day| day.minutes >= LONG_MIN);
    let known = |one: &Candidate| {
        one.pattern == pattern && request.profile.known_lifts.contains_key(&one.id)
    };
    let learns =
        request.profile.training_status == Status::Novice && !request.candidates.iter().any(known);
    let two = request.days.len() == 2 && long && !learns && !request.too_close(0, 1);
    twice && (request.days.len() >= TWICE_FROM_DAYS || two) && !request.is_senior()
}

/// Whether the bench is trained on each day that presses, in one of its forms: the chest should get more on four days or
/// more.
fn benches_thrice(request: &Request) -> bool {
    const FROM_DAYS: usize = 4;
    let learns = request.profile.training_status == Status::Novice;
    request.profile.goal == Goal::Strength
        && request.wants_more(Muscle::Chest)
        && request.days.len() >= FROM_DAYS
        && !learns
}

impl Rule for StrengthLifts {
    fn id(&self) -> &'static str {
        "strength-lifts"
    }
    fn summary(&self) -> &'static str {
        "where strength is the goal, squat, hinge and bench each come as a main lift, squat and bench on two days of three or of two long ones"
    }
    fn force(&self) -> Force {
        Force::Coverage
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let strength = weekly.request.profile.goal == Goal::Strength;
        let press =
            chosen(weekly, None, &|one| is_lift(weekly.request, &one.entry, Pattern::VerticalPush));
        if strength && weekly.request.days.len() >= PRESS_FROM_DAYS && !press.is_empty() {
            let wish = at_least(press, 1.0);
            weekly.miss(self.id(), "press", Tier::View, wish, NO_BAR_PRESS);
        }
        let bench = |one: &Candidate| {
            let presses = trains(weekly.request, &one.entry, Pattern::HorizontalPush);
            let lift = is_lift(weekly.request, &one.entry, Pattern::HorizontalPush);
            presses
                && one.entry.family() != "incline-press"
                && (lift || one.entry.variant_of.is_some())
        };
        let forms: Vec<Term> =
            chosen(weekly, None, &bench).into_iter().map(|(form, _)| (form, 2.0)).collect();
        if benches_thrice(weekly.request) && forms.len() > 2 {
            let wish = at_least(forms, 6.0).missed_by(6.0);
            weekly.miss(self.id(), "bench_forms", Tier::View, wish, NO_BAR_PRESS);
        }
        for (name, pattern, twice) in wanted(weekly.request).collect::<Vec<_>>() {
            let request = weekly.request;
            let lift = |one: &Candidate| is_lift(request, &one.entry, pattern);
            let done = chosen(weekly, None, &lift);
            if done.is_empty() {
                continue;
            }
            weekly.miss(self.id(), name, Tier::Coverage, at_least(done, 1.0), MAIN_MISSING);
            if comes_twice(weekly.request, pattern, twice) {
                self.on_two_days(weekly, name, pattern);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (name, pattern, twice) in wanted(request) {
            if !week.work().any(|(_, item)| is_lift(request, &item.entry, pattern)) {
                let text = format!("a main lift that is a {name}");
                findings.push(Finding::broken(self.id(), name, text, "none").as_shortfall());
                continue;
            }
            let has = |session: &&crate::week::Session| {
                session.work().any(|item| trains(request, &item.entry, pattern))
            };
            let days = week.sessions.iter().filter(has).count();
            if comes_twice(request, pattern, twice) && days < 2 {
                let text = format!("a {name} with the bar on two days");
                let got = days.to_string();
                findings.push(Finding::broken(self.id(), name, text, got).as_shortfall());
            }
        }
        findings
    }
}

impl StrengthLifts {
    fn on_two_days(&self, weekly: &mut Weekly, name: &str, pattern: Pattern) {
        let request = weekly.request;
        let trains = |one: &Candidate| trains(request, &one.entry, pattern);
        let mut days: Vec<Term> = Vec::new();
        for day in weekly.days() {
            let row = chosen(weekly, Some(day), &trains);
            if row.is_empty() {
                continue;
            }
            let subject = format!("{name}_{}", weekly.request.days[day].label());
            let on = weekly.model.most(format!("on_{subject}"), 1.0);
            let mut row: Vec<Term> = row.into_iter().map(|(var, _)| (var, -1.0)).collect();
            row.push((on, 1.0));
            weekly.model.define(self.id(), subject, row, Op::Le, 0.0);
            days.push((on, 1.0));
        }
        if days.len() >= 2 {
            let subject = format!("{name}_twice");
            weekly.miss(self.id(), subject, Tier::Ranges, at_least(days, 2.0), MAIN_ONCE);
        }
    }
}

/// Picks that a test counts, on a day or in the week.
fn chosen(weekly: &Weekly, day: Option<usize>, test: &dyn Fn(&Candidate) -> bool) -> Vec<Term> {
    let picks = weekly.picks.iter().filter(|pick| day.is_none_or(|day| pick.day == day));
    picks.filter(|pick| test(weekly.candidate(pick))).map(|pick| (pick.chosen, 1.0)).collect()
}
