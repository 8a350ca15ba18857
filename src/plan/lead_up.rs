//! Which lifts of a session are led up to by lighter sets, and in how many steps.
//!
//! The first heavy lift has all the steps that its time is kept for. What comes later finds warm joints and needs fewer,
//! never none: its own muscles, or the load, are new. Common practice.

use std::collections::BTreeSet;

use super::ramp::{self, ramp};
use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::request::candidate::Candidate;
use crate::request::dose::Duty;
use crate::strength::ladder::Ladder;
use crate::words::LoadKind;

/// Steps of a session: 70 s each stay under ten minutes.
const MOST_STEPS: usize = 8;
/// Sets of up to so many repetitions are led up to where the movement is warm, with any kit.
const HEAVY_REPS: u32 = 8;

/// A lift with the load that is led up to.
struct Lift<'a> {
    item: &'a mut Item,
    ladder: Ladder,
    load_kg: f64,
    reps: u32,
}

impl Lift<'_> {
    fn led_up_in(&mut self, steps: usize) {
        self.item.ramp = ramp(Some(self.load_kg), Some(&self.ladder), self.reps, steps);
    }
}

/// Writes the ramps of a day's lifts in their order. Where they are too many, the longest gives a step, rather the later.
pub(super) fn lead_up<'a>(
    day: impl Iterator<Item = (&'a Candidate, &'a mut Item)>,
    ladder: &dyn Fn(&Entry) -> Option<Ladder>,
    is_generous: bool,
) {
    let mut warm = BTreeSet::new();
    let mut is_first = true;
    let mut lifts: Vec<Lift<'a>> = Vec::new();
    for (candidate, item) in day {
        let is_warm = !warm.insert(candidate.pattern);
        let steps = steps(candidate, (is_warm, is_first), is_generous);
        let found = first_load(candidate, item).zip(ladder(&candidate.entry));
        let Some((load_kg, ladder)) = found.filter(|_| steps > 0) else { continue };
        let mut lift = Lift { item, ladder, load_kg, reps: candidate.amount };
        lift.led_up_in(steps);
        if !lift.item.ramp.is_empty() {
            is_first &= candidate.duty != Duty::Main || hangs(candidate);
            lifts.push(lift);
        }
    }
    while lifts.iter().map(|lift| lift.item.ramp.len()).sum::<usize>() > MOST_STEPS {
        let longest = lifts.iter_mut().max_by_key(|lift| lift.item.ramp.len());
        let Some(lift) = longest else { return };
        lift.led_up_in(lift.item.ramp.len() - 1);
    }
}

fn hangs(candidate: &Candidate) -> bool {
    candidate.entry.load == LoadKind::BodyweightPlus
}

/// What is led up to: with weights in the hands or on a stack the climb to an unknown load is its own way up.
fn first_load(candidate: &Candidate, item: &Item) -> Option<f64> {
    let is_bar = candidate.entry.load == LoadKind::BarTotal;
    let climb = item.find_load.as_ref().filter(|_| is_bar).map(|find| find.start_kg);
    item.load_kg.or(climb)
}

/// Steps to a main or fast lift: those that its time was kept for, and, where minutes are over, what kit for the legs and a
/// belt take beyond them.
fn steps(candidate: &Candidate, (is_warm, is_first): (bool, bool), is_generous: bool) -> usize {
    let (load, amount) = (candidate.entry.load, candidate.amount);
    let is_bar = load == LoadKind::BarTotal;
    let wanted = candidate.duty == Duty::Main || (candidate.duty == Duty::Explosive && is_bar);
    if !wanted || !ramp::is_wanted(candidate.duty, amount) {
        return 0;
    }
    let kept = candidate.ramp_sets;
    let more = match load {
        LoadKind::PlateMachine if amount <= HEAVY_REPS && candidate.is_leg_lift() => 2,
        LoadKind::BodyweightPlus => 1,
        _ => 0,
    };
    let most = if is_generous { kept.max(more) } else { kept };
    match (is_warm, is_first) {
        (true, _) if is_bar || amount <= HEAVY_REPS => most.min(1),
        (true, _) => 0,
        (false, true) => most,
        // A bar on the legs keeps three steps of four, any other lift two.
        (false, false) => most.min((most - most.min(1)).max(2)),
    }
}
