//! `main-lift-repeats`: a novice meets at least two main lifts on two days, and no two days are the same.
//!
//! For strength the main lifts come at least twice a week (ACSM 2026 overview). The rest is common practice.

use std::collections::BTreeSet;

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::points::MAIN_REPEATED;
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::dose::Duty;
use crate::week::Week;
use crate::words::{Goal, Status};

/// Main lifts that come twice.
pub(super) struct MainLiftRepeats;

/// Main lifts that should come twice a week.
fn wanted(request: &Request) -> u32 {
    let days = request.days.len();
    match (request.profile.training_status, request.profile.goal) {
        _ if days < 2 => 0,
        (_, Goal::Strength) => 3,
        (Status::Novice, _) => 2,
        _ => 0,
    }
}

impl Rule for MainLiftRepeats {
    fn id(&self) -> &'static str {
        "main-lift-repeats"
    }
    fn summary(&self) -> &'static str {
        "a novice meets at least two main lifts on two days, and no two days are the same"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let wanted = wanted(weekly.request);
        if wanted == 0 {
            return;
        }
        let mut repeats: Vec<Term> = Vec::new();
        for (candidate, used) in weekly.used.clone() {
            let exercise = &weekly.request.candidates[candidate];
            if exercise.duty != Duty::Main {
                continue;
            }
            let twice = weekly.model.most(format!("twice_{}", exercise.id), 1.0);
            let mut row: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| pick.candidate == candidate)
                .map(|pick| (pick.chosen, -1.0))
                .collect();
            row.extend([(used, 1.0), (twice, 1.0)]);
            weekly.model.define(self.id(), exercise.id.clone(), row, Op::Le, 0.0);
            repeats.push((twice, 1.0));
        }
        if repeats.is_empty() {
            return;
        }
        let counted = weekly.model.most("repeated_mains".to_owned(), f64::from(wanted));
        let mut row = vec![(counted, 1.0)];
        row.extend(repeats.into_iter().map(|(var, _)| (var, -1.0)));
        weekly.model.define(self.id(), "week", row, Op::Le, 0.0);
        weekly.count(self.id(), "week", Tier::View, counted, MAIN_REPEATED);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        let repeated = week
            .exercises()
            .into_iter()
            .filter(|id| {
                let days = week.work().filter(|(_, item)| item.entry.id == *id && item.entry.main);
                days.count() >= 2
            })
            .count();
        let wanted = wanted(request) as usize;
        if repeated < wanted {
            let text = format!("{wanted} main lifts on two days");
            findings
                .push(Finding::broken(self.id(), "week", text, repeated.to_string()).as_remark());
        }
        let days: Vec<BTreeSet<&str>> = week
            .sessions
            .iter()
            .map(|session| session.work().map(|item| item.entry.id.as_str()).collect())
            .collect();
        for (place, day) in days.iter().enumerate() {
            if days[place + 1..].contains(day) && !day.is_empty() {
                let label = week.sessions[place].label.clone();
                let got = "another day is the same";
                findings
                    .push(Finding::broken(self.id(), label, "days that differ", got).as_remark());
            }
        }
        findings
    }
}
