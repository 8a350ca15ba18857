//! The seed chooses among equals only.

use weekwright::planner::Options;

use super::profiles::small;
use super::run::for_all;
use crate::rules::check::PLANNER;

#[test]
fn no_seed_costs_a_tier_anything() {
    for_all(2, small(), |profile| {
        let tiers = |seed: u64| {
            let plan = PLANNER.plan(profile, &Options { seed, ..Options::default() });
            let solve = plan.map_err(|why| format!("{why:?}"))?.solve.unwrap();
            Ok::<Vec<f64>, String>(solve.tiers.iter().take(3).map(|tier| tier.value).collect())
        };
        let first = tiers(0)?;
        for seed in 1..5 {
            let other = tiers(seed)?;
            if first.iter().zip(&other).any(|(one, two)| (one - two).abs() > 1e-4) {
                return Err(format!("seed {seed}: {other:?} and not {first:?}"));
            }
        }
        Ok(())
    });
}
