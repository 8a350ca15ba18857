//! `weekly-volume`: every muscle's weekly sets lie inside its range.
//!
//! A direct muscle counts one per set, an indirect one a half (Pelland et al. 2024). The low end is a demand
//! where the profile says `strict`.

use super::reason::{AskedBy, Demand, Reason, keys};
use super::relaxation::Relaxation;
use super::{Bound, Figure, Finding, Force, Rule, Unit, to_halves};
use crate::input::profile::TargetWish;
use crate::model::Weekly;
use crate::model::goal::{Near, at_least, at_most};
use crate::model::points::{
    JUST_OVER_RANGE, JUST_UNDER_MAJOR, JUST_UNDER_MINOR, OVER_RANGE, UNDER_MAJOR, UNDER_MINOR,
};
use crate::model::tier::Tier;
use crate::program::Op;
use crate::request::Request;
use crate::week::Week;
use crate::words::Muscle;

/// Half-sets by muscle and week.
pub(super) struct WeeklyVolume;

/// Half-sets of a set: by no more a range is missed by a little, which is weighed with the rest of the coach's view. No
/// study tells nine and a half sets from ten.
const A_SET: f64 = 2.0;

/// More half-sets than any week has.
const MOST: f64 = 400.0;

impl Rule for WeeklyVolume {
    fn id(&self) -> &'static str {
        "weekly-volume"
    }
    fn summary(&self) -> &'static str {
        "every muscle's weekly sets lie inside its range"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (muscle, target) in &weekly.request.targets {
            let halves = weekly.halves(*muscle);
            let low = f64::from(to_halves(target.low));
            if target.strict {
                weekly.model.demand(self.id(), muscle.id(), halves, Op::Ge, low);
            } else {
                let (cost, points) = match muscle.is_major() {
                    true => (UNDER_MAJOR, JUST_UNDER_MAJOR),
                    false => (UNDER_MINOR, JUST_UNDER_MINOR),
                };
                let near = Near { by: A_SET.min(low), points };
                let cost = (Tier::Ranges, cost);
                weekly.miss_beyond(self.id(), muscle.id(), at_least(halves, low), near, cost);
            }
            range_end(self.id(), weekly, *muscle, target.high);
        }
        for (muscle, ceiling) in &weekly.request.ceilings {
            range_end(self.id(), weekly, *muscle, *ceiling);
        }
    }
    fn reason(&self, request: &Request, muscle: &str) -> Reason {
        let target = muscle.parse().ok().and_then(|muscle| request.targets.get(&muscle));
        let low = target.map_or(0.0, |target| target.low);
        let demand = Demand::about(muscle, &format!(" must get {low} sets a week"));
        Reason { demand, day: None, path: keys(["targets", muscle]), asked_by: AskedBy::Name }
    }
    fn relaxations(&self, request: &Request, muscle: &str) -> Vec<Relaxation> {
        let Ok(muscle) = muscle.parse::<Muscle>() else { return Vec::new() };
        match request.profile.targets.get(&muscle) {
            Some(TargetWish::Strict(wish)) => vec![Relaxation::Lower(muscle, wish.range[0])],
            _ => Vec::new(),
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for (muscle, target) in &request.targets {
            let halves = week.halves(*muscle);
            if halves < to_halves(target.low) {
                let wanted = Figure::sets(to_halves(target.low), Unit::SetsAWeek);
                let got = Figure::sets(halves, Unit::Sets);
                let finding = Finding::of_muscle(self.id(), *muscle, wanted, got);
                findings.push(if target.strict { finding } else { finding.as_shortfall() });
            }
        }
        let highs = request.targets.iter().map(|(muscle, target)| (muscle, target.high));
        let ceilings = request.ceilings.iter().map(|(muscle, ceiling)| (muscle, *ceiling));
        for (muscle, high) in highs.chain(ceilings) {
            let halves = week.halves(*muscle);
            if halves > to_halves(high) {
                let wanted = Figure::sets(to_halves(high), Unit::SetsAWeek).bounded(Bound::AtMost);
                let got = Figure::sets(halves, Unit::Sets);
                let finding = Finding::of_muscle(self.id(), *muscle, wanted, got);
                findings.push(finding.as_shortfall());
            }
        }
        findings
    }
}

fn range_end(rule: &'static str, weekly: &mut Weekly, muscle: Muscle, high: f64) {
    let halves = weekly.halves(muscle);
    if !halves.is_empty() {
        let wish = at_most(halves, f64::from(to_halves(high))).missed_by(MOST);
        let near = Near { by: A_SET, points: JUST_OVER_RANGE };
        weekly.miss_beyond(rule, muscle.id(), wish, near, (Tier::Ranges, OVER_RANGE));
    }
}
