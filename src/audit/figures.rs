//! The figures that a plan prints of itself: minutes, volume and balance, recounted.

use crate::input::plan::{Balance, MuscleVolume, Plan};
use crate::request::Request;
use crate::rules::{Finding, sets_text, to_halves};
use crate::timing;
use crate::week::Week;
use crate::words::{Muscle, Pattern, Side};

const RULE: &str = "figures";

/// Weekly sets of every muscle that has sets or a target, with its range.
#[must_use]
pub fn volume(request: &Request, week: &Week) -> Vec<MuscleVolume> {
    Muscle::ALL
        .iter()
        .filter(|muscle| week.halves(**muscle) > 0 || request.targets.contains_key(muscle))
        .map(|muscle| {
            let target = request.targets.get(muscle);
            MuscleVolume {
                muscle: *muscle,
                low: target.map(|target| target.low),
                high: target.map(|target| target.high),
                sets: f64::from(week.halves(*muscle)) / 2.0,
            }
        })
        .collect()
}

/// Whole sets by side.
#[must_use]
pub fn balance(week: &Week) -> Balance {
    let of = |side: Side| week.sets_of(|entry| entry.pattern.and_then(Pattern::side) == Some(side));
    Balance {
        push: of(Side::Push),
        pull: of(Side::Pull),
        legs: of(Side::Legs),
        knee: week.sets_of(|entry| entry.pattern.is_some_and(Pattern::is_knee)),
        hip: week.sets_of(|entry| entry.pattern.is_some_and(Pattern::is_hip)),
    }
}

/// Figures in the plan that do not agree with its own exercises. A hand-written plan may have none.
pub(super) fn check(plan: &Plan, request: &Request, week: &Week) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (written, session) in plan.sessions.iter().zip(&week.sessions) {
        let Some(minutes) = &written.minutes else { continue };
        let counted = session.seconds();
        let tenths = timing::tenths_of_minutes(counted);
        if minutes.planned_s != counted || (minutes.planned - tenths).abs() > 0.051 {
            let got = format!("{} s, {} min", minutes.planned_s, minutes.planned);
            let wanted = format!("{counted} s, {tenths} min planned");
            findings.push(Finding::broken(RULE, session.label.clone(), wanted, got));
        }
        let limit = request.days[session.day].minutes;
        if minutes.limit != limit {
            let got = minutes.limit.to_string();
            findings.push(Finding::broken(
                RULE,
                session.label.clone(),
                format!("{limit} minutes"),
                got,
            ));
        }
    }
    for line in &plan.volume {
        let counted = week.halves(line.muscle);
        if to_halves(line.sets) != counted {
            let got = sets_text(to_halves(line.sets));
            findings.push(Finding::broken(RULE, line.muscle.id(), sets_text(counted), got));
        }
    }
    if let Some(written) = plan.balance.filter(|written| *written != balance(week)) {
        let text = |balance: &Balance| {
            format!("push {}, pull {}, legs {}", balance.push, balance.pull, balance.legs)
        };
        findings.push(Finding::broken(RULE, "balance", text(&balance(week)), text(&written)));
    }
    findings
}
