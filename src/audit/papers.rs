//! What a plan says of itself beside its weeks: its marks, its proof, its substitutes, its cautions.

use crate::input::catalog::Entry;
use crate::input::plan::{Plan, SolveStatus};
use crate::plan::screening;
use crate::plan::seal;
use crate::request::{Barred, Request};
use crate::rules::Finding;

const EDITED: &str = "edited";
const PROOF: &str = "proof";
const INSTEAD: &str = "instead";
const CAUTIONS: &str = "cautions";
/// What the tiers may be off by rounding.
const ROUNDING: f64 = 1e-3;

/// Everything that does not fit.
pub(super) fn check(plan: &Plan, request: &Request) -> Vec<Finding> {
    let mut findings = edits(plan, request);
    findings.extend(proof(plan));
    findings.extend(substitutes(plan, request));
    findings.extend(cautions(plan, request));
    findings
}

/// Parts that somebody edited. That is no fault: it is said so that nobody is surprised.
fn edits(plan: &Plan, request: &Request) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut remark = |place: &str, wanted: &str, got: &str| {
        findings.push(Finding::broken(EDITED, place, wanted, got).as_remark());
    };
    for part in seal::edited(plan) {
        remark(&part, "as it was planned", "edited since");
    }
    let Some(inputs) = &plan.inputs else { return findings };
    if inputs.profile_sha256 != seal::of_profile(&request.profile) {
        remark("profile", "the profile that the plan was made from", "another");
    }
    if inputs.version != env!("CARGO_PKG_VERSION") {
        remark("plan", "a plan of this version, whose edits can be told", &inputs.version);
    }
    let picks = seal::picks(&plan.sessions);
    if inputs.picks_sha256.as_ref().is_some_and(|made| *made != picks) {
        remark("sessions", "the exercises and sets that were chosen", "others");
    }
    findings
}

/// A status that its own numbers do not bear out.
fn proof(plan: &Plan) -> Vec<Finding> {
    let Some(solve) = &plan.solve else { return Vec::new() };
    let mut findings = Vec::new();
    let mut broken = |wanted: String, got: String| {
        findings.push(Finding::broken(PROOF, "solve", wanted, got));
    };
    let all = solve.tiers.iter().all(|tier| tier.proven);
    if solve.status == SolveStatus::Proven && !(all && solve.gap == 0.0) {
        broken("every tier proven".to_owned(), "one that is not".to_owned());
    }
    for tier in solve.tiers.iter().filter(|tier| tier.proven) {
        if (tier.value - tier.bound).abs() > ROUNDING {
            broken(format!("{} at its bound of {}", tier.name, tier.bound), tier.value.to_string());
        }
    }
    if solve.status != SolveStatus::Proven {
        let gap = (solve.bound - solve.objective).abs() / solve.objective.abs().max(1.0);
        if (gap - solve.gap).abs() > ROUNDING {
            broken(format!("a gap of {gap:.4}"), solve.gap.to_string());
        }
    }
    if let Some(view) = solve.tiers.last()
        && ((view.value - solve.objective).abs() > ROUNDING
            || (view.bound - solve.bound).abs() > ROUNDING)
    {
        let wanted = format!("{} of {}", view.value, view.bound);
        broken(wanted, format!("{} of {}", solve.objective, solve.bound));
    }
    findings
}

/// Substitutes that the client cannot do, or that the day has already.
fn substitutes(plan: &Plan, request: &Request) -> Vec<Finding> {
    let mut findings = Vec::new();
    for session in &plan.sessions {
        let items = || session.groups.iter().flat_map(|group| &group.items);
        for item in items() {
            let Some(other) = &item.instead else { continue };
            let mut remark = |wanted: &str| {
                let place = format!("{}, {}", session.day, item.exercise);
                findings.push(Finding::broken(INSTEAD, place, wanted, other.clone()).as_remark());
            };
            let entry = request.entries.get(other);
            let own = request.entries.get(&item.exercise);
            match (entry, own) {
                (None, _) => remark("a substitute that the catalog has"),
                (Some(entry), Some(own)) if !is_related(own, entry) => {
                    remark("a substitute of the same movement");
                }
                (Some(entry), _) if request.eligible(entry).is_err() => {
                    remark("a substitute that kit, limits and level allow");
                }
                _ if matches!(request.barred.get(other), Some(Barred::VariantOfNever(_))) => {
                    remark("a substitute that is no form of what the client never wants");
                }
                _ if items().any(|item| item.exercise == *other) => {
                    remark("a substitute that the day does not have");
                }
                _ => {}
            }
        }
    }
    findings
}

fn is_related(lift: &Entry, other: &Entry) -> bool {
    lift.pattern.zip(other.pattern).is_some_and(|(lift, other)| lift.is_related(other))
}

/// Cautions that the screening answers ask for and the plan no longer has. A plan by hand may have none.
fn cautions(plan: &Plan, request: &Request) -> Vec<Finding> {
    if plan.inputs.is_none() {
        return Vec::new();
    }
    let asked = screening::advise(&request.profile).cautions;
    let missing = asked.into_iter().filter(|caution| !plan.cautions.contains(caution));
    missing
        .map(|caution| {
            let words: Vec<&str> = caution.split_whitespace().take(8).collect();
            let wanted = format!("\"{} ..\"", words.join(" "));
            Finding::broken(CAUTIONS, "plan", wanted, "nothing of it").as_remark()
        })
        .collect()
}
