//! A rework of some dates only: one session, the rest of a week after a lost day, days at another place, a pause. The
//! week at its fullest and all other weeks stay to the letter.

mod parts;
mod pause;

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::{Ask, BadAsk, NoRework, Outcome, Reworked, profile_of, rework};
use crate::input::clock;
use crate::input::place::Equipment;
use crate::input::plan::{Past, Plan, ProfileRef, Session, Week};
use crate::input::profile::Profile;
use crate::plan::calendar::BLOCK;
use crate::plan::seal::seal;
use crate::planner::{Options, Planner};
use crate::search::budget::Budget;
use crate::words::Weekday;
use parts::Parts;
use pause::pause;

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
pub(crate) fn dated(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    when: &When,
) -> Result<Outcome, NoRework> {
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
    let Outcome::New(made) = rework(planner, &base, &ask, Budget::default())? else {
        return Ok(Outcome::Same);
    };
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
    let Outcome::New(made) = rework(planner, &base, ask, Budget::default())? else {
        return Ok(Outcome::Same);
    };
    let is_left = |session: &Session| date_of(&week, session).is_some_and(|on| on >= from);
    let is_lost = |session: &Session| ask.drop_days.iter().any(|lost| is_called(session, lost));
    let mut asked = told(ask);
    asked.extend(aside.iter().map(|id| format!("{id} set aside")));
    let parts = Parts { planner, plan, made: &made.plan, week: week.week, asked, kit: None };
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
        week.sessions
            .iter()
            .any(|one| date_of(week, one).is_some_and(|on| (from..=to).contains(&on)))
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
        base.inputs = base
            .inputs
            .map(|inputs| crate::input::plan::Inputs { profile_sha256: String::new(), ..inputs });
        let Outcome::New(made) = rework(planner, &base, ask, Budget::default())? else { continue };
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
