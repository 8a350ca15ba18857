//! `lifts-first`: chest, lats and quads are done more often by a lift than by work of one joint, and where size is not
//! the goal the arms' small work comes on a day with a press or a pull.
//!
//! A fly beside a press rounds a week off; three flies and one press are a week without an idea. One more is for who
//! wants more of the muscle. A press-down rounds a day of presses off and is none. Common practice.

use itertools::Itertools as _;

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::{LIFT_PASSED_BY, SMALL_WITHOUT_LIFT};
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Goal, Kind, Muscle, Pattern, Side};

/// Lifts and single-joint work by large muscle.
pub(super) struct LiftsFirst;

const MUSCLES: [Muscle; 3] = [Muscle::Chest, Muscle::Lats, Muscle::Quads];

/// Whether an exercise is done for a muscle, and over several joints.
fn lift_for(entry: &Entry, muscle: Muscle) -> Option<bool> {
    let is_prime = entry.direct.first() == Some(&muscle);
    is_prime.then(|| entry.kind == Some(Kind::Compound))
}

/// How many more exercises of one joint than lifts a muscle may have.
fn leeway(request: &Request, muscle: Muscle) -> u32 {
    u32::from(request.wants_more(muscle))
}

/// Whether an exercise is small work for an arm that a press or pull trains too, or such a lift itself.
fn press_or_pull_for_arm(entry: &Entry, side: Side) -> Option<bool> {
    let small = match side {
        Side::Push => Pattern::ElbowExtension,
        _ => Pattern::ElbowFlexion,
    };
    let is_lift = entry.pattern.and_then(Pattern::press_or_row) == Some(side);
    (is_lift || entry.pattern == Some(small)).then_some(is_lift)
}

/// The sides whose small arm work waits for a lift: where size is the goal, arms may have a day of their own.
fn sides(request: &Request) -> impl Iterator<Item = Side> {
    let wished = [(Side::Push, Muscle::Triceps), (Side::Pull, Muscle::Biceps)];
    let for_size = request.profile.goal == Goal::Hypertrophy;
    wished
        .into_iter()
        .filter(move |(_, arm)| !for_size && !request.wants_more(*arm))
        .map(|(side, _)| side)
}

/// The small work that is at most on one day beside one lift.
const MOST_SMALL: f64 = 2.0;

/// A wish a day that the arms' small work comes with a lift.
fn with_a_lift(rule: &'static str, weekly: &mut Weekly) {
    for side in sides(weekly.request).collect::<Vec<_>>() {
        for day in weekly.days() {
            let row: Vec<Term> = weekly
                .on(day)
                .filter_map(|pick| {
                    let is_lift = press_or_pull_for_arm(&weekly.candidate(pick).entry, side)?;
                    Some((pick.chosen, if is_lift { -MOST_SMALL } else { 1.0 }))
                })
                .collect();
            let small = row.iter().filter(|(_, sign)| *sign > 0.0).count();
            if small > 0 && small < row.len() {
                let wish = at_most(row, 0.0).missed_by(MOST_SMALL);
                let subject = format!("{side:?}_{}", weekly.request.days[day].name_part());
                weekly.miss(rule, subject, Tier::View, wish, SMALL_WITHOUT_LIFT);
            }
        }
    }
}

impl Rule for LiftsFirst {
    fn id(&self) -> &'static str {
        "lifts-first"
    }
    fn summary(&self) -> &'static str {
        "chest, lats and quads are done as often by a lift as by work of one joint"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for muscle in MUSCLES {
            let row: Vec<Term> = weekly
                .picks
                .iter()
                .filter_map(|pick| {
                    let is_lift = lift_for(&weekly.candidate(pick).entry, muscle)?;
                    Some((pick.chosen, if is_lift { -1.0 } else { 1.0 }))
                })
                .collect();
            if row.iter().all(|(_, sign)| *sign > 0.0) || row.iter().all(|(_, sign)| *sign < 0.0) {
                continue;
            }
            let wish = at_most(row, f64::from(leeway(weekly.request, muscle))).missed_by(20.0);
            weekly.miss(self.id(), muscle.id(), Tier::View, wish, LIFT_PASSED_BY);
        }
        with_a_lift(self.id(), weekly);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for muscle in MUSCLES {
            let usable = request.candidates.iter();
            if !usable.clone().any(|one| lift_for(&one.entry, muscle) == Some(true)) {
                continue;
            }
            let kinds = week.work().filter_map(|(_, item)| lift_for(&item.entry, muscle));
            let (lifts, small): (Vec<bool>, Vec<bool>) = kinds.partition(|is_lift| *is_lift);
            if small.len() > lifts.len() + leeway(request, muscle) as usize {
                let wanted = "as many lifts as exercises of one joint";
                let got = format!("{} and {}", lifts.len(), small.len());
                findings.push(Finding::broken(self.id(), muscle.id(), wanted, got).as_remark());
            }
        }
        for (side, session) in sides(request).cartesian_product(&week.sessions) {
            let kinds = session.work().filter_map(|item| press_or_pull_for_arm(&item.entry, side));
            let (lifts, small): (Vec<bool>, Vec<bool>) = kinds.partition(|is_lift| *is_lift);
            if lifts.is_empty() && !small.is_empty() {
                let wanted = match side {
                    Side::Push => "a press with the small work for the triceps",
                    _ => "a pull with the small work for the biceps",
                };
                let finding = Finding::broken(self.id(), session.label.clone(), wanted, "none");
                findings.push(finding.as_remark());
            }
        }
        findings
    }
}
