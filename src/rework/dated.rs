//! A rework of some dates only: one session, the rest of a week after a lost day, days at another place, a pause. The
//! week at its fullest and all other weeks stay to the letter.

use std::collections::BTreeMap;

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::{Ask, BadAsk, NoRework, Outcome, Reworked, profile_of, rework};
use crate::input::clock;
use crate::input::place::Equipment;
use crate::input::plan::{Exception, Item, Past, Pause, Plan, ProfileRef, Session, Week};
use crate::input::profile::Profile;
use crate::plan::calendar::{BLOCK, calendar, week_date};
use crate::plan::seal::seal;
use crate::plan::{first_load, fit, pounds};
use crate::planner::{Options, Planner};
use crate::rework::table::Table;
use crate::timing::fill_in;
use crate::words::{WeekKind, Weekday};

/// Which dates a rework is for.
#[derive(Debug, Clone, PartialEq)]
pub enum When {
    /// One day of a week.
    Day {
        /// From 1.
        week: u32,
        /// As sessions are called: `wed`, `wed@18:30`.
        day: String,
    },
    /// What is left of a week from a date on.
    Rest {
        /// The date from which nothing is done yet.
        date: String,
    },
    /// All dates of a span, at another place.
    Elsewhere {
        /// The first date.
        from: String,
        /// The last date.
        to: String,
        /// What the place is called.
        place: String,
        /// What it has.
        equipment: Equipment,
    },
    /// No training in a span; the weeks after it move.
    Off {
        /// The first date.
        from: String,
        /// The last date.
        to: String,
    },
}

/// Reworks some dates of a plan.
///
/// # Errors
/// An ask that does not fit the plan, or why there is no plan.
pub fn dated(planner: &Planner, plan: &Plan, ask: &Ask, when: &When) -> Result<Outcome, NoRework> {
    match when {
        When::Day { week, day } => of_day(planner, plan, ask, (*week, day)),
        When::Rest { date } => rest_of_week(planner, plan, ask, date),
        When::Elsewhere { from, to, place, equipment } => {
            elsewhere(planner, plan, ask, (span(from, to)?, place, equipment))
        }
        When::Off { from, to } => pause(planner, plan, span(from, to)?),
    }
}

/// The week and the session of a date: `2027-01-13` is the Wednesday of week 2.
///
/// # Errors
/// A date outside the plan, or without a session.
pub fn day_of_date(plan: &Plan, date: &str) -> Result<(u32, String), BadAsk> {
    let wanted = day(date)?;
    let week = week_of(plan, wanted)?;
    let called = called(wanted);
    let have: Vec<String> = week.sessions.iter().map(|one| one.day.to_string()).collect();
    if have.contains(&called) {
        return Ok((week.week, called));
    }
    Err(BadAsk::NoSuchDay { day: format!("{called} {date}"), have: have.join(", ") })
}

fn day(date: &str) -> Result<Date, BadAsk> {
    clock::date(date).ok_or_else(|| BadAsk::NoDate(date.to_owned()))
}

fn span(from: &str, to: &str) -> Result<[Date; 2], BadAsk> {
    let [first, last] = [day(from)?, day(to)?];
    if first > last {
        return Err(BadAsk::SpanFalls { from: from.to_owned(), to: to.to_owned() });
    }
    Ok([first, last])
}

fn called(date: Date) -> String {
    let index = usize::from(date.weekday().to_monday_zero_offset().unsigned_abs());
    Weekday::ALL[index].to_string()
}

fn week_of(plan: &Plan, date: Date) -> Result<&Week, BadAsk> {
    let holds = |week: &&Week| {
        let first = week.date.as_deref().and_then(clock::date);
        first.is_some_and(|first| {
            let next = first.checked_add(7.days()).unwrap_or(first);
            (first..next).contains(&date)
        })
    };
    let outside = || BadAsk::OutsidePlan {
        date: date.to_string(),
        first: plan.weeks.first().and_then(|week| week.date.clone()).unwrap_or_default(),
        weeks: plan.weeks.len(),
    };
    plan.weeks.iter().find(holds).ok_or_else(outside)
}

/// The date of a session in a week.
fn date_of(week: &Week, session: &Session) -> Option<Date> {
    let first = clock::date(week.date.as_deref()?)?;
    let start = i64::from(first.weekday().to_monday_zero_offset());
    let ahead = (i64::try_from(session.day.index()).ok()? - start).rem_euclid(7);
    first.checked_add(ahead.days()).ok()
}

