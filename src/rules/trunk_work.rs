//! `trunk-work`: the trunk has one exercise a day and three a week, as every big lift works it as well.
//!
//! Two a day where the week has two days, and where nothing has a load; a client who wants more of it gets more. Common
//! practice.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{NO_FRONT_WORK, NO_SIDE_WORK, NO_TRUNK, SAME_TRUNK};
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::week::Week;
use crate::words::{Muscle, Pattern};

/// Exercises for the trunk by day and week.
pub(super) struct TrunkWork;

const MOST_A_DAY: u32 = 2;
const MOST_A_WEEK: u32 = 3;
/// Up to so many days have room for two a day.
const FEW_DAYS: usize = 2;
/// From so many days on a fourth is no filler.
const MANY_DAYS: usize = 5;

/// The most a day, and the most a week if there is one.
fn most(request: &Request) -> (u32, Option<u32>) {
    let days = request.days.len();
    let has_lifts = request
        .candidates
        .iter()
        .any(|one| one.entry.is_loaded() && one.pattern.press_or_row().is_none());
    let open =
        !has_lifts || request.wants_more(Muscle::Abs) || request.wants_more(Muscle::Obliques);
    let a_day = if open || days <= FEW_DAYS { MOST_A_DAY } else { 1 };
    let a_week = MOST_A_WEEK + u32::from(days >= MANY_DAYS);
    (a_day, (!open).then_some(a_week))
}

/// Each day has some, up to three a week, and for size past the first steps up to two; in a quarter of an hour the lifts do.
fn fewest(request: &Request) -> u32 {
    const SHORT_MINUTES: u32 = 25;
    const FOR_SIZE: u32 = 2;
    let days = request.days.iter().filter(|day| day.minutes >= SHORT_MINUTES).count();
    let most = if request.builds_size() { FOR_SIZE } else { MOST_A_WEEK };
    u32::try_from(days).unwrap_or(0).min(most)
}

/// Every pick of a pattern.
fn of_pattern(weekly: &Weekly, pattern: Pattern) -> Vec<Term> {
    let picks = weekly.picks.iter().filter(|pick| weekly.candidate(pick).pattern == pattern);
    picks.map(|pick| (pick.chosen, 1.0)).collect()
}

impl Rule for TrunkWork {
    fn id(&self) -> &'static str {
        "trunk-work"
    }
    fn summary(&self) -> &'static str {
        "the trunk has one exercise a day, up to three a week, as every big lift works it as well"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let (a_day, a_week) = most(weekly.request);
        let mut all: Vec<Term> = Vec::new();
        for day in weekly.days() {
            let trunk = weekly.on(day).filter(|pick| weekly.candidate(pick).pattern.is_trunk());
            let trunk: Vec<Term> = trunk.map(|pick| (pick.chosen, 1.0)).collect();
            all.extend(trunk.iter().copied());
            if trunk.len() > a_day as usize {
                let label = weekly.request.days[day].label();
                weekly.model.convention(self.id(), label, trunk, Op::Le, f64::from(a_day));
            }
        }
        let wanted = fewest(weekly.request);
        if all.len() > wanted as usize {
            let wish = at_least(all.clone(), f64::from(wanted)).missed_by(f64::from(wanted));
            weekly.miss(self.id(), "wanted", Tier::View, wish, NO_TRUNK);
        }
        let kinds = [
            (Pattern::AntiExtension, "front", Some(NO_FRONT_WORK)),
            // For size the trunk is bent, and the side of it holds every weight that is carried to its place.
            (
                Pattern::AntiLateralFlexion,
                "side",
                Some(NO_SIDE_WORK).filter(|_| !weekly.request.builds_size()),
            ),
        ];
        for (pattern, name, cost) in kinds {
            let of_kind = of_pattern(weekly, pattern);
            if let Some(cost) = cost.filter(|_| wanted > 1 && !of_kind.is_empty()) {
                let wish = at_least(of_kind, 1.0).missed_by(1.0);
                weekly.miss(self.id(), name, Tier::View, wish, cost);
            }
        }
        for pattern in Pattern::ALL.iter().filter(|pattern| pattern.is_trunk()) {
            let alike = of_pattern(weekly, *pattern);
            let enough: u32 = if *pattern == Pattern::AntiExtension { 2 } else { 1 };
            if alike.len() > enough as usize {
                let most = f64::from(u32::try_from(alike.len()).unwrap_or(u32::MAX));
                let wish = at_most(alike, f64::from(enough)).missed_by(most);
                weekly.miss(self.id(), pattern.id(), Tier::View, wish, SAME_TRUNK);
            }
        }
        if let Some(a_week) = a_week.filter(|most| all.len() > *most as usize) {
            weekly.model.convention(self.id(), "week", all, Op::Le, f64::from(a_week));
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let (a_day, a_week) = most(request);
        let is_trunk = |item: &crate::week::Item| item.pattern().is_some_and(Pattern::is_trunk);
        let mut findings = Vec::new();
        let mut remark = |place: String, most: u32, got: usize| {
            if got > most as usize {
                let wanted = format!("{most} for the trunk at most");
                let finding = Finding::broken(self.id(), place, wanted, got.to_string());
                findings.push(finding.as_remark());
            }
        };
        for session in &week.sessions {
            let got = session.work().filter(|item| is_trunk(item)).count();
            remark(session.label.clone(), a_day, got);
        }
        let got = week.work().filter(|(_, item)| is_trunk(item)).count();
        remark("week".to_owned(), a_week.unwrap_or(u32::MAX), got);
        findings
    }
}
