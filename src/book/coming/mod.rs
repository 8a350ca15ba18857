//! The coming week from what was done, and the weeks after it as the course goes from there.

mod easier;
mod line;
mod made;
mod moved;
mod text;

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::done::DoneSession;
use super::history;
use super::rule::{Decision, Rule};
use super::slot;
use crate::input::catalog::Entry;
use crate::input::plan::{FindLoad, Item, Plan, Session, Week};
use crate::input::profile::Profile;
use crate::plan::{fit, pounds, screening};
use crate::words::Weekday;
pub use easier::eased;
pub(crate) use line::maximum;
use line::{Desk, Line};
pub use made::{NoComing, first_day, made};

/// Days without training after which a client begins again lower. Common practice.
const AWAY: i64 = 21;

/// What the coming week is made from.
pub struct Told<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its client.
    pub profile: &'a Profile,
    /// Every exercise that there is.
    pub entries: &'a BTreeMap<String, Entry>,
    /// All that was done, oldest first.
    pub done: &'a [DoneSession],
    /// The first day that is still to come.
    pub as_of: Date,
    /// Whether the coming week is to be an easier one.
    pub easier: bool,
}

/// A plan with the coming week made from what was done.
#[derive(Debug, Clone, PartialEq)]
pub struct Coming {
    /// The plan.
    pub plan: Plan,
    /// The week that comes.
    pub week: u32,
    /// Every line of it that comes from what was done.
    pub changes: Vec<Change>,
    /// What else there is to say.
    pub remarks: Vec<String>,
}

/// A line of the coming week, and why it is so.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Change {
    /// The day.
    pub day: Weekday,
    /// The exercise.
    pub exercise: String,
    /// What it asks for: `3 × 10, 45 kg`.
    pub line: String,
    /// The rule.
    pub rule: &'static str,
    /// Why, in a clause: `two sessions with two more than asked: 42.5 → 45 kg`.
    pub because: String,
}

/// Why there is no coming week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Nothing {
    /// The book has no session of the client.
    #[error("nothing is written down yet")]
    NotBegun,
    /// Every session of the plan is done or past.
    #[error("the plan is over")]
    Over,
}

/// The coming week.
///
/// # Errors
/// Why there is none.
pub fn coming(told: &Told<'_>) -> Result<Coming, Nothing> {
    let last = told.done.last().ok_or(Nothing::NotBegun)?.date;
    let of_plan: Vec<DoneSession> =
        told.done.iter().filter(|one| slot::belongs(one, told.plan)).cloned().collect();
    let mut remarks = Vec::new();
    let mut plan = told.plan.clone();
    plan.weeks = moved::weeks(told.plan, &of_plan, told.as_of, &mut remarks);
    let days_away = i64::from((told.as_of - last).get_days());
    let weeks_away = if days_away >= AWAY { u32::try_from(days_away / 7).unwrap_or(0) } else { 0 };
    let open = Open::of(&plan, &of_plan, told.as_of);
    let mut desk = Course {
        told,
        desk: Desk {
            profile: told.profile,
            careful: &screening::advise(told.profile).start,
            entries: told.entries,
        },
        apart: apart(&plan),
        weeks_away,
        lines: BTreeMap::new(),
        changes: Vec::new(),
        first_week: None,
    };
    if plan.weeks.is_empty() {
        for session in &mut plan.sessions {
            desk.session(1, false, session);
        }
    }
    for week in &mut plan.weeks {
        let (number, date, is_light) = (week.week, week.date.clone(), slot::is_light(week));
        for session in &mut week.sessions {
            if open.is_open(number, date.as_deref(), session) {
                desk.session(number, is_light, session);
            }
        }
    }
    let Course { changes, first_week, .. } = desk;
    let weeks = plan.weeks.iter_mut().flat_map(|week| &mut week.sessions);
    pounds::fill_in(plan.sessions.iter_mut().chain(weeks), told.profile.units);
    let week = first_week.ok_or(Nothing::Over)?;
    if told.easier {
        easier::mark(&mut plan, week);
    }
    remarks.extend(left_out(&plan, &of_plan, week, told.as_of));
    if weeks_away > 0 {
        remarks.push(format!(
            "{weeks_away} weeks without a session: the first week back is a set less of each exercise, about a tenth \
             lighter, from the low end of the repetitions (common practice)"
        ));
    }
    Ok(Coming { plan, week, changes, remarks })
}

