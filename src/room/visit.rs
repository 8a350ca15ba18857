//! Who is in the room when: the sessions of some plans in one week, with what each minute holds.

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::holds;
use super::stock::{Hold, Room, Thing, Way};
use crate::input::catalog::Entry;
use crate::input::clock;
use crate::input::plan::{Group, Plan, ProfileRef, Session, Week};
use crate::input::profile::Profile;
use crate::planner::Planner;
use crate::timing;
use crate::words::{LoadKind, Status, Weekday};

/// One session of one client in the room's week.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// The client's place among the plans.
    pub plan: usize,
    /// The client's code.
    pub client: String,
    /// The week of the plan.
    pub week: u32,
    /// The session's place in that week.
    pub session: usize,
    /// The day.
    pub day: Weekday,
    /// Its date, where the plan has dates.
    pub date: Option<Date>,
    /// When it starts, in minutes of the day; none where the plan has no hour.
    pub start: Option<u32>,
    /// The session as the week has it.
    pub written: Session,
    /// What its groups hold, in their order.
    pub blocks: Vec<Block>,
}

/// A group of a session, as the room sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// The exercises.
    pub name: String,
    /// How long it takes.
    pub seconds: u32,
    /// The ways to do it, as planned first.
    pub ways: Vec<Way>,
}

/// A group that a plan by hand gives more seconds than this is a slip, and is not counted any further.
const MOST_GROUP_S: u32 = 4 * 3600;

impl Visit {
    /// Minutes that the session takes.
    #[must_use]
    pub fn minutes(&self) -> u32 {
        minute(self.blocks.iter().map(|block| block.seconds).sum())
    }
}

/// The minute that a second counts to: the nearest, so that a handover of less than half a minute is none.
#[must_use]
pub const fn minute(seconds: u32) -> u32 {
    (seconds + 30) / 60
}

/// The Monday of the week that a day lies in.
#[must_use]
pub fn monday_of(day: Date) -> Date {
    let ahead = i64::from(day.weekday().to_monday_zero_offset());
    day.checked_sub(ahead.days()).unwrap_or(day)
}

/// The profile of a plan, where it is whole.
#[must_use]
pub fn profile(plan: &Plan) -> Option<&Profile> {
    match &plan.profile {
        ProfileRef::Whole(profile) => Some(profile),
        ProfileRef::File(_) => None,
    }
}

/// The date of a session in a week.
#[must_use]
pub fn date_of(week: &Week, session: &Session) -> Option<Date> {
    let first = clock::date(week.date.as_deref()?)?;
    let start = i64::from(first.weekday().to_monday_zero_offset());
    let ahead = (i64::try_from(session.day.index()).ok()? - start).rem_euclid(7);
    first.checked_add(ahead.days()).ok()
}

/// Whether a plan has a session in the week from a Monday on; one without dates always has its first week.
#[must_use]
pub fn covers(plan: &Plan, monday: Date) -> bool {
    sessions_in(plan, monday).next().is_some()
}

/// The sessions of a plan in the week from a Monday on; of a plan without dates those of its first week.
pub fn sessions_in(
    plan: &Plan,
    monday: Date,
) -> impl Iterator<Item = (&Week, usize, &Session, Option<Date>)> {
    let next = monday.checked_add(7.days()).unwrap_or(monday);
    let is_in = move |week: &Week, date: Option<Date>| match date {
        Some(date) => (monday..next).contains(&date),
        None => week.week == 1,
    };
    plan.weeks.iter().flat_map(move |week| {
        let sessions = week.sessions.iter().enumerate();
        let dated = sessions.map(move |(place, one)| (week, place, one, date_of(week, one)));
        dated.filter(move |(week, _, _, date)| is_in(week, *date))
    })
}

/// Every visit of a week, by day and hour.
#[must_use]
pub fn visits(room: &Room, planner: &Planner, plans: &[Plan], monday: Date) -> Vec<Visit> {
    let of_plan = |(place, plan): (usize, &Plan)| -> Vec<Visit> {
        let planner = planner.with_plan(plan);
        let entry = |id: &str| planner.catalog().get(id);
        let here =
            sessions_in(plan, monday).filter(|(week, _, one, _)| !is_elsewhere(plan, week, one));
        here.map(|(week, session, one, date)| Visit {
            plan: place,
            client: plan.client.clone(),
            week: week.week,
            session,
            day: one.day,
            date,
            start: plan.start_of(week.week, one).and_then(clock::minutes_of_day),
            written: one.clone(),
            blocks: blocks(room, plan, &one.groups, &entry),
        })
        .collect()
    };
    let mut visits: Vec<Visit> = plans.iter().enumerate().flat_map(of_plan).collect();
    visits.sort_by_key(|visit| (visit.day, visit.start, visit.client.clone()));
    visits
}

/// Whether a session is done at another place on its date.
fn is_elsewhere(plan: &Plan, week: &Week, session: &Session) -> bool {
    let called = |day: &str| crate::plan::short::is_called(session.day, session.at.as_deref(), day);
    let mut of_date =
        plan.exceptions.iter().filter(|one| one.week == week.week && called(&one.day));
    of_date.next_back().is_some_and(|one| one.equipment.is_some())
}

/// What the groups of a session hold in a room.
pub fn blocks<'a>(
    room: &Room,
    plan: &Plan,
    groups: &[Group],
    entry: &dyn Fn(&str) -> Option<&'a Entry>,
) -> Vec<Block> {
    let is_novice = profile(plan).is_some_and(|profile| profile.training_status == Status::Novice);
    let is_bar = |id: &str| entry(id).map(|entry| entry.main && entry.load == LoadKind::BarTotal);
    let block = |group: &Group| {
        let seconds = group.seconds.unwrap_or_else(|| timing::written_group_s(group, entry));
        let seconds = seconds.min(MOST_GROUP_S);
        let mut ways = holds::ways(room, group, seconds, entry);
        if room.coaches.is_some() {
            let whole = |thing: Thing| Hold { thing, pieces: 1, from_s: 0, to_s: seconds };
            let watched = is_novice && holds::is_watched(group, &is_bar);
            for way in &mut ways {
                way.push(whole(Thing::Care));
                way.extend(watched.then(|| whole(Thing::Watch)));
            }
        }
        let names = group.items.iter().map(|item| {
            entry(&item.exercise).map_or(item.exercise.clone(), |entry| entry.name.clone())
        });
        Block { name: names.collect::<Vec<_>>().join(" + "), seconds, ways }
    };
    groups.iter().map(block).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::minute;

    proptest! {
        /// Groups one after the other take each minute once: none is counted twice, and none is lost.
        #[test]
        fn minutes_of_groups_neither_meet_nor_part(groups in prop::collection::vec(1..900_u32, 1..12)) {
            let ends = groups.iter().scan(0, |at, seconds| { *at += seconds; Some(*at) });
            let edges: Vec<u32> = std::iter::once(0).chain(ends).map(minute).collect();
            prop_assert!(edges.windows(2).all(|pair| pair[0] <= pair[1]));
            let total: u32 = edges.windows(2).map(|pair| pair[1] - pair[0]).sum();
            prop_assert_eq!(total, minute(groups.iter().sum()));
        }
    }
}
