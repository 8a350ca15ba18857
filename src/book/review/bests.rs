//! Personal bests over all that is written down.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde::Serialize;

use super::{About, name};
use crate::book::done::{Load, kilograms};
use crate::words::Measure;

/// Bests that are shown.
const SHOWN: usize = 12;

/// A best set.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BestSet {
    /// Its id.
    pub exercise: String,
    /// Its name.
    pub name: String,
    /// The day.
    pub date: String,
    /// The load in kilograms; none where the body was all.
    pub load_kg: Option<f64>,
    /// How much.
    pub amount: u32,
    /// What it counts.
    pub measure: Measure,
    /// Whether it was done in the span.
    pub is_new: bool,
    /// The first set of the exercise, as load and amount, where this one is better.
    pub before: Option<(Option<f64>, u32)>,
}

/// The best set of each exercise: the heaviest, of equals the one with most. Main lifts first, then those done most.
pub(super) fn bests(about: &About<'_>) -> Vec<BestSet> {
    type Set = (u32, u32, Date);
    let mut found: BTreeMap<&str, (Set, Set, Measure, usize)> = BTreeMap::new();
    for session in about.sessions.iter().filter(|session| session.date <= about.to) {
        for item in &session.items {
            for set in &item.sets {
                if !matches!(set.load, Load::Grams(_) | Load::Body) || set.amount == 0 {
                    continue;
                }
                let now = (set.load.grams().unwrap_or(0), set.both(), session.date);
                let best = found.entry(&item.exercise).or_insert((now, now, set.measure, 0));
                if (now.0, now.1) > (best.1.0, best.1.1) {
                    best.1 = now;
                }
                best.3 += 1;
            }
        }
    }
    let is_main = |id: &str| about.entries.get(id).is_some_and(|entry| entry.main);
    let mut list: Vec<_> = found.into_iter().collect();
    list.sort_by_key(|(id, (_, _, _, count))| (!is_main(id), std::cmp::Reverse(*count)));
    list.truncate(SHOWN);
    let load = |grams: u32| (grams > 0).then(|| kilograms(grams));
    list.into_iter()
        .map(|(id, (first, best, measure, _))| BestSet {
            exercise: id.to_owned(),
            name: name(about.entries, id),
            date: best.2.to_string(),
            load_kg: load(best.0),
            amount: best.1,
            measure,
            is_new: best.2 >= about.from,
            before: ((first.0, first.1) != (best.0, best.1)).then(|| (load(first.0), first.1)),
        })
        .collect()
}
