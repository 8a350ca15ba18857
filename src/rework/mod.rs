//! A plan changed as little as possible when something else changes.

mod contradiction;
mod dated;
mod splits;
pub mod table;
mod today;
mod written;

use std::collections::{BTreeMap, BTreeSet};

use crate::audit;
use crate::input::plan::{Past, Plan, ProfileRef, Session, Shortfall};
use crate::input::profile::{Limit, Profile};
use crate::plan::screening;
use crate::plan::seal::seal;
use crate::planner::{NoPlan, Options, Planner};
use crate::request::{Request, Rework};
use crate::search::budget::Budget;
use crate::words::{Kit, Stress};
pub use contradiction::BadAsk;
pub(crate) use dated::dated;
pub use dated::{When, day_of_date};
pub(crate) use splits::splits;
use table::Table;
use today::{keep_other_days, only_today};
pub use written::Written;
pub(crate) use written::held;
use written::{BY_HAND, is_by_hand};

/// What is different now.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Ask {
    /// Kit that is not there.
    pub without: Vec<Kit>,
    /// Days that are lost: `tue`, or `tue@07:30`.
    pub drop_days: Vec<String>,
    /// New minutes by day.
    pub minutes: Vec<(String, u32)>,
    /// Stress to keep out.
    pub limits: Vec<Stress>,
    /// Exercises to keep out.
    pub never: Vec<String>,
    /// Exercises to bring in.
    pub must: Vec<String>,
    /// Exercises that give their place to another on every day that has them.
    pub swap: Vec<(String, String)>,
    /// The only day that may change.
    pub today: Option<String>,
    /// Days that stay as they are.
    pub held: Vec<String>,
    /// The profile to plan for, in place of the plan's own.
    pub profile: Option<Box<Profile>>,
    /// Another seed.
    pub seed: Option<u64>,
}

/// A reworked plan with what changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Reworked {
    /// The new plan.
    pub plan: Plan,
    /// What was kept, swapped, moved.
    pub table: Table,
    /// Of a plan by hand, what it misses.
    pub written: Option<Written>,
}

/// What a rework comes to.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Nothing is different: the plan stands as it is.
    Same,
    /// A new plan.
    New(Box<Reworked>),
}

