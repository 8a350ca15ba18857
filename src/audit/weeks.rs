//! The weeks of a plan: each keeps the hard rules that a single week can keep.

use std::collections::BTreeSet;

use super::figures;
use super::read::{Misread, week_of};
use crate::input::plan::Plan;
use crate::plan::calendar::BLOCK;
use crate::plan::seal;
use crate::request::{Request, resolve, screening};
use crate::rules::{Finding, RULES, Severity, Weeks};
use crate::words::WeekKind;

/// Weeks in which careful starters get a set more each week, from two up to the most of any exercise.
const EASED_WEEKS: u32 = 3;

/// Rules about single items, which hold in every week. They are told of weeks that somebody edited or wrote.
const BY_ITEM: &[&str] = &["reserve", "ramp", "order", "preparation", "conditioning"];

/// The request of a week of which some dates are done at another place: with the kit of both. What must be in cannot be
/// asked of it.
fn elsewhere(plan: &Plan, request: &Request, week: u32) -> Option<Request> {
    let mut kits = plan.exceptions.iter().filter(|one| one.week == week);
    let kits: Vec<_> = kits.by_ref().filter_map(|one| one.equipment.as_ref()).collect();
    if kits.is_empty() {
        return None;
    }
    let mut profile = request.profile.clone();
    let own = profile.equipment.get_or_insert_default();
    for kit in kits {
        own.items.extend(kit.items.iter().map(|(item, stock)| (*item, stock.clone())));
    }
    profile.exercises.must.clear();
    Some(resolve::resolve(profile, request.entries.clone(), BTreeSet::new(), request.seed))
}

fn in_week(week: u32, finding: Finding) -> Finding {
    Finding { place: format!("week {week}, {}", finding.place), ..finding }
}

/// Broken hard rules in any week, named by week.
pub(super) fn check(plan: &Plan, request: &Request) -> Result<Vec<Finding>, Vec<Misread>> {
    let mut findings = Vec::new();
    let eases_in = screening::advise(&request.profile).start.first_week_sets.is_some();
    let open = seal::open_weeks(plan);
    for written in &plan.weeks {
        let elsewhere = elsewhere(plan, request, written.week);
        let request = elsewhere.as_ref().unwrap_or(request);
        let week = week_of(&written.sessions, request)?;
        let when = format!("week {}, ", written.week);
        findings.extend(figures::times(&written.sessions, &week, request, &when));
        let eased = written.week == 1 || (eases_in && written.week <= EASED_WEEKS);
        let is_lighter = written.kind != WeekKind::Build || eased;
        let least = if is_lighter { Weeks::Every } else { Weeks::Full };
        for rule in RULES.iter().filter(|rule| rule.holds_in() <= least) {
            let broken = rule
                .recount(request, &week)
                .into_iter()
                .filter(|finding| finding.severity == Severity::Broken);
            let is_over = rule.is_of_the_first_block() && written.week > BLOCK;
            let told = broken.map(|found| if is_over { found.as_remark() } else { found });
            findings.extend(told.map(|finding| in_week(written.week, finding)));
        }
        if open.contains(&written.week) {
            let odd = RULES.iter().filter(|rule| BY_ITEM.contains(&rule.id()));
            let odd = odd.flat_map(|rule| rule.recount(request, &week));
            findings.extend(odd.map(|finding| in_week(written.week, finding)));
        }
    }
    Ok(findings)
}
