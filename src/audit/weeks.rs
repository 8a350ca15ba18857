//! The weeks of a plan: each keeps the hard rules that a single week can keep.

use super::read::{Misread, week_of};
use crate::input::plan::Plan;
use crate::request::{Request, screening};
use crate::rules::{Finding, RULES, Severity, Weeks};
use crate::words::WeekKind;

/// Weeks in which careful starters get a set more each week, from two up to the most of any exercise.
const EASED_WEEKS: u32 = 3;

/// Broken hard rules in any week, named by week.
pub(super) fn check(plan: &Plan, request: &Request) -> Result<Vec<Finding>, Vec<Misread>> {
    let mut findings = Vec::new();
    let eases_in = screening::advise(&request.profile).start.first_week_sets.is_some();
    for written in &plan.weeks {
        let week = week_of(&written.sessions, request)?;
        let eased = written.week == 1 || (eases_in && written.week <= EASED_WEEKS);
        let is_lighter = written.kind != WeekKind::Build || eased;
        let least = if is_lighter { Weeks::Every } else { Weeks::Full };
        for rule in RULES.iter().filter(|rule| rule.holds_in() <= least) {
            let broken = rule
                .recount(request, &week)
                .into_iter()
                .filter(|finding| finding.severity == Severity::Broken);
            findings.extend(broken.map(|finding| Finding {
                place: format!("week {}, {}", written.week, finding.place),
                ..finding
            }));
        }
    }
    Ok(findings)
}
