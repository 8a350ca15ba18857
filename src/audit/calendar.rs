//! The calendar of a plan: numbers, dates and kinds of weeks, and the sessions that each should have.

use std::collections::BTreeSet;

use crate::input::clock;
use crate::input::plan::{Plan, Session};
use crate::plan::calendar::{calendar, week_date};
use crate::request::Request;
use crate::rules::Finding;

const RULE: &str = "calendar";

/// Weeks that are not where they should be. A hand-written plan may have none at all.
pub(super) fn check(plan: &Plan, request: &Request) -> Vec<Finding> {
    let profile = &request.profile;
    let mut findings = Vec::new();
    let mut remark = |place: String, wanted: String, got: String| {
        findings.push(Finding::broken(RULE, place, wanted, got).as_remark());
    };
    if plan.weeks.is_empty() {
        return findings;
    }
    if plan.weeks.len() != profile.weeks as usize {
        let got = plan.weeks.len().to_string();
        remark("plan".to_owned(), format!("{} weeks", profile.weeks), got);
    }
    let start = profile.start.as_deref().and_then(clock::date);
    let kinds = calendar(profile.training_status, profile.weeks);
    for (number, week) in (1..).zip(&plan.weeks) {
        let place = format!("week {}", week.week);
        if week.week != number {
            remark(place.clone(), format!("number {number}"), week.week.to_string());
        }
        let date = start.and_then(|start| week_date(start, number));
        if date != week.date {
            let text = |date: &Option<String>| date.clone().unwrap_or_else(|| "no date".to_owned());
            remark(place.clone(), text(&date), text(&week.date));
        }
        if let Some(planned) = kinds.iter().find(|kind| kind.week == number)
            && planned.kind != week.kind
        {
            let wanted = format!("kind {}", planned.kind);
            remark(place.clone(), wanted, week.kind.to_string());
        }
        for (wanted, got) in days(&plan.sessions, &week.sessions) {
            remark(place.clone(), wanted, got);
        }
    }
    findings
}

/// Sessions that a week lacks against the week at its fullest.
fn days(planned: &[Session], week: &[Session]) -> Vec<(String, String)> {
    let slots = |sessions: &[Session]| -> BTreeSet<(usize, Option<String>)> {
        sessions.iter().map(|session| (session.day.index(), session.at.clone())).collect()
    };
    let (planned_slots, slots) = (slots(planned), slots(week));
    let missing = planned.iter().filter(|session| {
        let slot = (session.day.index(), session.at.clone());
        planned_slots.contains(&slot) && !slots.contains(&slot)
    });
    missing.map(|session| (format!("a session on {}", session.day), "none".to_owned())).collect()
}
