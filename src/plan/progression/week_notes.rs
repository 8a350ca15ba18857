//! What a week is for, in a sentence or two at its head.

use crate::plan::calendar::{WeekPlan, calendar};
use crate::plan::progression::Course;
use crate::words::{Goal, Status, WeekKind};

/// The note of a week; `rotates` where exercises come in that no week had before.
#[must_use]
pub(super) fn note(course: &Course<'_>, plan: WeekPlan, rotates: bool) -> String {
    let mut sentences = vec![about(course, plan).to_owned()];
    if plan.in_block == 0 && rotates {
        sentences.push(
            "New block: the main lifts stay, some other exercises change; find their loads afresh."
                .to_owned(),
        );
    }
    if course.conditioning.is_some_and(|conditioning| conditioning.from_week() == plan.week) {
        sentences.push("Conditioning comes in at the end of sessions.".to_owned());
    }
    let before = calendar(course.profile.training_status, course.profile.weeks)
        .into_iter()
        .find(|before| before.week + 1 == plan.week);
    if before.is_some_and(|before| before.kind == WeekKind::Test) {
        sentences.push("Loads come from the week of measures where it showed others.".to_owned());
    }
    sentences.join(" ")
}

fn about(course: &Course<'_>, plan: WeekPlan) -> &'static str {
    let status = course.profile.training_status;
    match (plan.kind, plan.is_light) {
        (WeekKind::Test, light) => test(course, light),
        (_, true) if status == Status::Novice && plan.week == 1 => {
            "An easy first week: a set less of each exercise, the movements come first."
        }
        (_, true) if status == Status::Novice => {
            "The block begins with an easier week: a set less of each exercise."
        }
        (_, true) => {
            "An easier week: about a third fewer sets, lighter sets, the same exercises and days."
        }
        (WeekKind::Base, _) if is_heavy(course) => {
            "The block begins: main lifts at its first loads, elsewhere one more repetition in reserve."
        }
        (WeekKind::Base, _) => "The block begins with one more repetition in reserve.",
        _ if is_heavy(course) => {
            "Main lifts follow the block's loads; elsewhere a repetition more, or where the range is full the next load from its low end."
        }
        _ if status == Status::Novice && plan.week == 2 => {
            "The week as planned, at the low end of the repetitions: loads are found, nothing is raised yet."
        }
        _ => {
            "A repetition more in each set than in the last full week, or where the range is full the next load from its low end; repeat the week if it did not go well."
        }
    }
}

fn is_heavy(course: &Course<'_>) -> bool {
    let profile = course.profile;
    let by_goal = matches!(profile.goal, Goal::Strength | Goal::Power);
    let advanced = profile.training_status == Status::Advanced
        && profile.goal != Goal::Endurance
        && !profile.known_lifts.is_empty();
    (by_goal && profile.training_status != Status::Novice) || advanced
}

fn test(course: &Course<'_>, light: bool) -> &'static str {
    let heavy = course.profile.training_status != Status::Novice && course.careful.heavy_sets;
    match (heavy, light) {
        (true, true) => {
            "A lighter week of measures: body measures on one morning, and on each main lift a last set that leaves one in reserve; no try for a single needed."
        }
        (true, false) => {
            "A week of measures: body measures on one morning, and on each main lift a last set that leaves one in reserve; no try for a single needed."
        }
        (false, _) => {
            "A week of measures: body measures on one morning, and the repetitions of each main lift's last set written down; no heavy tries."
        }
    }
}
