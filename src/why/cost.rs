//! What a change of the week costs in each tier.

use std::fmt;

use serde::Serialize;

/// What something costs, re-solved: how much worse each tier gets; negative is better.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Cost {
    /// Patterns and floors.
    pub coverage: f64,
    /// Ranges and balance.
    pub ranges: f64,
    /// Points of the coach's view.
    pub view: f64,
}

impl Cost {
    /// Whether nothing gets worse.
    #[must_use]
    pub fn is_free(&self) -> bool {
        [self.coverage, self.ranges, self.view].iter().all(|amount| *amount < 1e-9)
    }
}

impl fmt::Display for Cost {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let amounts = [
            (self.coverage, "of coverage"),
            (self.ranges, "of ranges and balance"),
            (self.view, "points of the coach's view"),
        ];
        let told = amounts.iter().filter(|(amount, _)| amount.abs() > 1e-9);
        let told = told.map(|(amount, what)| match amount {
            amount if *amount > 0.0 => format!("costs {amount} {what}"),
            amount => format!("wins {} {what}", -amount),
        });
        let parts: Vec<String> = told.collect();
        f.write_str(&if parts.is_empty() { "costs nothing".to_owned() } else { parts.join(", ") })
    }
}
