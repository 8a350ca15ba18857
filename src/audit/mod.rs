//! The audit: every rule recounted from the plan, its profile and the catalog, without the solver.

mod calendar;
mod course;
mod figures;
mod loads;
mod papers;
mod read;
mod weeks;

use crate::input::plan::Plan;
use crate::request::Request;
use crate::rules::{Finding, RULES, Severity};
use crate::week::Week;

/// What an audit found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Audit {
    /// Everything found, broken rules first.
    pub findings: Vec<Finding>,
}

impl Audit {
    /// Whether no hard rule is broken.
    #[must_use]
    pub fn passes(&self) -> bool {
        !self.findings.iter().any(|finding| finding.severity == Severity::Broken)
    }

    /// The findings of a severity.
    pub fn of(&self, severity: Severity) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(move |finding| finding.severity == severity)
    }
}

pub use figures::{balance, volume};
pub use read::{Misread, week_of};

/// Audits a plan against a request that was resolved from its own profile.
///
/// # Errors
/// What of the plan does not fit its profile or the catalog, so that nothing can be counted.
pub fn audit(plan: &Plan, request: &Request) -> Result<Audit, Vec<Misread>> {
    let week = week_of(&plan.sessions, request)?;
    let mut findings = recount(request, &week);
    findings.extend(figures::check(plan, request, &week));
    findings.extend(weeks::check(plan, request)?);
    findings.extend(loads::check(plan, request));
    findings.extend(calendar::check(plan, request));
    findings.extend(papers::check(plan, request));
    findings.extend(course::check(plan, request));
    findings.sort();
    findings.dedup();
    Ok(Audit { findings })
}

/// Every rule's recount of one week.
#[must_use]
pub fn recount(request: &Request, week: &Week) -> Vec<Finding> {
    RULES.iter().flat_map(|rule| rule.recount(request, week)).collect()
}
