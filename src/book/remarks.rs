//! What is remarked about a session as it was written: kept all the same.

use std::collections::BTreeMap;

use super::done::{DoneSession, kilograms};
use crate::input::catalog::Entry;
use crate::strength::ladder::{Ladder, mass_text};
use crate::words::Units;

/// Loads that the place cannot make, exercises that are not on that day, numbers far from what was planned.
pub fn remarks(
    session: &DoneSession,
    entries: &BTreeMap<String, Entry>,
    ladder: &dyn Fn(&Entry) -> Option<Ladder>,
    units: Units,
) -> Vec<String> {
    let mut remarks = Vec::new();
    for item in &session.items {
        let Some(entry) = entries.get(&item.exercise) else { continue };
        if item.asked.is_none() && session.week.is_some() {
            remarks.push(format!("`{}` is not on that day: taken as an extra", item.exercise));
        }
        let ladder = ladder(entry);
        let mut loads: Vec<u32> = item.sets.iter().filter_map(|set| set.load.grams()).collect();
        loads.sort_unstable();
        loads.dedup();
        for load in loads {
            let load_kg = kilograms(load);
            if let Some(ladder) = ladder.as_ref().filter(|ladder| !near(ladder, load_kg)) {
                let nearest = ladder.at_most(load_kg).unwrap_or_else(|| ladder.lightest());
                remarks.push(format!(
                    "`{}`: the place cannot make {}, the nearest is {}: kept as written",
                    item.exercise,
                    mass_text(load_kg, units),
                    mass_text(nearest, units)
                ));
            }
        }
    }
    remarks
}

/// Whether the place makes a load to a few grams: pounds are kept in whole grams.
fn near(ladder: &Ladder, load_kg: f64) -> bool {
    const FEW: f64 = 0.006;
    ladder.makes(load_kg)
        || [ladder.at_most(load_kg + FEW), ladder.at_least((load_kg - FEW).max(0.0))]
            .into_iter()
            .flatten()
            .any(|made| (made - load_kg).abs() <= FEW)
}