fn is_called(session: &Session, day: &str) -> bool {
    crate::plan::short::is_called(session.day, session.at.as_deref(), day)
}

/// One session of one week.
fn of_day(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    (week, day): (u32, &str),
) -> Result<Outcome, NoRework> {
    let base = as_of_week(plan, week)?;
    let (base, aside) = without_lost_musts(planner, &base, ask)?;
    let ask = Ask { today: Some(day.to_owned()), ..ask.clone() };
    let Outcome::New(made) = rework(planner, &base, &ask)? else { return Ok(Outcome::Same) };
    let mut asked = told(&ask);
    asked.extend(aside.iter().map(|id| format!("{id} set aside")));
    let parts = Parts { planner, plan, made: &made.plan, week, asked, kit: None };
    let new = parts.spliced(&|session| is_called(session, day), &|_| false);
    Ok(finished(plan, new, &made, format!("week {week} {day}"), &parts.asked))
}

/// What is left of a week after its lost days: what matters moves into days that are not done yet.
fn rest_of_week(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    date: &str,
) -> Result<Outcome, NoRework> {
    let from = day(date)?;
    let week = week_of(plan, from)?.clone();
    for lost in &ask.drop_days {
        let lost_on = week.sessions.iter().filter(|one| is_called(one, lost));
        let done = lost_on.filter_map(|one| date_of(&week, one)).any(|on| on < from);
        if done {
            return Err(BadAsk::AlreadyDone { day: lost.clone(), date: date.to_owned() }.into());
        }
    }
    let base = as_of_week(plan, week.week)?;
    let (base, aside) = without_lost_musts(planner, &base, ask)?;
    let done = week.sessions.iter().filter(|one| date_of(&week, one).is_some_and(|on| on < from));
    let held = done.map(crate::rework::table::label).collect();
    let ask = &Ask { held, ..ask.clone() };
    let Outcome::New(made) = rework(planner, &base, ask)? else { return Ok(Outcome::Same) };
    let is_left = |session: &Session| date_of(&week, session).is_some_and(|on| on >= from);
    let is_lost = |session: &Session| ask.drop_days.iter().any(|lost| is_called(session, lost));
    let mut asked = told(ask);
    asked.extend(aside.iter().map(|id| format!("{id} set aside")));
    let parts =
        Parts { planner, plan, made: &made.plan, week: week.week, asked, kit: None };
    let new = parts.spliced(&|session| is_left(session) && !is_lost(session), &is_lost);
    Ok(finished(plan, new, &made, format!("from {date}"), &parts.asked))
}

/// Every session of a span, with another place's kit.
fn elsewhere(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    ([from, to], place, equipment): ([Date; 2], &str, &Equipment),
) -> Result<Outcome, NoRework> {
    week_of(plan, from)?;
    let mut new = plan.clone();
    let mut last = None;
    let asked = vec![format!("at {place}")];
    let touches = |week: &&Week| {
        week.sessions.iter().any(|one| date_of(week, one).is_some_and(|on| (from..=to).contains(&on)))
    };
    let weeks: Vec<Week> = plan.weeks.iter().filter(touches).cloned().collect();
    for week in &weeks {
        let mut base = as_of_week(plan, week.week)?;
        let profile = profile_of(&base)?.clone();
        let there = Profile { equipment: Some(equipment.present()), ..profile };
        base.profile = ProfileRef::Whole(Box::new(there.clone()));
        // What cannot be done there is no demand there.
        let request = planner.request(&there, &Options { seed: plan.seed, ..Options::default() });
        let mut there = there;
        there.exercises.must.retain(|id| request.candidate(id).is_some());
        base.profile = ProfileRef::Whole(Box::new(there.clone()));
        base.inputs = base.inputs.map(|inputs| crate::input::plan::Inputs {
            profile_sha256: String::new(),
            ..inputs
        });
        let Outcome::New(made) = rework(planner, &base, ask)? else { continue };
        let parts = Parts {
            planner,
            plan: &new,
            made: &made.plan,
            week: week.week,
            asked: asked.clone(),
            kit: Some(equipment),
        };
        let is_there =
            |session: &Session| date_of(week, session).is_some_and(|on| (from..=to).contains(&on));
        let spliced = parts.spliced(&is_there, &|_| false);
        new = spliced;
        last = Some(made);
    }
    match last {
        None => Ok(Outcome::Same),
        Some(made) => Ok(finished(plan, new, &made, format!("{from} to {to}"), &asked)),
    }
}

