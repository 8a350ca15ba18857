//! `more-sets`: inside its range every muscle gets as many sets as the minutes give, each worth less.
//!
//! The benefit is concave in sets (Pelland et al. 2024). What counts is how well the prime mover is trained: a set is paid
//! in full to the muscle that it is done for, by half to another direct one, and not to one that only helps; the ranges
//! count as published. Doubled for a muscle that should get more. No binaries are needed for a concave benefit.

use super::{Figure, Finding, Force, RULES, Rule, Unit, to_halves};
use crate::model::points::{EXTRA, EXTRA_LITTLE, TO_HIGH, TO_MIDDLE};
use crate::model::tier::Tier;
use crate::model::{Weekly, minus};
use crate::program::{Op, Term};
use crate::request::{EXTRAS, Request};
use crate::week::Week;
use crate::words::{Emphasis, Goal, GroupKind, Muscle};

/// Points for half-sets above the low end.
pub(super) struct MoreSets;

/// The share of a smaller muscle's range that is worth work of its own: presses and rows train it as well.
const OWN_SHARE_OF_MINOR: f64 = 0.5;

/// Half-sets of a smaller muscle without a target that are worth points.
const EXTRA_HALVES: f64 = 6.0;

fn extras(rule: &'static str, weekly: &mut Weekly) {
    for muscle in EXTRAS.iter().filter(|muscle| !weekly.request.targets.contains_key(muscle)) {
        let mut row: Vec<Term> = minus(weekly.own_halves(*muscle));
        if row.is_empty() || weekly.request.wants_less(*muscle) {
            continue;
        }
        let trunk = matches!(muscle, Muscle::Abs | Muscle::Obliques);
        let goal = weekly.request.profile.goal;
        let arms = matches!(muscle, Muscle::Biceps | Muscle::Triceps | Muscle::SideDelts);
        // Every step trains the calves.
        let calves = *muscle == Muscle::Calves && goal != Goal::Hypertrophy;
        let little = trunk || calves || arms && !goal.builds();
        let points = if little { EXTRA_LITTLE } else { EXTRA };
        let some = weekly.model.most(format!("extra_{muscle}"), EXTRA_HALVES);
        row.push((some, 1.0));
        weekly.model.define(rule, muscle.id(), row, Op::Le, 0.0);
        let factor =
            if weekly.request.profile.emphasis.contains_key(muscle) { EMPHASIS } else { 1.0 };
        weekly.count(rule, muscle.id(), Tier::View, some, factor * points);
    }
}

/// Half-sets up to which more is plainly better: the middle of the range, and less for what presses and pulls train where
/// neither size nor strength is the goal, as legs, trunk and small work then make better use of the minutes.
fn enough(request: &Request, muscle: Muscle, low: u32, high: u32) -> u32 {
    // Two sets of more exercises are enough for who begins late.
    if request.is_older_beginner() && !request.wants_more(muscle) {
        return low;
    }
    let above = matches!(muscle, Muscle::Chest | Muscle::Lats | Muscle::UpperBack);
    let middle = u32::midpoint(low, high);
    match request.profile.goal {
        // Its range is wider already, and small work fills every day before it is at the middle of that.
        _ if request.wants_more(muscle) && muscle == Muscle::SideDelts => middle,
        _ if request.wants_more(muscle) && !muscle.is_major() => u32::midpoint(low, middle),
        // What the client's own sport trains is kept strong and not tired.
        _ if request.is_of_sport(muscle) && !request.profile.goal.builds() => low,
        // Squats and pulls off the floor are enough for them.
        Goal::Strength | Goal::Hypertrophy if muscle == Muscle::Calves => low,
        // One hinge and one curl or thrust a week: what bends the hip tires the back, too.
        _ if muscle == Muscle::Hamstrings && !request.wants_more(muscle) => {
            u32::midpoint(low, middle)
        }
        // Raises in pairs would fill every day of a week for size, as legs would; arms have what presses and pulls leave.
        Goal::Hypertrophy if muscle == Muscle::SideDelts => low,
        Goal::Hypertrophy if muscle.is_major() && !request.wants_more(muscle) => {
            u32::midpoint(low, middle)
        }
        // Nor is there time for more small work than has to be where something else should get more.
        _ if emphasizes(request) && !muscle.is_major() => low,
        _ if !above || request.wants_more(muscle) => middle,
        // Few sets of each, so that what is fast or lasts has its share.
        Goal::Power | Goal::Endurance => low,
        Goal::GeneralFitness | Goal::FatLoss => u32::midpoint(low, middle),
        Goal::Strength | Goal::Hypertrophy => middle,
    }
}

