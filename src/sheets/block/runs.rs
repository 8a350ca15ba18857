//! Which weeks share a card.

use std::collections::BTreeSet;

use super::COLUMNS;
use crate::plan::file::Week;

/// Runs of weeks with the same exercises, each cut into near equal parts of at most four weeks.
pub(super) fn of(weeks: &[Week]) -> Vec<&[Week]> {
    let mut parts = Vec::new();
    let mut start = 0;
    for end in 1..=weeks.len() {
        if end == weeks.len() || is_new(&weeks[start..end], &weeks[end]) {
            parts.extend(cut(&weeks[start..end]));
            start = end;
        }
    }
    parts
}

/// Whether over a third of the week's exercises are not in the run so far: then it is a new list,
/// and not the same one with an addition.
fn is_new(run: &[Week], week: &Week) -> bool {
    let known: BTreeSet<&str> = run.iter().flat_map(exercises).collect();
    let list: BTreeSet<&str> = exercises(week).collect();
    list.difference(&known).count() * 3 > list.len()
}

fn exercises(week: &Week) -> impl Iterator<Item = &str> {
    let groups = week.sessions.iter().flat_map(|session| &session.groups);
    let work = groups.filter(|group| group.is_work());
    work.flat_map(|group| &group.items).map(|item| item.exercise.as_str())
}

fn cut(run: &[Week]) -> impl Iterator<Item = &[Week]> {
    let parts = run.len().div_ceil(COLUMNS).max(1);
    run.chunks(run.len().div_ceil(parts).max(1))
}
