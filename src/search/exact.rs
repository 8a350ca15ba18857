//! Weeks solved whole, to the proof as far as the work goes.

use super::problem::{SplitProblem, costs};
use super::solution::Solution;
use crate::program::value;

impl SplitProblem<'_> {
    /// Every tier in turn to the proof, as far as the work goes.
    pub(super) fn exact(mut self, start: Vec<f64>) -> Solution {
        let weekly = &self.weekly;
        let tiers = [
            costs(&weekly.coverage),
            costs(&weekly.ranges),
            costs(&weekly.changes),
            weekly.view.clone(),
        ];
        let mut values = start;
        let mut bounds = [0.0; 4];
        for (tier, goal) in tiers.iter().enumerate() {
            let reached = value(goal, &values);
            let cost_free = tier < 3 && reached > -1e-6;
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
                    Err(_) => self.relaxed(goal).map_or(f64::INFINITY, |found| found.objective),
                }
            };
            let bound = bound.max(value(goal, &values));
            bounds[tier] = if tier < 3 { (-bound).max(0.0) } else { bound };
            self.hold(tier, &values);
        }
        self.release();
        self.varied(&values, bounds)
    }
}
