//! Weeks improved by the solver: small ones whole, to the proof; of others, single days again while the rest
//! stands.

use super::effort::Effort;
use super::search::{Held, Search, costs};
use super::{Solution, vary};
use crate::program::backend::{Backend, Found, Work};
use crate::program::{Term, value};

impl Search<'_> {
    /// Every tier in turn to the proof, as far as the work goes.
    pub(super) fn whole(mut self, start: Vec<f64>, effort: Effort) -> Solution {
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
            let work = Some(Work { nodes: effort.whole_nodes });
            let cost_free = tier < 3 && reached > -1e-6;
            let bound = if cost_free {
                reached
            } else {
                match self.all_free(goal, Some(&values), work) {
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
        let blocks = vary::varied(&self, &values);
        self.finish(&blocks, bounds)
    }

    /// Days solved again: costs first where there are any, then points.
    pub(super) fn improved(&mut self, start: Vec<f64>, effort: Effort) -> Held {
        let mut values = start;
        for tier in 0..3 {
            let goal = match tier {
                0 => costs(&self.weekly.coverage),
                1 => costs(&self.weekly.ranges),
                _ => costs(&self.weekly.changes),
            };
            let reached = value(&goal, &values);
            if reached < -1e-6 {
                let held = Held { goal: reached, values };
                values = self.improve(&goal, held, effort).values;
            }
            self.hold(tier, &values);
        }
        let view = self.weekly.view.clone();
        let held = Held { goal: value(&view, &values), values };
        self.improve(&view, held, effort)
    }

    fn improve(&self, goal: &[Term], mut best: Held, effort: Effort) -> Held {
        for _ in 0..effort.rounds {
            let before = best.goal;
            best = self.improve_days(goal, best, effort);
            if best.goal <= before + 1e-6 {
                break;
            }
        }
        best
    }

    /// Solves single days again, each once.
    fn improve_days(&self, goal: &[Term], best: Held, effort: Effort) -> Held {
        self.weekly.days().fold(best, |best, day| match self.again(goal, &best, day, effort) {
            Some(found) if found.objective > best.goal + 1e-6 => {
                Held { goal: found.objective, values: found.values }
            }
            _ => best,
        })
    }

    /// One day solved again from where it stands, the other days as they are.
    fn again(&self, goal: &[Term], best: &Held, day: usize, effort: Effort) -> Option<Found> {
        let mut fixed: Vec<Option<f64>> = vec![None; self.weekly.model.vars.len()];
        for other in self.weekly.days().filter(|other| *other != day) {
            for var in self.day_vars(other) {
                fixed[var] = Some(best.values[var]);
            }
        }
        let work = Some(Work { nodes: effort.nodes });
        self.part(Backend::default(), goal, &fixed, Some(&best.values), work).ok()
    }

    /// The variables that belong to a day: its picks and pairs.
    fn day_vars(&self, day: usize) -> Vec<usize> {
        let mut vars = Vec::new();
        for pick in self.weekly.on(day) {
            vars.extend([pick.chosen.0, pick.extra.0]);
            vars.extend(pick.paired.map(|var| var.0));
        }
        let pairs = self.weekly.pairs.iter().filter(|pair| pair.day == day);
        vars.extend(pairs.map(|pair| pair.count.0));
        vars
    }
}
