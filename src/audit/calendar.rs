//! The calendar of a plan: numbers, dates and kinds of weeks, and the sessions that each should have.

use crate::input::clock;
use crate::input::plan::{Plan, Session, Week};
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
        let date = start.and_then(|start| week_date(start, number + moved(plan, week.week)));
        if date != week.date {
            let text = |date: &Option<String>| date.clone().unwrap_or_else(|| "no date".to_owned());
            remark(place.clone(), text(&date), text(&week.date));
        }
        let is_back = plan.pauses.iter().any(|pause| pause.week == Some(week.week));
        if let Some(planned) = kinds.iter().find(|kind| kind.week == number)
            && planned.kind != week.kind
            && !is_back
        {
            let wanted = format!("kind {}", planned.kind);
            remark(place.clone(), wanted, week.kind.to_string());
        }
        for session in missing(plan, week) {
            remark(place.clone(), format!("a session on {}", session.day), "none".to_owned());
        }
    }
    findings
}

/// Weeks by which pauses moved a week.
fn moved(plan: &Plan, week: u32) -> u32 {
    let before = plan.pauses.iter().filter(|pause| pause.week.is_some_and(|back| back <= week));
    before.map(|pause| pause.by).fold(0, u32::saturating_add)
}

/// Sessions of the week at its fullest that a week lacks, and no exception or pause accounts for.
fn missing<'a>(plan: &'a Plan, week: &Week) -> Vec<&'a Session> {
    let is_told = |session: &Session| {
        let by_exception = plan
            .exceptions
            .iter()
            .any(|one| one.week == week.week && one.day == session.day.to_string());
        by_exception || plan.pauses.iter().any(|pause| pause.week == Some(week.week + 1))
    };
    let has = |session: &Session| {
        week.sessions.iter().any(|one| one.day == session.day && one.at == session.at)
    };
    plan.sessions.iter().filter(|session| !has(session) && !is_told(session)).collect()
}
