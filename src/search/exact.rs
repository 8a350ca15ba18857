//! Weeks solved whole, to the proof as far as the work goes.

use super::problem::SplitProblem;
use super::relaxation::relaxed;
use super::solution::Solution;
use crate::model::tier::PerTier;
use crate::program::value;

impl SplitProblem<'_> {
    /// Every tier in turn to the proof, as far as the work goes.
    pub(super) fn exact(mut self, start: Vec<f64>) -> Solution {
        let mut values = start;
        let bounds = PerTier::of(|tier| {
            let goal = &self.weekly.objective_of(tier);
            let reached = value(goal, &values);
            let cost_free = tier.is_cost() && reached > -1e-6;
            let bound = if cost_free {
                reached
            } else {
                match self.solved(goal, Some(&values)) {
                    Ok(found) => {
                        if found.objective > reached + 1e-6 {
                            values = found.values;
                        }
                        found.bound
                    }
                    Err(_) => {
                        relaxed(&self.weekly, goal).map_or(f64::INFINITY, |found| found.objective)
                    }
                }
            };
            let bound = bound.max(value(goal, &values));
            self.hold(tier, &values);
            if tier.is_cost() { (-bound).max(0.0) } else { bound }
        });
        self.release();
        self.solution(&self.blocks(&values), bounds)
    }
}
