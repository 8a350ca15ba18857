//! `reserve`: effort, repetitions, rests and tempo are a coach's numbers.
//!
//! At least two repetitions in reserve for a novice and one on squats, hinges and overhead presses; isolation
//! from eight repetitions; a bar squat, hinge or press up to twelve; holds of 15-60 s; explosive work up to six;
//! rests in steps of 15 s; up to ten seconds a repetition (Schoenfeld et al. 2015). Common practice else.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::timing::tempo_s;
use crate::week::{Item, Week};
use crate::words::{Kind, LoadKind, Measure, Pattern};

/// Numbers by item.
pub(super) struct Reserve;

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
            if let Some(odd) = item.amounts.iter().find(|amount| **amount < low || **amount > high) {
                remark(format!("{low} to {high} {}", item.entry.measure), odd.to_string());
            }
            if item.rest_s % 15 != 0 {
                remark("rests in steps of 15 s".to_owned(), format!("{} s", item.rest_s));
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
    let big = matches!(item.pattern(), Some(Pattern::Squat | Pattern::Hinge | Pattern::VerticalPush));
    request.figures.least_rir.max(u32::from(big && item.is_compound()))
}

/// The numbers a set of the item may have.
fn usual_amounts(item: &Item) -> (u32, u32) {
    let bar = item.entry.load == LoadKind::BarTotal;
    let big = matches!(
        item.pattern(),
        Some(Pattern::Squat | Pattern::Hinge | Pattern::HorizontalPush | Pattern::VerticalPush)
    );
    match (item.entry.measure, item.entry.kind) {
        (Measure::Seconds, _) => (10, 60),
        (Measure::Meters | Measure::Calories, _) => (1, 5000),
        (Measure::Reps, _) if item.pattern().is_some_and(Pattern::is_explosive) => (1, 6),
        (Measure::Reps, Some(Kind::Isolation)) => (5, 30),
        (Measure::Reps, _) if bar && big => (1, 12),
        (Measure::Reps, _) => (1, 40),
    }
}
