//! `before-sport`: what the client's own sport works hard is not trained hard in the two days and a half before it, where another
//! day of the week is free of that.
//!
//! After the sport there are days to recover in; before it, heavy legs are carried into it. Common practice.

use super::{Figure, Finding, Force, Rule, Unit};
use crate::input::catalog::Entry;
use crate::model::goal::at_most;
use crate::model::points::HEAVY_BEFORE_SPORT;
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::Request;
use crate::request::candidate::felt_by;
use crate::week::Week;
use crate::words::{Goal, Kind, LoadKind, Muscle, Pattern, Status};

/// Sets by day before sport.
pub(super) struct BeforeSport;

/// Sets that such a day holds without a thought: one light exercise on the eve, two before.
const FEW_SETS: u32 = 3;

fn few_sets(request: &Request, day: usize) -> u32 {
    if request.is_eve_of_sport(day) { FEW_SETS } else { 2 * FEW_SETS }
}

/// More sets than a day ever has over that.
const MOST_OVER: f64 = 30.0;

/// Whether an exercise is felt the day after: a lift and no jump or throw, or the body lowered by the backs of the thighs.
/// Who sprints keeps a few of these through the season, on any day but the eve of a match.
fn is_tiring(request: &Request, entry: &Entry, day: usize) -> bool {
    let flies = entry.pattern.is_some_and(Pattern::flies);
    let lowered = is_lowered(entry) && !keeps_in_season(request, entry, day);
    (entry.kind == Some(Kind::Compound) && !flies) || lowered
}

/// Whether small work for the backs and insides of the thighs is kept beside sport, as speed is the goal past the first steps:
/// what is trained all through the season is not sore, and what is not tears. Common practice.
pub(super) fn keeps_in_season(request: &Request, entry: &Entry, day: usize) -> bool {
    let small = entry.kind == Some(Kind::Isolation)
        && matches!(entry.pattern, Some(Pattern::KneeFlexion | Pattern::HipAdduction));
    let past = request.profile.training_status != Status::Novice;
    let fast = request.profile.goal == Goal::Power && past;
    small && fast && !request.is_eve_of_a_match(day)
}

/// Whether the body is lowered by the backs of the thighs, which is felt for days.
pub(super) fn is_lowered(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::KneeFlexion) && entry.load == LoadKind::Bodyweight
}

/// How often a set counts.
fn times(entry: &Entry) -> u32 {
    1 + u32::from(is_lowered(entry))
}

/// The days before hard sport, where the week has others, and whether a day is one of them for a muscle.
fn days(request: &Request) -> impl Iterator<Item = usize> {
    let before = |day: &usize| Muscle::ALL.iter().any(|one| request.is_before_sport(*one, *day));
    let all = 0..request.days.len();
    let other = all.clone().any(|day| !before(&day));
    all.filter(move |day| other && before(day))
}

impl Rule for BeforeSport {
    fn id(&self) -> &'static str {
        "before-sport"
    }
    fn summary(&self) -> &'static str {
        "what the client's sport works hard is not trained hard in the two days and a half before it"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in days(weekly.request).collect::<Vec<_>>() {
            let tires = |pick: &&Pick| {
                let one = weekly.candidate(pick);
                is_tiring(weekly.request, &one.entry, day)
                    && felt_by(&one.entry).any(|one| weekly.request.is_before_sport(one, day))
            };
            let sets = weekly
                .on(day)
                .filter(tires)
                .flat_map(|pick| pick.sets_times(f64::from(times(&weekly.candidate(pick).entry))));
            let sets: Vec<Term> = sets.collect();
            if !sets.is_empty() {
                let label = weekly.request.days[day].label();
                let wish =
                    at_most(sets, f64::from(few_sets(weekly.request, day))).missed_by(MOST_OVER);
                weekly.miss(self.id(), label, Tier::View, wish, HEAVY_BEFORE_SPORT);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many sets over the few are worth a remark.
        const MORE_SETS: u32 = 2;
        let before: Vec<usize> = days(request).collect();
        let sessions = week.sessions.iter().filter(|session| before.contains(&session.day));
        let found = sessions.filter_map(|session| {
            let tires = |item: &&crate::week::Item| {
                is_tiring(request, &item.entry, session.day)
                    && felt_by(&item.entry).any(|one| request.is_before_sport(one, session.day))
            };
            let work = session.work().filter(tires);
            let sets: u32 = work.map(|item| times(&item.entry) * item.sets).sum();
            let wanted = "few hard sets for what the sport works hard soon after";
            let got = Figure::sets(2 * sets, Unit::Sets);
            let finding = Finding::broken(self.id(), session.label.clone(), wanted, got);
            (sets >= few_sets(request, session.day) + MORE_SETS).then(|| finding.as_remark())
        });
        found.collect()
    }
}
