//! Effort that rises at the same load: the first sign of a load, or a week, that is too much.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{About, name};
use crate::book::done::{DoneSession, kilograms};
use crate::book::history;
use crate::book::slope::theil_sen;

/// Sessions at one load that are needed, and repetitions of reserve that must be gone. Common practice.
const LEAST_SESSIONS: usize = 3;
const LEAST_DROP: f64 = 1.0;

/// An exercise whose reserve shrinks at the same load and repetitions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drift {
    /// Its id.
    pub exercise: String,
    /// Its name.
    pub name: String,
    /// The load in kilograms.
    pub load_kg: f64,
    /// Repetitions of the last set.
    pub reps: u32,
    /// The reserve of the first and of the last of these sessions.
    pub reserve: [u32; 2],
    /// How many sessions.
    pub sessions: usize,
}

pub(super) fn drifts(about: &About<'_>, sessions: &[DoneSession]) -> Vec<Drift> {
    let mut ids: Vec<&str> = sessions
        .iter()
        .flat_map(|session| &session.items)
        .map(|item| item.exercise.as_str())
        .collect();
    ids.sort_unstable();
    ids.dedup();
    ids.into_iter().filter_map(|id| drift(about, sessions, id)).collect()
}

fn drift(about: &About<'_>, sessions: &[DoneSession], id: &str) -> Option<Drift> {
    let mut at: BTreeMap<(u32, u32), Vec<(f64, u32)>> = BTreeMap::new();
    for one in history::of(id, sessions) {
        let Some((load, reserve)) = one.load.grams().zip(one.reserve) else { continue };
        let days = f64::from((one.date - about.from).get_days());
        at.entry((load, one.last())).or_default().push((days, reserve));
    }
    let ((load, reps), told) = at.into_iter().max_by_key(|(load, told)| (told.len(), *load))?;
    if told.len() < LEAST_SESSIONS {
        return None;
    }
    let points: Vec<(f64, f64)> =
        told.iter().map(|(days, left)| (*days, f64::from(*left))).collect();
    let (first, last) = (told.first()?, told.last()?);
    let line = theil_sen(&points)?;
    (line.slope * (last.0 - first.0) <= -LEAST_DROP).then(|| Drift {
        exercise: id.to_owned(),
        name: name(about.entries, id),
        load_kg: kilograms(load),
        reps,
        reserve: [first.1, last.1],
        sessions: told.len(),
    })
}
