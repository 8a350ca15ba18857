//! What a rework costs: every pick of the plan before that goes though it could stay, every new one beyond those that
//! stand in for picks that cannot stay, and, far less, every set moved.

use std::collections::BTreeSet;

use super::points::{PICK_CHANGED, SET_MOVED};
use super::tier::Tier;
use super::{Pick, Weekly};
use crate::program::{Op, Term};
use crate::request::Rework;

/// What the rows are called that leave days as they are.
pub(crate) const TODAY: &str = "today";
/// What the rows are called that do what a rework asks for by name.
pub(crate) const ASKED: &str = "asked";

/// The costs of changed picks, and the days that stay as they are.
pub(crate) fn add_changes(weekly: &mut Weekly) {
    let Some(rework) = &weekly.request.rework else { return };
    for pick in weekly.picks.clone() {
        let id = &weekly.request.candidates[pick.candidate].id;
        let name = weekly.name_of(&pick);
        let before = rework.picks.get(&(pick.day, id.clone())).copied();
        match before {
            None => {}
            Some(sets) => {
                let kept = f64::from(sets.clamp(pick.sets[0], pick.sets[1]) - pick.sets[0]);
                let gone = weekly.model.least(format!("gone_{name}"), 1.0);
                let row = vec![(pick.chosen, 1.0), (gone, 1.0)];
                weekly.model.define("changes", name.clone(), row, Op::Ge, 1.0);
                let moved = weekly.model.least(format!("moved_{name}"), 20.0);
                let more = vec![(pick.extra, 1.0), (moved, -1.0)];
                weekly.model.define("changes", name.clone(), more, Op::Le, kept);
                let fewer = vec![(pick.chosen, kept), (pick.extra, -1.0), (moved, -1.0)];
                weekly.model.define("changes", name.clone(), fewer, Op::Le, 0.0);
                weekly.count("changes", name.clone(), Tier::Changes, gone, PICK_CHANGED);
                weekly.count("changes", name, Tier::Changes, moved, SET_MOVED);
            }
        }
        let label = weekly.request.days[pick.day].label();
        if rework.frozen.contains(&pick.day) {
            let done = f64::from(u8::from(before.is_some()));
            let extra =
                before.map_or(0, |sets| sets.clamp(pick.sets[0], pick.sets[1]) - pick.sets[0]);
            weekly.model.demand(TODAY, label.clone(), vec![(pick.chosen, 1.0)], Op::Eq, done);
            let row = vec![(pick.extra, 1.0)];
            weekly.model.demand(TODAY, label.clone(), row, Op::Eq, f64::from(extra));
        }
        if let Some(done) = rework.asked.get(&(pick.day, id.clone())) {
            let done = f64::from(u8::from(*done));
            weekly.model.demand(ASKED, label, vec![(pick.chosen, 1.0)], Op::Eq, done);
        }
    }
    for day in weekly.days() {
        add_new(weekly, rework, day);
    }
}

/// New picks of a day cost where they are more than the picks of the day that cannot stay.
fn add_new(weekly: &mut Weekly, rework: &Rework, day: usize) {
    let id = |pick: &Pick| weekly.request.candidates[pick.candidate].id.clone();
    let known: BTreeSet<String> = weekly.on(day).map(id).collect();
    let before = rework.picks.keys().filter(|(other, _)| *other == day);
    let stays =
        |key: &&(usize, String)| known.contains(&key.1) && rework.asked.get(*key) != Some(&false);
    let (kept, lost): (Vec<_>, Vec<_>) = before.partition(stays);
    let is_new = |pick: &&Pick| !kept.iter().any(|(_, kept)| *kept == id(pick));
    let mut row: Vec<Term> = weekly.on(day).filter(is_new).map(|pick| (pick.chosen, 1.0)).collect();
    let label = weekly.request.days[day].label();
    let new = weekly.model.least(format!("new_{label}"), 20.0);
    row.push((new, -1.0));
    let free = f64::from(u32::try_from(lost.len()).unwrap_or(u32::MAX));
    weekly.model.define("changes", label.clone(), row, Op::Le, free);
    weekly.count("changes", label, Tier::Changes, new, PICK_CHANGED);
}
