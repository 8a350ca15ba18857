//! `reserve`: effort, repetitions, rests and tempo are a coach's numbers.
//!
//! At least two repetitions in reserve for a novice and one on squats, hinges and overhead presses; isolation
//! from eight repetitions; a bar squat, hinge or press up to twelve; holds of 15-60 s; explosive work up to six;
//! rests in steps of 15 s; up to ten seconds a repetition (Schoenfeld et al. 2015). Common practice else.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::eligibility::has_kit;
use crate::timing::tempo_s;
use crate::week::{Item, Week};
use crate::words::{Goal, Kind, Kit, LoadKind, Measure, Pattern, Status};

/// Numbers by item.
pub(super) struct Reserve;

/// Fewer repetitions in reserve are near failure.
const NEAR_FAILURE: u32 = 2;
/// Repetitions to failure at 80 % of the maximum.
const REPS_AT_80: u32 = 8;

impl Rule for Reserve {
    fn id(&self) -> &'static str {
        "reserve"
    }
    fn summary(&self) -> &'static str {
        "effort, repetitions, rests and tempo are a coach's numbers"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (session, item) in week.work() {
            let place = format!("{}, {}", session.label, item.entry.id);
            let mut remark = |wanted: String, got: String| {
                findings.push(Finding::broken(self.id(), place.clone(), wanted, got).as_remark());
            };
            let least = least_reserve(request, item);
            if let Some(rir) = item.rir.filter(|rir| *rir < least) {
                remark(format!("{least} repetitions in reserve"), rir.to_string());
            }
            let (low, high) = usual_amounts(item);
            if let Some(odd) = item.amounts.iter().find(|amount| **amount < low || **amount > high)
            {
                remark(format!("{low} to {high} {}", item.entry.measure), odd.to_string());
            }
            if item.rest_s % 15 != 0 {
                remark("rests in steps of 15 s".to_owned(), format!("{} s", item.rest_s));
            }
            if is_near_failure_under_a_bar(request, item) {
                let got = "near failure under a bar without safety arms";
                remark(
                    "two repetitions in reserve where someone trains alone".to_owned(),
                    got.to_owned(),
                );
            }
            if is_too_light_for_strength(request, item) {
                let reps = item.amounts.iter().max().copied().unwrap_or(0);
                let got = format!("{reps} with {} in reserve", item.rir.unwrap_or(0));
                remark("a main lift from 80 % of the maximum".to_owned(), got);
            }
            let tempo = item.tempo.as_deref().and_then(tempo_s).unwrap_or(0);
            if tempo > 10 {
                remark("ten seconds a repetition at most".to_owned(), format!("{tempo} s"));
            }
        }
        findings
    }
}

fn least_reserve(request: &Request, item: &Item) -> u32 {
    let big =
        matches!(item.pattern(), Some(Pattern::Squat | Pattern::Hinge | Pattern::VerticalPush));
    request.figures.least_rir.max(u32::from(big && item.is_compound()))
}

/// A squat or bench press with a bar, near failure, at a place without safety arms.
fn is_near_failure_under_a_bar(request: &Request, item: &Item) -> bool {
    let under = matches!(item.pattern(), Some(Pattern::Squat | Pattern::HorizontalPush));
    let bar = item.entry.load == LoadKind::BarTotal;
    let near = item.rir.is_some_and(|rir| rir < NEAR_FAILURE);
    under && bar && near && !has_kit(&request.profile, Kit::SafetyArms)
}

/// Past novice a main lift for strength is done from 80 % of the maximum (ACSM 2026 overview), which eight
/// repetitions to failure take (NSCA table).
fn is_too_light_for_strength(request: &Request, item: &Item) -> bool {
    let strong =
        request.profile.goal == Goal::Strength && request.profile.training_status != Status::Novice;
    let lift = item.entry.main && item.entry.load == LoadKind::BarTotal;
    let most = item.amounts.iter().max().copied().unwrap_or(0);
    let to_failure = most + item.rir.unwrap_or(0);
    strong && lift && !item.pattern().is_some_and(Pattern::is_explosive) && to_failure > REPS_AT_80
}

/// The numbers a set of the item may have.
fn usual_amounts(item: &Item) -> (u32, u32) {
    let bar = item.entry.load == LoadKind::BarTotal;
    let big = matches!(
        item.pattern(),
        Some(Pattern::Squat | Pattern::Hinge | Pattern::HorizontalPush | Pattern::VerticalPush)
    );
    match (item.entry.measure, item.entry.kind) {
        (Measure::Seconds, _) => (15, 60),
        (Measure::Meters | Measure::Calories, _) => (1, 5000),
        (Measure::Reps, _) if item.pattern().is_some_and(Pattern::is_explosive) => (1, 6),
        (Measure::Reps, _) if item.pattern().is_some_and(Pattern::is_trunk) => (1, 40),
        (Measure::Reps, Some(Kind::Isolation)) => (8, 30),
        (Measure::Reps, _) if bar && big => (1, 12),
        (Measure::Reps, _) => (1, 40),
    }
}