/// A pause: its sessions are left out, the weeks after it move, and the first one back is easier.
///
/// A third fewer sets, one repetition more in reserve, and after more than a week off a tenth off the loads: common practice.
fn pause(planner: &Planner, plan: &Plan, [from, to]: [Date; 2]) -> Result<Outcome, NoRework> {
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
        let is_on = |session: &Session| date_of(&week, session).is_none_or(|on| on < from || on > to);
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
            for list in [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories] {
                if let Some(list) = list {
                    list.truncate(sets as usize);
                }
            }
            item.sets = sets;
            item.rir = item.rir.map(|rir| (rir + 1).min(5));
            let ladder = entry(&item.exercise).zip(profile.equipment.as_ref()).and_then(
                |(entry, place)| crate::plan::racks::ladder(entry, place, profile.units),
            );
            if let (Some(load), Some(ladder), true) = (item.load_kg, ladder, long) {
                let eased = ladder.at_most(load * BACK_AFTER_LONG).unwrap_or(load);
                item.load_kg = Some(eased);
                item.load_note = ladder.plates_text(eased);
                let reps = crate::plan::fit::most_of(item);
                item.ramp = crate::plan::ramp::ramp(Some(eased), Some(&ladder), reps, item.ramp.len());
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

/// The plan as it is in a week: its sessions at their fullest are those of the week's block.
fn as_of_week(plan: &Plan, week: u32) -> Result<Plan, BadAsk> {
    let place = plan.weeks.iter().position(|one| one.week == week);
    let place = place.ok_or(BadAsk::NoSuchWeek { week, weeks: plan.weeks.len() })?;
    let mut base = plan.clone();
    let block = |week: u32| (week - 1) / BLOCK;
    if block(plan.weeks[place].week) > 0 {
        let alike = plan.weeks.iter().filter(|one| block(one.week) == block(week));
        let sets = |week: &Week| -> u32 {
            let groups = week.sessions.iter().flat_map(|session| &session.groups);
            groups.flat_map(|group| &group.items).map(|item| item.sets).sum()
        };
        if let Some(fullest) = alike.max_by_key(|one| (sets(one), std::cmp::Reverse(one.week))) {
            base.sessions.clone_from(&fullest.sessions);
        }
    }
    // The picks are those of the week, so that nobody takes them for edited.
    if let Some(inputs) = &mut base.inputs {
        inputs.picks_sha256 = Some(crate::plan::seal::picks(&base.sessions));
    }
    Ok(base)
}

/// The plan without demands that the missing kit makes impossible, and which these are.
fn without_lost_musts(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
) -> Result<(Plan, Vec<String>), NoRework> {
    let profile = profile_of(plan)?;
    if profile.exercises.must.is_empty() {
        return Ok((plan.clone(), Vec::new()));
    }
    let mut narrowed = profile.clone();
    for item in &ask.without {
        if let Some(kit) = narrowed.equipment.as_mut() {
            kit.items.remove(item);
        }
    }
    let request = planner.request(&narrowed, &Options { seed: plan.seed, ..Options::default() });
    let lost: Vec<String> = profile
        .exercises
        .must
        .iter()
        .filter(|id| request.candidate(id).is_none())
        .cloned()
        .collect();
    let mut kept = profile.clone();
    kept.exercises.must.retain(|id| !lost.contains(id));
    let mut base = plan.clone();
    base.profile = ProfileRef::Whole(Box::new(kept));
    Ok((base, lost))
}

/// What was asked for in words.
fn told(ask: &Ask) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    told.extend(ask.without.iter().map(|item| format!("without {item}")));
    told.extend(ask.drop_days.iter().map(|day| format!("{day} is lost")));
    told.extend(ask.minutes.iter().map(|(day, minutes)| format!("{day} has {minutes} min")));
    told.extend(ask.limits.iter().map(|stress| format!("no {stress}")));
    told.extend(ask.never.iter().map(|id| format!("no {id}")));
    told.extend(ask.must.iter().map(|id| format!("with {id}")));
    told
}

/// A plan and the rework of one of its weeks, to be put together.
struct Parts<'a> {
    planner: &'a Planner,
    plan: &'a Plan,
    made: &'a Plan,
    week: u32,
    asked: Vec<String>,
    /// The kit of another place.
    kit: Option<&'a Equipment>,
}

