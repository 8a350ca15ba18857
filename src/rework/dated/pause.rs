//! A pause, and the first week back.

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::{date_of, finished, week_of};
use crate::input::clock;
use crate::input::plan::{Pause, Plan, Session, Week};
use crate::input::profile::Profile;
use crate::plan::calendar::week_date;
use crate::plan::pounds;
use crate::planner::Planner;
use crate::rework::table::Table;
use crate::rework::{NoRework, Outcome, Reworked, profile_of};
use crate::timing::fill_in;
use crate::words::WeekKind;

/// A pause: its sessions are left out, the weeks after it move, and the first one back is easier.
///
/// A third fewer sets, one repetition more in reserve, and after more than a week off a tenth off the loads: common practice.
pub(super) fn pause(
    planner: &Planner,
    plan: &Plan,
    [from, to]: [Date; 2],
) -> Result<Outcome, NoRework> {
    let week = week_of(plan, from)?.week;
    let profile = profile_of(plan)?;
    let place = plan.weeks.iter().position(|one| one.week == week).unwrap_or(0);
    let first = plan.weeks[place].date.as_deref().and_then(clock::date).unwrap_or(from);
    let is_begun = plan.weeks[place]
        .sessions
        .iter()
        .any(|session| date_of(&plan.weeks[place], session).is_some_and(|on| on < from));
    // A week that was begun stays where it is with what was done of it; the next ones move.
    let moves_from = if is_begun { place + 1 } else { place };
    let next = first.checked_add(if is_begun { 7.days() } else { 0.days() }).unwrap_or(first);
    let days = (to - next).get_days() + 1;
    let by = u32::try_from(days.max(0)).unwrap_or(0).div_ceil(7);
    let mut new = plan.clone();
    if is_begun {
        let week = new.weeks[place].clone();
        let is_on =
            |session: &Session| date_of(&week, session).is_none_or(|on| on < from || on > to);
        new.weeks[place].sessions.retain(is_on);
    }
    for (ahead, week) in new.weeks.iter_mut().enumerate().skip(moves_from) {
        let number = u32::try_from(ahead).unwrap_or(0) + 1 + shift(plan, week.week) + by;
        let start = profile.start.as_deref().and_then(clock::date);
        week.date = start.and_then(|start| week_date(start, number));
    }
    let long = (to - from).get_days() + 1 > 7;
    let back = new.weeks.get(moves_from).map(|week| week.week);
    if let Some(week) = new.weeks.get_mut(moves_from) {
        ease(planner, profile, week, long);
    }
    new.pauses.push(Pause { from: from.to_string(), to: to.to_string(), week: back, by });
    let made = Reworked { plan: new.clone(), table: Table::default(), written: None };
    Ok(finished(plan, new, &made, format!("off {from} to {to}"), &[]))
}

/// Weeks by which earlier pauses moved a week.
fn shift(plan: &Plan, week: u32) -> u32 {
    let before = plan.pauses.iter().filter(|pause| pause.week.is_some_and(|back| back <= week));
    before.map(|pause| pause.by).sum()
}

/// The first week back.
fn ease(planner: &Planner, profile: &Profile, week: &mut Week, long: bool) {
    let entry = |id: &str| planner.catalog().get(id);
    for session in &mut week.sessions {
        let works = session.groups.iter_mut().filter(|group| group.is_work());
        for item in works.flat_map(|group| &mut group.items) {
            let sets = (item.sets * 2 / 3).max(1);
            for list in [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories]
                .into_iter()
                .flatten()
            {
                list.truncate(sets as usize);
            }
            item.sets = sets;
            item.rir = item.rir.map(|rir| (rir + 1).min(5));
            let ladder =
                entry(&item.exercise).zip(profile.equipment.as_ref()).and_then(|(entry, place)| {
                    crate::strength::racks::ladder(entry, place, profile.units)
                });
            if let (Some(load), Some(ladder), true) = (item.load_kg, ladder, long) {
                let eased = ladder.at_most(load * BACK_AFTER_LONG).unwrap_or(load);
                item.load_kg = Some(eased);
                item.load_note = ladder.plates_text(eased);
                let reps = crate::plan::fit::most_of(item);
                item.ramp =
                    crate::plan::ramp::ramp(Some(eased), Some(&ladder), reps, item.ramp.len());
            }
            item.next = Some("the first week back: nothing is raised".to_owned());
        }
        fill_in(session, &entry);
    }
    let note = "The first week back: a third fewer sets and one more in reserve";
    let loads = if long { ", loads a tenth lower" } else { "" };
    week.note = Some(format!("{note}{loads}."));
    week.kind = WeekKind::Easy;
    pounds::fill_in(week.sessions.iter_mut(), profile.units);
}

/// The share of a load after more than a week off. Common practice.
const BACK_AFTER_LONG: f64 = 0.9;
