//! What a week is worth: rows that it breaks, the costs of the tiers, and the points of the last.

use std::cmp::Ordering;

use crate::model::tier::{PerTier, Tier};

/// Less than this is rounding.
pub(in crate::search) const ROUNDING: f64 = 1e-6;

/// Broken rows, then costs and points by tier: that is the order in which they count.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(in crate::search) struct Score {
    /// By how much rows are broken, each in steps of its largest factor.
    pub(in crate::search) broken: f64,
    /// Costs, and points in the last tier.
    pub(in crate::search) tiers: PerTier<f64>,
}

impl Score {
    /// Whether the week keeps all rows.
    pub(in crate::search) fn is_feasible(&self) -> bool {
        self.broken < ROUNDING
    }

    /// Whether it has costs of tier 1 or 2.
    pub(in crate::search) fn misses(&self) -> bool {
        self.tiers[Tier::Coverage] + self.tiers[Tier::Ranges] > ROUNDING
    }

    /// Whether it has more costs of tiers 1 and 2, one after the other.
    pub(in crate::search) fn misses_more(&self, other: &Score) -> bool {
        let more = [Tier::Coverage, Tier::Ranges].map(|tier| self.tiers[tier] - other.tiers[tier]);
        more.into_iter().find(|more| more.abs() > ROUNDING).is_some_and(|more| more > 0.0)
    }

    /// The better one first.
    pub(in crate::search) fn order(&self, other: &Score) -> Ordering {
        let by_tier = Tier::ALL.map(|tier| tier.gain(other.tiers[tier], self.tiers[tier]));
        let worse = std::iter::once(self.broken - other.broken).chain(by_tier);
        let first = worse.into_iter().find(|worse| worse.abs() > ROUNDING);
        first.map_or(Ordering::Equal, |worse| worse.total_cmp(&0.0))
    }

    /// Whether it is better, one tier after another.
    pub(in crate::search) fn beats(&self, other: &Score) -> bool {
        self.order(other).is_lt()
    }

    /// Something is worth this in place of that.
    #[inline]
    pub(super) fn change(&mut self, before: &Score, after: &Score) {
        self.broken = self.broken + after.broken - before.broken;
        for tier in Tier::ALL {
            self.tiers[tier] = self.tiers[tier] + after.tiers[tier] - before.tiers[tier];
        }
    }

    /// More of everything, so many times.
    pub(super) fn add(&mut self, other: &Score, times: f64) {
        self.broken += times * other.broken;
        for tier in Tier::ALL {
            self.tiers[tier] += times * other.tiers[tier];
        }
    }
}
