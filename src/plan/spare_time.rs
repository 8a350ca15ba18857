//! Why a session leaves minutes free. Under 85 % of its limit a coach would ask, so the plan says it first.

use crate::input::plan::Session;
use crate::plan::calendar::WeekPlan;
use crate::words::GroupKind;

/// A session that uses less of its minutes says why. Common practice.
const WELL_USED_PERCENT: u32 = 85;

/// The note of a session at its fullest; nothing where its minutes are well used.
#[must_use]
pub fn at_its_fullest(session: &Session) -> Option<String> {
    let left = left_minutes(session)?;
    Some(format!(
        "About {left} minutes are left free: another set would pass what a muscle's week, its cap for a session, its \
         days of recovery or the number of exercises allow. Rest longer, or go home early."
    ))
}

/// The note of a session in a week; `base` is the same session at its fullest.
#[must_use]
pub fn of_week(session: &Session, base: &Session, plan: WeekPlan) -> Option<String> {
    let left = left_minutes(session)?;
    let waits = |kind| has(base, kind) && !has(session, kind);
    let why = if plan.is_light {
        "the week is meant to be easier"
    } else if waits(GroupKind::Conditioning) {
        "they are kept for the conditioning that comes in later"
    } else if waits(GroupKind::Finisher) {
        "they are kept for the finisher that comes in later"
    } else if let Some(note) = &base.note {
        return Some(note.clone());
    } else {
        "the sets begin at the low end of their range and fill the time as they grow"
    };
    Some(format!("About {left} minutes are left free: {why}."))
}

/// Whole minutes that are left where the session uses too few of them.
fn left_minutes(session: &Session) -> Option<u32> {
    let minutes = session.minutes.as_ref()?;
    let limit_s = minutes.limit.saturating_mul(60);
    let is_short =
        minutes.planned_s.saturating_mul(100) < limit_s.saturating_mul(WELL_USED_PERCENT);
    is_short.then(|| limit_s.saturating_sub(minutes.planned_s) / 60)
}

fn has(session: &Session, kind: GroupKind) -> bool {
    session.groups.iter().any(|group| group.kind == kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::calendar::calendar;
    use crate::words::Status;

    fn session(planned_s: u32, kinds: &str) -> Session {
        serde_yaml::from_str(&format!(
            "{{day: mon, minutes: {{limit: 60, planned: 0, planned_s: {planned_s}}}, groups: {kinds}}}"
        ))
        .unwrap()
    }

    #[test]
    fn from_85_percent_on_nothing_is_said() {
        assert_eq!(at_its_fullest(&session(3060, "[]")), None);
        assert!(at_its_fullest(&session(3059, "[]")).unwrap().starts_with("About 9 minutes"));
    }

    #[test]
    fn a_week_says_its_own_reason() {
        let week = |number: usize| calendar(Status::Novice, 4)[number - 1];
        let full = session(3300, "[{kind: conditioning, items: []}]");
        let told =
            |base: &Session, number| of_week(&session(2400, "[]"), base, week(number)).unwrap();
        assert!(told(&full, 1).contains("meant to be easier"));
        assert!(told(&full, 2).contains("conditioning"));
        assert!(told(&session(3300, "[]"), 2).contains("low end"));
        let mut idle = session(2700, "[]");
        idle.note = at_its_fullest(&idle);
        assert_eq!(told(&idle, 3), idle.note.unwrap());
    }
}
