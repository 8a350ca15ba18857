//! `two-days`: a muscle with eight or more weekly sets has two days, and none holds over 65 % of it.
//!
//! Two exposures a week beat one (Schoenfeld et al. 2016); the share is common practice.

use super::{Figure, Finding, Force, Rule, Unit};
use crate::input::profile::{SplitChoice, SplitName};
use crate::model::goal::at_most;
use crate::model::points::LOPSIDED;
use crate::model::tier::Tier;
use crate::model::{Weekly, times};
use crate::request::Request;
use crate::week::Week;
use crate::words::Muscle;

/// The share of a day.
pub(super) struct TwoDays;

const MANY_HALVES: u32 = 16;
const SHARE: f64 = 0.65;

impl Rule for TwoDays {
    fn id(&self) -> &'static str {
        "two-days"
    }
    fn summary(&self) -> &'static str {
        "a muscle with eight or more weekly sets has two days, and none holds over 65 % of it"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        if !has_two_days(weekly.request) {
            return;
        }
        for (muscle, target) in &weekly.request.targets {
            let days =
                weekly.days().filter(|day| !weekly.halves_on(*muscle, *day).is_empty()).count();
            if target.high < 8.0 || days < 2 {
                continue;
            }
            for day in weekly.days() {
                let mut row = weekly.halves_on(*muscle, day);
                if row.is_empty() {
                    continue;
                }
                row.extend(times(weekly.halves(*muscle), -SHARE));
                let subject = format!("{muscle}_{}", weekly.request.days[day].label());
                let wish = at_most(row, 0.0).in_whole(1.0).missed_by(100.0);
                weekly.miss(self.id(), subject, Tier::View, wish, LOPSIDED);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        if !has_two_days(request) {
            return findings;
        }
        for muscle in Muscle::ALL.iter().copied() {
            let all = week.halves(muscle);
            if all < MANY_HALVES || week.sessions.len() < 2 {
                continue;
            }
            for session in &week.sessions {
                let share = f64::from(session.halves(muscle)) / f64::from(all);
                if share > SHARE + 1e-6 {
                    let place = format!("{muscle}, {}", session.label);
                    let wanted = "65 % of its sets on one day at most";
                    let got = Figure::number((share * 100.0).round(), Unit::Percent);
                    findings.push(Finding::broken(self.id(), place, wanted, got).as_remark());
                }
            }
        }
        findings
    }
}

/// Whether the client's split and days give a muscle two days at all.
fn has_two_days(request: &Request) -> bool {
    let asked_once = match &request.profile.split {
        SplitChoice::Own(_) | SplitChoice::Named(SplitName::BodyPart) => true,
        SplitChoice::Named(SplitName::PushPullLegs) => request.days.len() < 6,
        SplitChoice::Named(_) => false,
    };
    let days = 0..request.days.len();
    let apart =
        |one: usize| days.clone().any(|other| other != one && !request.too_close(one, other));
    !asked_once && days.clone().any(apart)
}
