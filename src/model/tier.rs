//! The tiers of wishes: each is improved only where none before it loses by it.

use std::fmt;
use std::ops::{Index, IndexMut};

/// A tier, the first one first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tier {
    /// Costs of patterns and floors that are missed.
    Coverage,
    /// Costs of ranges and balance that are missed.
    Ranges,
    /// Costs of what a rework changes.
    Changes,
    /// Points of the coach's view.
    View,
}

impl Tier {
    /// All of them, in order.
    pub const ALL: [Tier; 4] = [Tier::Coverage, Tier::Ranges, Tier::Changes, Tier::View];

    /// Its name in plans.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Tier::Coverage => "coverage",
            Tier::Ranges => "ranges and balance",
            Tier::Changes => "changes",
            Tier::View => "coach's view",
        }
    }

    /// Whether less of it is better: the last tier alone has points.
    #[must_use]
    pub const fn is_cost(self) -> bool {
        !matches!(self, Tier::View)
    }

    /// How much better one value is than another.
    #[must_use]
    pub fn gain(self, value: f64, over: f64) -> f64 {
        if self.is_cost() { over - value } else { value - over }
    }
}

impl fmt::Display for Tier {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Something of each tier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PerTier<T>([T; 4]);

impl<T> PerTier<T> {
    /// What a function says of each tier, asked in their order.
    pub fn of(what: impl FnMut(Tier) -> T) -> PerTier<T> {
        PerTier(Tier::ALL.map(what))
    }

    /// The same of what a function makes of each.
    pub fn map<U>(self, what: impl FnMut(T) -> U) -> PerTier<U> {
        PerTier(self.0.map(what))
    }

    /// Each tier with what is its own, in order.
    pub fn iter(&self) -> impl Iterator<Item = (Tier, &T)> {
        Tier::ALL.into_iter().zip(&self.0)
    }
}

impl<T> Index<Tier> for PerTier<T> {
    type Output = T;
    fn index(&self, tier: Tier) -> &T {
        &self.0[tier as usize]
    }
}

impl<T> IndexMut<Tier> for PerTier<T> {
    fn index_mut(&mut self, tier: Tier) -> &mut T {
        &mut self.0[tier as usize]
    }
}