/// Why there is no reworked plan.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NoRework {
    /// The ask makes no sense.
    #[error(transparent)]
    Ask(#[from] BadAsk),
    /// No plan for the new profile.
    #[error(transparent)]
    Plan(#[from] NoPlan),
}

/// Reworks a plan whose profile is whole and whose exercises the planner's catalog has.
///
/// # Errors
/// An ask that does not fit the plan, or why there is no plan.
pub(crate) fn rework(
    planner: &Planner,
    plan: &Plan,
    ask: &Ask,
    budget: Budget,
) -> Result<Outcome, NoRework> {
    let before = profile_of(plan)?;
    contradiction::check(ask)?;
    if let Some(today) = &ask.today {
        slots(before, today)?;
    }
    let profile = changed(before, ask)?;
    let seed = ask.seed.unwrap_or(plan.seed);
    let is_same = profile == *before && seed == plan.seed && ask.swap.is_empty();
    if is_same && !edited(plan, before) {
        return Ok(Outcome::Same);
    }
    // What the record gave is still there while the loads are those that it gave.
    let is_from_book = profile.known_lifts == before.known_lifts;
    let advice = screening::advise(&profile);
    if let Some(withheld) = advice.withheld {
        return Err(NoPlan::Withheld(withheld).into());
    }
    let options = Options { seed, budget, ..Options::default() };
    let (request, barred) = if let Some(today) = &ask.today {
        let today = only_today(planner, plan, ask, (today, profile, &options))?;
        (today.request, today.barred)
    } else {
        let request = request_of(planner, plan, &profile, &options);
        let days = request.days.iter().enumerate();
        let is_held = |day: &crate::request::Day| {
            ask.held.iter().any(|held| *held == day.weekday.id() || *held == day.label())
        };
        let frozen = days.filter(|(_, day)| is_held(day)).map(|(place, _)| place).collect();
        let rework = Some(Rework { frozen, ..Rework::of(plan, &request) });
        let barred = request.barred.clone();
        (Request { rework, ..request }, barred)
    };
    let mut request = held(plan, request, &request_of(planner, plan, before, &options));
    request.rework = request.rework.map(|rework| rework.swapping(&ask.swap));
    let splits = splits(plan, &request);
    // What falls short is told of the week as it stands in the end.
    let is_counted_again = ask.today.is_some() || !ask.held.is_empty();
    let within = Budget { asks_why: budget.asks_why && !is_counted_again, ..budget };
    let within = within.of_a_rework();
    let mut new = planner.solved(&request, &splits, within, advice.cautions)?;
    if is_counted_again {
        keep_other_days(&mut new, plan, &request);
        new = counted_again(new, &request, budget.asks_why)?;
    }
    let by_hand = request.rework.as_ref().is_some_and(|rework| rework.as_written);
    new.reworked_from = history(plan, ask, by_hand);
    if let (Some(new), Some(old)) = (&mut new.inputs, &plan.inputs) {
        new.book = old.book.clone().filter(|_| is_from_book);
    }
    let table = Table::new(plan, &new, &request, &barred);
    let written = by_hand.then(|| Written::of(planner, plan, before));
    seal(&mut new);
    Ok(Outcome::New(Box::new(Reworked { plan: new, table, written })))
}

/// A request for a plan that is there: what it does stays possible, though a coach who plans anew would pass it over.
pub(crate) fn request_of(
    planner: &Planner,
    plan: &Plan,
    profile: &Profile,
    options: &Options,
) -> Request {
    let mut request = planner.request(profile, options);
    request.admit(plan.sessions.iter().flat_map(table::work).map(|item| item.exercise.as_str()));
    request
}

/// Whether the profile inside a plan is no longer the one that it was planned from.
#[must_use]
pub fn edited(plan: &Plan, profile: &Profile) -> bool {
    let planned = plan.inputs.as_ref();
    planned.is_some_and(|inputs| inputs.profile_sha256 != crate::planner::sha256(profile))
}

/// The whole profile of a plan.
///
/// # Errors
/// A file name in its place.
pub fn profile_of(plan: &Plan) -> Result<&Profile, BadAsk> {
    match &plan.profile {
        ProfileRef::Whole(profile) => Ok(profile),
        ProfileRef::File(_) => Err(BadAsk::NoProfile),
    }
}

/// The profile with what is asked for.
fn changed(before: &Profile, ask: &Ask) -> Result<Profile, BadAsk> {
    let mut profile = ask.profile.as_deref().unwrap_or(before).clone();
    for item in &ask.without {
        let kit = profile.equipment.as_mut().and_then(|kit| kit.items.remove(item));
        kit.ok_or(BadAsk::NoSuchKit(*item))?;
    }
    for (day, minutes) in &ask.minutes {
        for place in slots(&profile, day)? {
            profile.sessions[place].minutes = *minutes;
        }
    }
    for day in &ask.drop_days {
        let gone: BTreeSet<usize> = slots(&profile, day)?.into_iter().collect();
        let mut place = 0;
        profile.sessions.retain(|_| {
            place += 1;
            !gone.contains(&(place - 1))
        });
    }
    if profile.sessions.is_empty() {
        return Err(BadAsk::NoSession);
    }
    for stress in &ask.limits {
        let whole = Limit::Whole(*stress);
        if !profile.limits.contains(&whole) {
            profile.limits.push(whole);
        }
    }
    name_all(&mut profile.exercises.never, &ask.never);
    name_all(&mut profile.exercises.must, &ask.must);
    // Asked for last wins: who keeps an exercise out today no longer demands it.
    profile.exercises.must.retain(|id| !ask.never.contains(id));
    profile.exercises.prefer.retain(|id| !ask.never.contains(id));
    profile.exercises.never.retain(|id| !ask.must.contains(id));
    profile.exercises.avoid.retain(|id| !ask.must.contains(id));
    Ok(profile)
}

fn name_all(list: &mut Vec<String>, ids: &[String]) {
    for id in ids {
        if !list.contains(id) {
            list.push(id.clone());
        }
    }
}

/// The places of a day's sessions in a profile.
fn slots(profile: &Profile, day: &str) -> Result<Vec<usize>, BadAsk> {
    let label = |slot: &crate::input::profile::SessionSlot| match &slot.at {
        Some(at) => format!("{}@{at}", slot.day),
        None => slot.day.to_string(),
    };
    let sessions = profile.sessions.iter();
    let is_it =
        |slot: &crate::input::profile::SessionSlot| slot.day.id() == day || label(slot) == day;
    let found: Vec<usize> =
        sessions.enumerate().filter(|(_, slot)| is_it(slot)).map(|(place, _)| place).collect();
    if found.is_empty() {
        let have: Vec<String> = profile.sessions.iter().map(label).collect();
        return Err(BadAsk::NoSuchDay { day: day.to_owned(), have: have.join(", ") });
    }
    Ok(found)
}

impl Rework {
    /// The picks of a plan on the days that a request still has.
    #[must_use]
    pub fn of(plan: &Plan, request: &Request) -> Rework {
        let mut picks = BTreeMap::new();
        for session in &plan.sessions {
            let Some(day) = day_of(session, request) else { continue };
            for item in
                session.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items)
            {
                picks.insert((day, item.exercise.clone()), item.sets);
            }
        }
        Rework { picks, as_written: is_by_hand(plan, request), ..Rework::default() }
    }

    /// The same with exercises that give their place to another.
    fn swapping(mut self, swap: &[(String, String)]) -> Rework {
        for (old, new) in swap {
            let days = self.picks.keys().filter(|(_, id)| id == old).map(|(day, _)| *day);
            let asked: Vec<_> = days
                .flat_map(|day| [((day, old.clone()), false), ((day, new.clone()), true)])
                .collect();
            self.asked.extend(asked);
        }
        self
    }
}

