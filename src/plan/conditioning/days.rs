//! On which days hard intervals may end a session.

use super::{Conditioning, needs};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::plan::file::Session;
use crate::words::{Effort, Kit, Pattern, Side, Status, Weekday};

/// The days of hard sport and those before them.
pub(super) fn busy(profile: &Profile) -> Vec<Weekday> {
    let hard = profile.other_training.iter().filter(|one| one.load == Effort::Hard);
    let hard: Vec<Weekday> = hard.map(|one| one.day).collect();
    let is_busy = |day: &Weekday| hard.contains(day) || hard.contains(&day_after(*day));
    Weekday::ALL.iter().copied().filter(is_busy).collect()
}

/// For each session, whether hard intervals may end it: not within 24 hours before heavy legs, nor on an ergometer
/// before pulls and hinges, nor on the day of hard sport or the day before (common practice); at most one such session a
/// week, for the advanced two.
#[must_use]
pub fn interval_days<'a>(
    sessions: &[Session],
    conditioning: &Conditioning<'_>,
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) -> Vec<bool> {
    let pulls =
        |entry: &Entry| needs(entry, Kit::RowingErgometer) || needs(entry, Kit::SkiErgometer);
    let mut left = if conditioning.status == Status::Advanced { 2 } else { 1 };
    sessions
        .iter()
        .enumerate()
        .map(|(place, session)| {
            let rows = conditioning.in_turn(place).intervals.is_some_and(pulls);
            let next = day_after(session.day);
            let mut tomorrow = sessions.iter().filter(|other| other.day == next);
            let fits = left > 0
                && !conditioning.busy.contains(&session.day)
                && !tomorrow.any(|other| is_loaded(other, rows, entry));
            left -= i32::from(fits);
            fits
        })
        .collect()
}

fn day_after(day: Weekday) -> Weekday {
    Weekday::ALL[(day.index() + 1) % Weekday::ALL.len()]
}

fn is_loaded<'a>(session: &Session, rows: bool, entry: &dyn Fn(&str) -> Option<&'a Entry>) -> bool {
    let items =
        session.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items);
    let mut patterns = items.filter_map(|item| entry(&item.exercise)?.pattern);
    patterns.any(|pattern| match pattern.side() {
        Some(Side::Legs) => pattern != Pattern::PlantarFlexion,
        Some(Side::Pull) => rows && pattern.press_or_row().is_some(),
        _ => false,
    })
}