impl Parts<'_> {
    /// The plan with the reworked sessions of the week that are open, and without those that are lost.
    fn spliced(
        &self,
        is_open: &dyn Fn(&Session) -> bool,
        is_lost: &dyn Fn(&Session) -> bool,
    ) -> Plan {
        let mut new = self.plan.clone();
        let Some(week) = new.weeks.iter_mut().find(|week| week.week == self.week) else {
            return new;
        };
        let mut exceptions = Vec::new();
        let before = week.clone();
        week.sessions.retain(|session| {
            if is_lost(session) {
                exceptions.push(self.exception(&before, session));
            }
            !is_lost(session)
        });
        for session in week.sessions.iter_mut().filter(|session| is_open(session)) {
            let Some(mut now) = self.session(session) else { continue };
            let same = now.groups == session.groups;
            if same {
                continue;
            }
            let about = format!("This day only: {}.", self.asked.join(", "));
            now.note = Some(match &session.note {
                Some(note) => format!("{about} {note}"),
                None => about,
            });
            exceptions.push(self.exception(&before, session));
            *session = now;
        }
        new.exceptions.extend(exceptions);
        new
    }

    fn exception(&self, week: &Week, session: &Session) -> Exception {
        Exception {
            week: self.week,
            day: session.day.to_string(),
            date: date_of(week, session).map(|date| date.to_string()),
            asked: self.asked.clone(),
            equipment: self.kit.cloned(),
        }
    }

    /// The reworked session as the week does it: with its sets and its reserve, and with a load to be found where the
    /// exercise was not done before.
    fn session(&self, was: &Session) -> Option<Session> {
        let is_it = |one: &&Session| one.day == was.day && one.at == was.at;
        let full = self.made.sessions.iter().find(is_it)?;
        let status = profile_of(self.made).ok()?.training_status;
        let in_block = calendar(status, 52).into_iter().find(|one| one.week == self.week)?.in_block;
        let like = self.made.weeks.get(in_block as usize);
        let mut now = like.and_then(|week| week.sessions.iter().find(is_it)).unwrap_or(full).clone();
        let known = self.known();
        for group in now.groups.iter_mut().filter(|group| group.is_work()) {
            for item in &mut group.items {
                let key = (item.exercise.clone(), item.turn);
                let planned =
                    full.groups.iter().flat_map(|group| &group.items).find(|one| one.exercise == item.exercise);
                match known.get(&key) {
                    // Another place may not have the load.
                    Some(then) if self.kit.is_none() || then.load_kg.is_none() => {
                        as_then(item, then);
                    }
                    _ => as_new(item, planned),
                }
            }
        }
        let entry = |id: &str| self.planner.catalog().get(id).or_else(|| self.plan.exercises.get(id));
        fit::to_minutes(&mut now, full, &entry);
        Some(now)
    }

    /// Each exercise as the week has it, else as the last week before that had it.
    fn known(&self) -> BTreeMap<(String, Option<crate::words::Turn>), Item> {
        let mut known = BTreeMap::new();
        for week in self.plan.weeks.iter().filter(|week| week.week <= self.week) {
            let groups = week.sessions.iter().flat_map(|session| &session.groups);
            for item in groups.flat_map(|group| &group.items) {
                known.insert((item.exercise.clone(), item.turn), item.clone());
            }
        }
        known
    }
}

/// Loads, numbers and words of an exercise that the client does anyway.
fn as_then(item: &mut Item, then: &Item) {
    let sets = item.sets;
    let (turn, instead) = (item.turn, item.instead.clone());
    *item = Item { sets, turn, instead, ..then.clone() };
    for list in [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories] {
        if let Some(list) = list {
            let last = list.last().copied().unwrap_or(1);
            list.resize(sets as usize, last);
        }
    }
}

/// An exercise that no week had: its load is found on the day.
fn as_new(item: &mut Item, planned: Option<&Item>) {
    let Some(planned) = planned else { return };
    if item.load_kg.is_none() {
        item.find_load.clone_from(&planned.find_load);
        item.load_note.clone_from(&planned.load_note);
        first_load::to_week(item);
    }
    item.next = None;
}

/// The plan with what was asked written down, and the table of what became of the dates.
fn finished(old: &Plan, mut new: Plan, made: &Reworked, when: String, asked: &[String]) -> Outcome {
    if new == *old {
        return Outcome::Same;
    }
    let sha = old.inputs.as_ref().map(|inputs| inputs.profile_sha256.clone());
    let changes = std::iter::once(when).chain(asked.iter().cloned()).collect();
    new.reworked_from.push(Past { seed: old.seed, profile_sha256: sha, changes });
    seal(&mut new);
    Outcome::New(Box::new(Reworked { plan: new, table: made.table.clone(), written: None }))
}
