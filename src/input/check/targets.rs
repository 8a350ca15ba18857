//! Wished ranges: weekly sets and the week's balance.

use super::Case;
use crate::diagnostic::Diagnostic;
use crate::input::profile::{BalanceWish, TargetWish};
use crate::path;
use crate::words::Muscle;

/// The most weekly sets of a muscle that can be asked for; far above every recommendation.
const MOST_SETS: f64 = 60.0;

/// Each target with the path of its two numbers.
fn ranges<'a>(case: &'a Case<'_>) -> impl Iterator<Item = (Muscle, [f64; 2], bool)> + 'a {
    case.profile.targets.iter().map(|(muscle, wish)| match wish {
        TargetWish::Range(range) => (*muscle, *range, false),
        TargetWish::Strict(strict) => (*muscle, strict.range, true),
    })
}

/// E1309: a range is written from low to high.
pub(super) fn e1309_low_comes_first(case: &Case<'_>) -> Vec<Diagnostic> {
    let falling = ranges(case).filter(|(_, [low, high], _)| low > high);
    falling
        .map(|(muscle, [low, high], _)| {
            let message = format!("the target of `{muscle}` falls from {low} to {high}");
            Diagnostic::error("E1309", message)
                .at(case.marks.at(path!["targets", muscle.id()], "low end first"))
                .help(format!("write it like `{muscle}: [{high}, {low}]`"))
        })
        .collect()
}

/// E1310: nobody does more than 60 sets for a muscle in a week, or fewer than none.
pub(super) fn e1310_sets_can_be_done(case: &Case<'_>) -> Vec<Diagnostic> {
    let mut faults = Vec::new();
    for (muscle, range, is_map) in ranges(case) {
        for (index, sets) in range.into_iter().enumerate() {
            if (0.0..=MOST_SETS).contains(&sets) {
                continue;
            }
            let label = if is_map {
                let path = path!["targets", muscle.id(), "range", index];
                case.marks.at(path, "out of range")
            } else {
                let path = path!["targets", muscle.id(), index];
                case.marks.at(path, "out of range")
            };
            let message = format!("`{muscle}` cannot have {sets} sets a week");
            faults.push(Diagnostic::error("E1310", message).at(label).help(format!(
                "write weekly sets from 0 to {MOST_SETS}, as in `{muscle}: [8, 14]`"
            )));
        }
    }
    faults
}

/// E1311: a band of balance has a low end above none and below its high end.
pub(super) fn e1311_bands_can_be_met(case: &Case<'_>) -> Vec<Diagnostic> {
    let BalanceWish { pull_push, knee_hip } = case.profile.balance;
    let bands = [("pull_push", pull_push), ("knee_hip", knee_hip)];
    let wrong =
        bands.into_iter().filter(|(_, [low, high])| *low < 0.0 || low > high || *high <= 0.0);
    wrong
        .map(|(key, [low, high])| {
            Diagnostic::error("E1311", format!("no week can have `{key}` from {low} to {high}"))
                .at(case.marks.at(path!["balance", key], "not a band"))
                .help(format!("write the low end first, as in `{key}: [0.9, 1.5]`"))
        })
        .collect()
}