/// Which sessions of a plan are still to come.
struct Open {
    taken: slot::Taken,
    as_of: Date,
}

impl Open {
    fn of(plan: &Plan, done: &[DoneSession], as_of: Date) -> Open {
        let mut taken = slot::taken(done, plan);
        if slot::span(plan).is_none() && !plan.weeks.is_empty() {
            // Without dates, what comes before the last session that was done is past.
            let key =
                |slot: &slot::Slot<'_>| (slot.week, slot.session.day, slot.session.at.clone());
            let keys: Vec<_> = slot::slots(plan).iter().map(key).collect();
            let last = keys.iter().rposition(|key| taken.contains(key));
            taken.extend(keys.into_iter().take(last.unwrap_or(0)));
        }
        Open { taken, as_of }
    }

    fn is_open(&self, week: u32, first: Option<&str>, session: &Session) -> bool {
        let first = first.and_then(crate::input::clock::date);
        let date = first.and_then(|first| slot::day_in_week(first, session.day));
        date.is_none_or(|date| date >= self.as_of)
            && !self.taken.contains(&(week, session.day, session.at.clone()))
    }
}

/// A line's key: the exercise, and its day where a heavier and a lighter day are kept apart.
type Key = (String, Option<Weekday>);

struct Course<'a, 'b> {
    told: &'b Told<'a>,
    desk: Desk<'b>,
    apart: BTreeSet<String>,
    weeks_away: u32,
    lines: BTreeMap<Key, Option<Line<'b>>>,
    changes: Vec<Change>,
    first_week: Option<u32>,
}

impl Course<'_, '_> {
    fn session(&mut self, week: u32, is_light: bool, session: &mut Session) {
        let coming = *self.first_week.get_or_insert(week) == week;
        let is_eased = coming && self.told.easier && !is_light;
        let is_light = is_light || is_eased;
        let base = session.clone();
        if is_eased {
            easier::ease(session, self.told.profile.training_status);
        }
        let day = session.day;
        let groups = session.groups.iter_mut().filter(|group| group.is_work());
        for item in groups.flat_map(|group| &mut group.items) {
            self.item(item, day, week, is_light, coming);
        }
        if session.minutes.is_some() && *session != base {
            fit::to_minutes(session, &base, &|id| self.told.entries.get(id));
        }
    }

    fn item(&mut self, item: &mut Item, day: Weekday, week: u32, is_light: bool, coming: bool) {
        let apart = self.apart.contains(&item.exercise).then_some(day);
        let key = (item.exercise.clone(), apart);
        if !self.lines.contains_key(&key) {
            let mut done = history::of(&item.exercise, self.told.done);
            done.retain(|one| apart.is_none_or(|day| one.day.is_none_or(|own| own == day)));
            let line = Line::new(item, &done, self.weeks_away, &self.desk);
            self.lines.insert(key.clone(), line);
        }
        let Some(line) = self.lines.get_mut(&key).and_then(Option::as_mut) else {
            if coming {
                self.find_it(item, day);
            }
            return;
        };
        let Some(decision) = line.in_week(week, is_light, item) else { return };
        let before = item.clone();
        if decision.rule == Rule::Restart {
            item.sets = (item.sets - 1).max(1);
        }
        line.write(item, &decision);
        let units = self.told.profile.units;
        if is_same(&before, item) {
            *item = before;
        }
        if coming {
            let because = text::because(&decision, line.last(), units);
            if item.basis.is_some() {
                item.load_note = text::joined(item.load_note.take(), &because);
            }
            let exercise = item.exercise.clone();
            let line = text::line(item, units);
            self.changes.push(Change { day, exercise, line, rule: decision.rule.id(), because });
        }
    }
}

