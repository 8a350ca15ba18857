//! An easier week that a coach puts in: fewer sets, one more in reserve, the same exercises and days.

use crate::input::plan::{Plan, Session, Week};
use crate::words::{Status, WeekKind};

/// The most that is left in reserve (RM-21: more cannot be judged).
const MOST_RESERVE: u32 = 5;

/// A third fewer sets of each exercise, for a beginner one fewer (the size of the cut is custom, VO-16), and one more in
/// reserve.
pub(super) fn ease(session: &mut Session, status: Status) {
    let works = session.groups.iter_mut().filter(|group| group.is_work());
    for item in works.flat_map(|group| &mut group.items) {
        let fewer = match status {
            Status::Novice => item.sets.saturating_sub(1),
            _ => item.sets * 2 / 3,
        };
        item.sets = fewer.max(1);
        let sets = usize::try_from(item.sets).unwrap_or(1);
        let lists = [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories];
        lists.into_iter().flatten().for_each(|list| list.truncate(sets));
        item.rir = item.rir.map(|rir| (rir + 1).min(MOST_RESERVE));
    }
}

/// What an easier week says of itself.
const NOTE: &str = "An easier week was put in: fewer sets, one more in reserve, nothing is raised.";

/// The week of a plan that a coach made an easier one; the last, where there are more.
#[must_use]
pub fn eased(plan: &Plan) -> Option<u32> {
    let is_eased = |week: &&Week| week.note.as_deref() == Some(NOTE);
    plan.weeks.iter().rev().find(is_eased).map(|week| week.week)
}

/// Calls a week an easier one.
pub(super) fn mark(plan: &mut Plan, number: u32) {
    let Some(week) = plan.weeks.iter_mut().find(|week| week.week == number) else { return };
    if week.kind == WeekKind::Easy {
        return;
    }
    week.kind = WeekKind::Easy;
    week.note = Some(NOTE.to_owned());
}
