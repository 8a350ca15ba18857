//! Sets and repetitions of a week.

use crate::plan::calendar::WeekPlan;
use crate::plan::file::Item;
use crate::plan::screening::CarefulStart;
use crate::words::Status;

/// Sets of a week: a third fewer in a light one (custom, VO-16), one fewer in a novice's; from 65 few at first, and one
/// more each week.
pub(super) fn week_sets(
    planned: u32,
    plan: WeekPlan,
    status: Status,
    careful: &CarefulStart,
) -> u32 {
    let sets = match (plan.is_light, status) {
        (true, Status::Novice) => planned.saturating_sub(1),
        (true, _) => planned * 2 / 3,
        (false, _) => planned,
    };
    let first = careful.first_week_sets.map_or(u32::MAX, |first| first + plan.week - 1);
    let most = first.min(careful.most_sets.unwrap_or(u32::MAX));
    sets.min(most).clamp(1, planned.max(1))
}

/// Writes one amount for every set.
pub(super) fn set_amounts(item: &mut Item, amount: u32) {
    let sets = usize::try_from(item.sets).unwrap_or(1);
    let lists = [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories];
    for list in lists.into_iter().flatten() {
        *list = vec![amount; sets];
    }
}