impl Course<'_, '_> {
    /// An exercise whose load was to be found before now, and was not: the search comes again.
    fn find_it(&mut self, item: &mut Item, day: Weekday) {
        if item.load_kg.is_some() || item.find_load.is_some() {
            return;
        }
        let sessions = self.told.plan.sessions.iter().filter(|session| session.day == day);
        let mut items = sessions.flat_map(slot::work);
        let Some(first) = items.find(|first| first.exercise == item.exercise) else { return };
        let Some(find) = &first.find_load else { return };
        let find = FindLoad { sets: find.sets.min(item.sets), ..find.clone() };
        let stop = item.rir.unwrap_or(find.stop);
        item.find_load = Some(FindLoad { stop, ..find });
        item.load_note.clone_from(&first.load_note);
        let because = "not done yet: its load is to be found".to_owned();
        let line = text::line(item, self.told.profile.units);
        let exercise = item.exercise.clone();
        self.changes.push(Change { day, exercise, line, rule: "find-load", because });
    }
}

/// Whether a line asks for the same as before.
fn is_same(before: &Item, now: &Item) -> bool {
    before.basis.is_none()
        && before.amounts() == now.amounts()
        && before.load_kg == now.load_kg
        && before.sets == now.sets
}

/// Exercises that come twice in a week for different numbers, or as a heavier and a lighter turn: each goes its own way.
fn apart(plan: &Plan) -> BTreeSet<String> {
    /// Common practice.
    const APART: u32 = 3;
    let weeks = plan.weeks.iter().map(|week| week.sessions.as_slice());
    let mut apart = BTreeSet::new();
    for sessions in weeks.chain([plan.sessions.as_slice()]) {
        let mut times: BTreeMap<&str, Vec<&Item>> = BTreeMap::new();
        for item in sessions.iter().flat_map(slot::work) {
            times.entry(&item.exercise).or_default().push(item);
        }
        let differ = |items: &Vec<&Item>| {
            let amounts = items.iter().map(|item| fit::most_of(item));
            let span = amounts.clone().max().zip(amounts.min());
            let turns = items.iter().any(|item| item.turn != items[0].turn);
            turns || span.is_some_and(|(high, low)| high - low >= APART)
        };
        let own = times.iter().filter(|(_, items)| differ(items));
        apart.extend(own.map(|(id, _)| (*id).to_owned()));
    }
    apart
}

/// Sessions of a week that was begun which were left out and stay out.
fn left_out(plan: &Plan, done: &[DoneSession], coming: u32, as_of: Date) -> Option<String> {
    let is_done = |week: &Week, session: &Session| {
        done.iter().any(|one| one.week == Some(week.week) && one.day == Some(session.day))
    };
    let begun = |week: &&Week| {
        week.week + 1 >= coming && week.sessions.iter().any(|session| is_done(week, session))
    };
    let mut days: Vec<String> = Vec::new();
    for week in plan.weeks.iter().filter(begun) {
        let first = week.date.as_deref().and_then(crate::input::clock::date);
        for session in week.sessions.iter().filter(|session| !is_done(week, session)) {
            let date = first.and_then(|first| slot::day_in_week(first, session.day));
            if date.is_some_and(|date| date < as_of) {
                days.push(format!("{} of week {}", session.day.name(), week.week));
            }
        }
    }
    (!days.is_empty())
        .then(|| format!("{} was missed and stays out: the week goes on", days.join(", ")))
}

/// Whether a plan has lines that come from what was done.
#[must_use]
pub fn is_of_the_record(plan: &Plan) -> bool {
    let weeks = plan.weeks.iter().flat_map(|week| &week.sessions);
    weeks.chain(&plan.sessions).flat_map(slot::work).any(|item| item.basis.is_some())
}

/// What a decision says beside a line.
#[must_use]
pub fn rule_of(decision: &Decision) -> &'static str {
    decision.rule.id()
}

#[cfg(test)]
mod tests;
