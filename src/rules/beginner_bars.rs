//! `beginner-bars`: a beginner learns at most two barbell lifts in a block where other kit serves.
//!
//! The bar is the end of a ladder (goblet squat, dumbbell or Smith machine squat, back squat) and not its first rung.
//! For strength the bar lifts are the point. Common practice.

use std::collections::BTreeMap;

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::eligibility::is_named;
use crate::week::Week;
use crate::words::{Goal, Kit, LoadKind, Status};

/// Barbell lifts by week.
pub(super) struct BeginnerBars;

const MOST: u32 = 2;

/// Whether the place has other loads, and the client is a beginner who trains for something else than the bar.
fn applies(request: &Request) -> bool {
    let other = |kit: &Kit| matches!(kit, Kit::Dumbbells | Kit::LegPress | Kit::ChestPressMachine);
    request.profile.training_status == Status::Novice
        && request.profile.goal != Goal::Strength
        && request.candidates.iter().any(|one| one.kit.iter().any(other))
}

/// A barbell lift that the client did not ask for.
fn counts(request: &Request, entry: &Entry) -> bool {
    entry.load == LoadKind::BarTotal
        && !entry.needs.iter().flatten().any(|kit| *kit == Kit::SmithMachine)
        && !is_named(&request.profile, &entry.id)
}

impl Rule for BeginnerBars {
    fn id(&self) -> &'static str {
        "beginner-bars"
    }
    fn summary(&self) -> &'static str {
        "a beginner learns at most two barbell lifts in a block where other kit serves"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        if !applies(weekly.request) {
            return;
        }
        let bars = |candidate: &usize| {
            counts(weekly.request, &weekly.request.candidates[*candidate].entry)
        };
        let used: BTreeMap<_, _> = weekly.used.iter().filter(|(one, _)| bars(one)).collect();
        let row: Vec<Term> = used.into_values().map(|used| (*used, 1.0)).collect();
        if row.len() > MOST as usize {
            weekly.model.convention(self.id(), "week", row, Op::Le, f64::from(MOST));
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        if !applies(request) {
            return Vec::new();
        }
        let done = week.exercises();
        let bars = done.iter().filter_map(|id| request.entries.get(*id));
        let number = bars.filter(|entry| counts(request, entry)).count();
        (number > MOST as usize)
            .then(|| {
                let wanted = format!("{MOST} barbell lifts at most");
                Finding::broken(self.id(), "week", wanted, number.to_string()).as_remark()
            })
            .into_iter()
            .collect()
    }
}
