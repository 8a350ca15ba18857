//! The folder at a glance: who trains when, in which block and week, what is open, and how full each room is.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::visit::{profile, sessions_in};
use crate::input::clock;
use crate::input::plan::{Plan, Session, Week};
use crate::plan::calendar::BLOCK;
use crate::words::{GroupKind, Weekday};

/// Plans with up to so many weeks left are said to end. Common practice.
const LAST_WEEKS: u32 = 1;

/// The table.
#[derive(Debug, Clone, PartialEq)]
pub struct Roster {
    /// The Monday of the week.
    pub monday: Date,
    /// Clients by code.
    pub lines: Vec<Line>,
    /// Rooms by name.
    pub rooms: Vec<Load>,
}

/// A client in the week.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Line {
    /// The code.
    pub client: String,
    /// Where they train; nothing where the profile lists kit.
    pub place: String,
    /// The block, from 1; none outside the plan.
    pub block: Option<u32>,
    /// The week of the plan.
    pub week: Option<u32>,
    /// Weeks of the plan.
    pub weeks: u32,
    /// What the week is for.
    pub kind: String,
    /// `mon 18:30-19:28`.
    pub sessions: Vec<String>,
    /// What a coach should look at.
    pub open: Vec<String>,
}

/// How many are in a room at once, by hour and day.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// The room.
    pub place: String,
    /// The most at once in each hour that has anybody, Monday first.
    pub hours: Vec<(u32, [u32; 7])>,
}

/// The table of some plans, and of clients who have none.
#[must_use]
pub fn roster(plans: &[Plan], without: &[(String, String)], monday: Date) -> Roster {
    let mut lines: Vec<Line> = plans.iter().map(|plan| line(plan, monday)).collect();
    lines.extend(without.iter().map(|(client, place)| Line {
        client: client.clone(),
        place: place.clone(),
        open: vec!["no plan yet".to_owned()],
        ..Line::default()
    }));
    lines.sort_by(|one, other| one.client.cmp(&other.client));
    Roster { monday, lines, rooms: rooms(plans, monday) }
}

fn place_of(plan: &Plan) -> String {
    profile(plan).and_then(|profile| profile.place.clone()).unwrap_or_default()
}

/// Start and end in minutes of the day.
fn span(plan: &Plan, week: &Week, session: &Session) -> Option<[u32; 2]> {
    let start = plan.start_of(week.week, session).and_then(clock::minutes_of_day)?;
    Some([start, start + minutes(session)])
}

fn minutes(session: &Session) -> u32 {
    let planned = session.minutes.as_ref().map(|used| used.planned_s);
    let told = || session.groups.iter().filter_map(|group| group.seconds).sum();
    planned.unwrap_or_else(told).div_ceil(60)
}

fn line(plan: &Plan, monday: Date) -> Line {
    let here: Vec<(&Week, &Session)> =
        sessions_in(plan, monday).map(|(week, _, session, _)| (week, session)).collect();
    let week = here.first().map(|(week, _)| *week);
    let told = |(week, session): &(&Week, &Session)| match span(plan, week, session) {
        Some([from, to]) => {
            format!("{} {}-{}", session.day, super::rota::clock(from), super::rota::clock(to))
        }
        None => format!("{} {} min", session.day, minutes(session)),
    };
    let weeks = u32::try_from(plan.weeks.len()).unwrap_or(u32::MAX);
    Line {
        client: plan.client.clone(),
        place: place_of(plan),
        block: week.map(|week| (week.week - 1) / BLOCK + 1),
        week: week.map(|week| week.week),
        weeks,
        kind: week.map(|week| week.kind.to_string()).unwrap_or_default(),
        sessions: here.iter().map(told).collect(),
        open: open(plan, &here, weeks),
    }
}

fn open(plan: &Plan, here: &[(&Week, &Session)], weeks: u32) -> Vec<String> {
    let mut open = Vec::new();
    let Some((week, _)) = here.first() else {
        let last = plan.weeks.last().and_then(|week| week.date.as_deref());
        return vec![last.map_or("no week here".to_owned(), |date| {
            format!("not in this week; its last begins {date}")
        })];
    };
    let hours: Vec<&str> =
        here.iter().filter(|(_, one)| one.at.is_none()).map(|(_, one)| one.day.id()).collect();
    if !hours.is_empty() {
        open.push(format!("no hour on {}", hours.join(", ")));
    }
    let groups = here.iter().flat_map(|(_, session)| &session.groups);
    let work = groups.filter(|group| group.kind != GroupKind::Prep);
    let find = work.flat_map(|group| &group.items).filter(|item| item.find_load.is_some()).count();
    if find > 0 {
        open.push(crate::diagnostic::counted(find, "load to find", "loads to find"));
    }
    if !plan.shortfalls.is_empty() {
        let count = plan.shortfalls.len();
        open.push(crate::diagnostic::counted(
            count,
            "wish that falls short",
            "wishes that fall short",
        ));
    }
    if weeks.saturating_sub(week.week) < LAST_WEEKS {
        open.push("the plan's last week".to_owned());
    }
    open
}

fn rooms(plans: &[Plan], monday: Date) -> Vec<Load> {
    let mut there: BTreeMap<String, Vec<(Weekday, [u32; 2])>> = BTreeMap::new();
    for plan in plans {
        let spans = sessions_in(plan, monday)
            .filter_map(|(week, _, session, _)| Some((session.day, span(plan, week, session)?)));
        there.entry(place_of(plan)).or_default().extend(spans);
    }
    there.into_iter().map(|(place, spans)| Load { place, hours: hours(&spans) }).collect()
}

fn hours(spans: &[(Weekday, [u32; 2])]) -> Vec<(u32, [u32; 7])> {
    let at_once = |day: Weekday, minute: u32| {
        let there =
            spans.iter().filter(|(on, [from, to])| *on == day && (*from..*to).contains(&minute));
        u32::try_from(there.count()).unwrap_or(u32::MAX)
    };
    let of_hour = |hour: u32| {
        let most = |day: &Weekday| {
            (hour * 60..hour * 60 + 60).map(|minute| at_once(*day, minute)).max().unwrap_or(0)
        };
        let mut days = [0; 7];
        for day in Weekday::ALL {
            days[day.index()] = most(day);
        }
        (hour, days)
    };
    (0..24).map(of_hour).filter(|(_, days)| days.iter().any(|most| *most > 0)).collect()
}