/// The request's day of a session: the same weekday and hour, or the only one of that weekday.
fn day_of(session: &Session, request: &Request) -> Option<usize> {
    let days = || request.days.iter().enumerate().filter(|(_, day)| day.weekday == session.day);
    let same = days().find(|(_, day)| day.at == session.at).map(|(place, _)| place);
    same.or_else(|| days().next().filter(|_| days().count() == 1).map(|(place, _)| place))
}

/// The history with this step.
fn history(plan: &Plan, ask: &Ask, by_hand: bool) -> Vec<Past> {
    let mut changes = Vec::new();
    changes.extend(by_hand.then(|| BY_HAND.to_owned()));
    changes.extend(ask.without.iter().map(|item| format!("without {item}")));
    changes.extend(ask.drop_days.iter().map(|day| format!("drop-day {day}")));
    changes.extend(ask.minutes.iter().map(|(day, minutes)| format!("minutes {day}={minutes}")));
    changes.extend(ask.limits.iter().map(|stress| format!("limit {stress}")));
    changes.extend(ask.never.iter().map(|id| format!("never {id}")));
    changes.extend(ask.must.iter().map(|id| format!("must {id}")));
    changes.extend(ask.swap.iter().map(|(old, new)| format!("instead {old}={new}")));
    changes.extend(ask.today.iter().map(|day| format!("today {day}")));
    changes.extend(ask.profile.iter().map(|_| "profile".to_owned()));
    changes.extend(ask.seed.iter().map(|seed| format!("seed {seed}")));
    if changes.iter().all(|change| change == BY_HAND) {
        changes.push("profile".to_owned());
    }
    let sha = plan.inputs.as_ref().map(|inputs| inputs.profile_sha256.clone());
    let past = Past { seed: plan.seed, profile_sha256: sha, changes };
    plan.reworked_from.iter().cloned().chain([past]).collect()
}

/// A plan whose sessions were changed by hand or put back: its figures counted again, and audited.
fn counted_again(mut plan: Plan, request: &Request, asks_why: bool) -> Result<Plan, NoPlan> {
    let week = audit::week_of(&plan.sessions, request).map_err(|_| NoPlan::Stopped)?;
    plan.volume = audit::volume(request, &week);
    plan.balance = Some(audit::balance(&week));
    let kept: Vec<Shortfall> = crate::planner::shortfalls(request, &week, asks_why);
    plan.shortfalls = kept;
    if let Some(inputs) = &mut plan.inputs {
        inputs.picks_sha256 = Some(crate::plan::seal::picks(&plan.sessions));
    }
    Planner::checked(plan, request)
}