/// Whether any muscle should get more.
fn emphasizes(request: &Request) -> bool {
    request.profile.emphasis.values().any(|wish| *wish == Emphasis::More)
}

/// More sets count so many times for a muscle that should get more.
const EMPHASIS: f64 = 2.0;

impl Rule for MoreSets {
    fn id(&self) -> &'static str {
        "more-sets"
    }
    fn summary(&self) -> &'static str {
        "inside its range every muscle gets as many sets as the minutes give"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (muscle, target) in &weekly.request.targets {
            let (low, high) = (to_halves(target.low), to_halves(target.high));
            let middle = enough(weekly.request, *muscle, low, high);
            let factor = match weekly.request.profile.emphasis.get(muscle) {
                Some(Emphasis::More) => EMPHASIS,
                Some(Emphasis::Less) => 0.0,
                None => 1.0,
            };
            // Where another muscle should get more, the rest stops in the middle of its range: minutes are for the wish.
            let waits = factor == 1.0 && emphasizes(weekly.request)
                // Small work in pairs would fill every day with what is wished.
                || factor > 1.0 && !muscle.is_major();
            let whole = muscle.is_major() || factor > 1.0;
            let share = if whole { 1.0 } else { OWN_SHARE_OF_MINOR };
            let mut row: Vec<Term> = minus(weekly.own_halves(*muscle));
            if row.is_empty() || factor == 0.0 {
                continue;
            }
            for (name, width, points) in [
                ("base", low, TO_MIDDLE),
                ("middle", middle - low, TO_MIDDLE),
                ("high", high - middle, if waits { 0.0 } else { TO_HIGH }),
            ] {
                let width = (f64::from(width) * share).floor();
                let step = weekly.model.most(format!("{name}_{muscle}"), width);
                row.push((step, 1.0));
                weekly.count(self.id(), muscle.id(), Tier::View, step, factor * points);
            }
            weekly.model.define(self.id(), muscle.id(), row, Op::Le, 0.0);
        }
        extras(self.id(), weekly);
    }
    /// A muscle under the middle of its range, though one more set of something in the week would break no rule.
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (muscle, target) in &request.targets {
            let (low, high) = (to_halves(target.low), to_halves(target.high));
            let middle = enough(request, *muscle, low, high);
            let less = request.wants_less(*muscle);
            let got = week.halves(*muscle);
            if less || got + 2 > middle {
                continue;
            }
            if let Some(place) = room_for_one_more(self.id(), request, week, *muscle) {
                let wanted = format!("one more set of {place}: the minutes hold it");
                let got = Figure::sets(got, Unit::Sets);
                let finding = Finding::of_muscle(self.id(), *muscle, wanted, got);
                findings.push(finding.as_remark());
            }
        }
        findings
    }
}

/// An item with the muscle as a direct one that could have one more set with no new finding of any other rule.
fn room_for_one_more(
    own: &'static str,
    request: &Request,
    week: &Week,
    muscle: Muscle,
) -> Option<String> {
    let found = |week: &Week| -> usize {
        let others = RULES.iter().filter(|rule| rule.id() != own && rule.id() != "planned-time");
        others.map(|rule| rule.recount(request, week).len()).sum()
    };
    let now = found(week);
    for (session, group, item) in places(week) {
        let direct =
            week.sessions[session].groups[group].items[item].entry.direct.contains(&muscle);
        if direct && found(&with_one_more(week, session, group, item)) <= now {
            let session = &week.sessions[session];
            return Some(format!(
                "{} on {}",
                session.groups[group].items[item].entry.id, session.label
            ));
        }
    }
    None
}

/// The places of all straight working items: session, group, item.
fn places(week: &Week) -> impl Iterator<Item = (usize, usize, usize)> {
    week.sessions.iter().enumerate().flat_map(|(session, one)| {
        let groups =
            one.groups.iter().enumerate().filter(|(_, group)| group.kind == GroupKind::Single);
        groups.flat_map(move |(group, one)| {
            (0..one.items.len()).map(move |item| (session, group, item))
        })
    })
}

fn with_one_more(week: &Week, session: usize, group: usize, item: usize) -> Week {
    let mut week = week.clone();
    let item = &mut week.sessions[session].groups[group].items[item];
    item.sets += 1;
    item.amounts.extend(item.amounts.last().copied());
    item.timed.work_s.extend(item.timed.work_s.last().copied());
    week
}
