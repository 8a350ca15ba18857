//! The figures that a plan prints of itself: minutes, volume and balance, recounted.

use crate::input::plan::{self, Balance, MuscleVolume, Plan};
use crate::request::Request;
use crate::rules::{Figure, Finding, Unit, to_halves};
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
    let mut findings = times(&plan.sessions, week, request, "");
    let counted = volume(request, week);
    for line in &counted {
        let is_told =
            plan.volume.is_empty() || plan.volume.iter().any(|one| one.muscle == line.muscle);
        if !is_told {
            let wanted = format!("{} sets", line.sets);
            findings.push(Finding::broken(RULE, line.muscle.id(), wanted, "no line"));
        }
    }
    for line in &plan.volume {
        let range = counted.iter().find(|one| one.muscle == line.muscle);
        let range = range.map(|one| (one.low, one.high)).unwrap_or_default();
        if (line.low, line.high) != range {
            let text = |(low, high): (Option<f64>, Option<f64>)| {
                let end =
                    |end: Option<f64>| end.map_or_else(|| "open".to_owned(), |end| end.to_string());
                format!("{} to {}", end(low), end(high))
            };
            let place = format!("{}, range", line.muscle.id());
            findings.push(Finding::broken(RULE, place, text(range), text((line.low, line.high))));
        }
    }
    for line in &plan.volume {
        let counted = week.halves(line.muscle);
        if to_halves(line.sets) != counted {
            let [wanted, got] =
                [counted, to_halves(line.sets)].map(|halves| Figure::sets(halves, Unit::Sets));
            findings.push(Finding::of_muscle(RULE, line.muscle, wanted, got));
        }
    }
    if let Some(written) = plan.balance.filter(|written| *written != balance(week)) {
        let counted = balance(week);
        let sides = |balance: &Balance| {
            let Balance { push, pull, legs, knee, hip } = *balance;
            [("push", push), ("pull", pull), ("legs", legs), ("knee", knee), ("hip", hip)]
        };
        for ((side, wanted), (_, got)) in sides(&counted).into_iter().zip(sides(&written)) {
            if wanted != got {
                let place = format!("balance, {side}");
                findings.push(Finding::broken(
                    RULE,
                    place,
                    format!("{wanted} sets"),
                    got.to_string(),
                ));
            }
        }
    }
    findings
}

/// The seconds of groups and the minutes of sessions, where a plan has them.
pub(super) fn times(
    sessions: &[plan::Session],
    week: &Week,
    request: &Request,
    when: &str,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (written, session) in sessions.iter().zip(&week.sessions) {
        let place = format!("{when}{}", session.label);
        for (number, (written, group)) in (1..).zip(written.groups.iter().zip(&session.groups)) {
            let counted = group.recounted_s();
            if let Some(seconds) = written.seconds.filter(|seconds| *seconds != counted) {
                let place = format!("{place}, group {number}");
                let wanted = format!("{counted} s");
                findings.push(Finding::broken(RULE, place, wanted, format!("{seconds} s")));
            }
        }
        let Some(minutes) = &written.minutes else { continue };
        let counted = session.seconds();
        let tenths = timing::tenths_of_minutes(counted);
        if minutes.planned_s != counted || (minutes.planned - tenths).abs() > 0.051 {
            let got = format!("{} s, {} min", minutes.planned_s, minutes.planned);
            let wanted = format!("{counted} s, {tenths} min planned");
            findings.push(Finding::broken(RULE, place.clone(), wanted, got));
        }
        let limit = request.days[session.day].minutes;
        if minutes.limit != limit {
            let got = minutes.limit.to_string();
            findings.push(Finding::broken(RULE, place, format!("{limit} minutes"), got));
        }
    }
    findings
}
