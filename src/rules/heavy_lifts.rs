//! `heavy-lifts`: a session has one heavy hinge and two heavy lifts at most, and heavy loads on the spine are
//! a day and a half apart.
//!
//! Heavy is up to six repetitions of a loaded multi-joint lift. Common practice.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::candidate::{Candidate, grade};
use crate::week::{Item, Week};
use crate::words::{Grade, LoadKind, Measure, Pattern, Stress};

/// Heavy lifts by day.
pub(super) struct HeavyLifts;

const HEAVY_REPS: u32 = 6;
const SPINE_HOURS: f64 = 36.0;

impl HeavyLifts {
    /// Where two days are closer than a day and a half, only one of them loads the spine heavily.
    fn spine(&self, weekly: &mut Weekly) {
        let days = weekly.days();
        for (one, other) in days.clone().flat_map(|one| days.clone().map(move |other| (one, other)))
        {
            let hours = weekly.request.days[one].hours_to(&weekly.request.days[other]);
            if one >= other || hours >= SPINE_HOURS {
                continue;
            }
            let heavy = |day: usize| -> Vec<_> {
                weekly.on(day).filter(|pick| loads_spine(weekly.candidate(pick))).copied().collect()
            };
            let (first, second) = (heavy(one), heavy(other));
            if first.is_empty() || second.is_empty() {
                continue;
            }
            let label = format!(
                "{}_{}",
                weekly.request.days[one].label(),
                weekly.request.days[other].label()
            );
            let which = weekly.model.least_whole(format!("spine_{label}"), 1);
            let mut row: Vec<Term> = first.iter().map(|pick| (pick.chosen, 1.0)).collect();
            row.push((which, -2.0));
            weekly.model.convention(self.id(), label.clone(), row, Op::Le, 0.0);
            let mut row: Vec<Term> = second.iter().map(|pick| (pick.chosen, 1.0)).collect();
            row.push((which, 2.0));
            weekly.model.convention(self.id(), label, row, Op::Le, 2.0);
        }
    }
}

/// A heavy lift in a finished week.
fn is_heavy(item: &Item) -> bool {
    let loaded = !matches!(
        item.entry.load,
        LoadKind::Bodyweight | LoadKind::None | LoadKind::Band | LoadKind::Assisted
    );
    let reps = item.entry.measure == Measure::Reps;
    let few = reps && item.amounts.iter().any(|reps| *reps <= HEAVY_REPS);
    let explosive = item.pattern().is_some_and(Pattern::is_explosive);
    item.is_compound() && loaded && few && !explosive
}

fn loads_spine(candidate: &Candidate) -> bool {
    candidate.is_heavy() && grade(&candidate.entry, Stress::SpinalCompression) == Some(Grade::Heavy)
}

impl Rule for HeavyLifts {
    fn id(&self) -> &'static str {
        "heavy-lifts"
    }
    fn summary(&self) -> &'static str {
        "a session has one heavy hinge and two heavy lifts at most"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let chosen =
            |weekly: &Weekly, day: usize, test: &dyn Fn(&Candidate) -> bool| -> Vec<Term> {
                weekly
                    .on(day)
                    .filter(|pick| test(weekly.candidate(pick)))
                    .map(|pick| (pick.chosen, 1.0))
                    .collect()
            };
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let heavy = chosen(weekly, day, &Candidate::is_heavy);
            weekly.model.convention(self.id(), label.clone(), heavy, Op::Le, 2.0);
            let hinges =
                chosen(weekly, day, &|one| one.is_heavy() && one.pattern == Pattern::Hinge);
            weekly.model.convention(self.id(), format!("{label}_hinge"), hinges, Op::Le, 1.0);
        }
        self.spine(weekly);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        let spine = |item: &&Item| {
            is_heavy(item) && grade(&item.entry, Stress::SpinalCompression) == Some(Grade::Heavy)
        };
        for (place, session) in week.sessions.iter().enumerate() {
            let heavy = session.work().filter(|item| is_heavy(item)).count();
            if heavy > 2 {
                let got = heavy.to_string();
                let wanted = "two heavy lifts at most";
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            let hinge = |item: &&Item| is_heavy(item) && item.pattern() == Some(Pattern::Hinge);
            let hinges = session.work().filter(hinge).count();
            if hinges > 1 {
                let got = hinges.to_string();
                let wanted = "one heavy hinge at most";
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            for other in &week.sessions[place + 1..] {
                let hours = request.days[session.day].hours_to(&request.days[other.day]);
                let both = session.work().any(|item| spine(&item))
                    && other.work().any(|item| spine(&item));
                if both && hours < SPINE_HOURS {
                    let place = format!("{} and {}", session.label, other.label);
                    let wanted = "36 h between heavy loads on the spine";
                    let got = format!("{hours:.0} h");
                    findings.push(Finding::broken(self.id(), place, wanted, got).as_remark());
                }
            }
        }
        findings
    }
}
