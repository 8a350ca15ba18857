//! `more-sets`: inside its range every muscle gets as many sets as the minutes give, each worth less.
//!
//! The benefit is concave in sets (Pelland et al. 2024): three points a half-set up to the middle of the range,
//! one up to its end, doubled for a muscle that should get more. No binaries are needed for a concave benefit.

use super::{Finding, Force, Rule, to_halves};
use crate::model::{Weekly, minus};
use crate::program::{Op, Term};
use crate::request::{EXTRAS, Request};
use crate::week::Week;
use crate::words::Emphasis;

/// Points for half-sets above the low end.
pub(super) struct MoreSets;

const TO_MIDDLE: f64 = 3.0;
const TO_HIGH: f64 = 1.0;

/// Half-sets of a smaller muscle without a target that are worth a point each.
const EXTRA_HALVES: f64 = 8.0;

fn extras(rule: &'static str, weekly: &mut Weekly) {
    for muscle in EXTRAS.iter().filter(|muscle| !weekly.request.targets.contains_key(muscle)) {
        let mut row: Vec<Term> = minus(weekly.halves(*muscle));
        if row.is_empty() || weekly.request.profile.emphasis.get(muscle) == Some(&Emphasis::Less) {
            continue;
        }
        let some = weekly.model.most(format!("extra_{muscle}"), EXTRA_HALVES);
        row.push((some, 1.0));
        weekly.model.row(rule, muscle.id(), row, Op::Le, 0.0);
        let factor = if weekly.request.profile.emphasis.contains_key(muscle) { 2.0 } else { 1.0 };
        weekly.view.push((some, factor));
    }
}

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
            let middle = u32::midpoint(low, high);
            let factor = match weekly.request.profile.emphasis.get(muscle) {
                Some(Emphasis::More) => 2.0,
                Some(Emphasis::Less) => 0.0,
                None => 1.0,
            };
            let mut row: Vec<Term> = minus(weekly.halves(*muscle));
            if row.is_empty() || factor == 0.0 {
                continue;
            }
            for (name, width, points) in [
                ("base", low, TO_MIDDLE),
                ("middle", middle - low, TO_MIDDLE),
                ("high", high - middle, TO_HIGH),
            ] {
                let step = weekly.model.most(format!("{name}_{muscle}"), f64::from(width));
                row.push((step, 1.0));
                weekly.view.push((step, factor * points));
            }
            weekly.model.row(self.id(), muscle.id(), row, Op::Le, 0.0);
        }
        extras(self.id(), weekly);
    }
    fn recount(&self, _request: &Request, _week: &Week) -> Vec<Finding> {
        Vec::new()
    }
}
