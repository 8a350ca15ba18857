//! `heavy-lifts`: a session has one heavy hinge, two heavy squats and hinges and three heavy lifts at most, and heavy
//! loads on the spine are a day and a half apart.
//!
//! Heavy is up to six repetitions of a multi-joint lift, loaded or with the body's own weight. Common practice.

use super::{Figure, Finding, Force, Rule, Unit};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::candidate::{Candidate, grade};
use crate::request::dose::FEW_REPS;
use crate::week::{Item, Week};
use crate::words::{Grade, Measure, Pattern, Stress};

/// Heavy lifts by day.
pub(super) struct HeavyLifts;

/// How many heavy lifts of a kind a session has at most.
type Limit = (&'static str, u32, fn(Pattern) -> bool);

const LIMITS: [Limit; 3] = [
    ("three heavy lifts", 3, |_| true),
    ("two heavy squats and hinges", 2, |pattern| {
        matches!(pattern, Pattern::Squat | Pattern::Hinge)
    }),
    ("one heavy hinge", 1, |pattern| pattern == Pattern::Hinge),
];

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
    let reps = item.entry.measure == Measure::Reps;
    let few = reps && item.amounts.iter().any(|reps| *reps <= FEW_REPS);
    let explosive = item.pattern().is_some_and(Pattern::is_explosive);
    item.is_compound() && few && !explosive
}

fn loads_spine(candidate: &Candidate) -> bool {
    candidate.is_heavy() && grade(&candidate.entry, Stress::SpinalCompression) == Some(Grade::Heavy)
}

impl Rule for HeavyLifts {
    fn id(&self) -> &'static str {
        "heavy-lifts"
    }
    fn summary(&self) -> &'static str {
        "a session has one heavy hinge, two heavy squats and hinges, and three heavy lifts at most"
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
        let limits = weekly.days().flat_map(|day| LIMITS.map(|limit| (day, limit)));
        for (day, (name, most, counts)) in limits {
            let heavy = chosen(weekly, day, &|one| one.is_heavy() && counts(one.pattern));
            if heavy.len() > most as usize {
                let label = weekly.request.days[day].label();
                let subject = format!("{label}_{}", name.replace(' ', "_"));
                weekly.model.convention(self.id(), subject, heavy, Op::Le, f64::from(most));
            }
        }
        self.spine(weekly);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        let spine = |item: &&Item| {
            is_heavy(item) && grade(&item.entry, Stress::SpinalCompression) == Some(Grade::Heavy)
        };
        for (place, session) in week.sessions.iter().enumerate() {
            for (name, most, counts) in LIMITS {
                let heavy = |item: &&Item| is_heavy(item) && item.pattern().is_some_and(counts);
                let number = session.work().filter(heavy).count();
                if number > most as usize {
                    let wanted = format!("{name} at most");
                    let place = session.label.clone();
                    let finding = Finding::broken(self.id(), place, wanted, number.to_string());
                    findings.push(finding.as_remark());
                }
            }
            for other in &week.sessions[place + 1..] {
                let hours = request.days[session.day].hours_to(&request.days[other.day]);
                let both = session.work().any(|item| spine(&item))
                    && other.work().any(|item| spine(&item));
                if both && hours < SPINE_HOURS {
                    let place = format!("{} and {}", session.label, other.label);
                    let wanted = "36 h between heavy loads on the spine";
                    let got = Figure::number(hours.round(), Unit::Hours);
                    findings.push(Finding::broken(self.id(), place, wanted, got).as_remark());
                }
            }
        }
        findings
    }
}
