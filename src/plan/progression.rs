//! From the week as planned to every week of the course.
//!
//! The planner gives the sessions of each block at their fullest; the weeks vary sets, repetitions, load and reserve inside
//! them, so that no week has more sets or takes longer than its minutes.

mod amounts;
mod week_notes;

use std::collections::BTreeMap;

use amounts::{set_amounts, week_sets};
use jiff::civil::Date;

use crate::input::catalog::Entry;
use crate::input::is_senior;
use crate::input::profile::Profile;
use crate::plan::calendar::{BLOCK, WeekPlan, calendar, week_date};
use crate::plan::conditioning::{Conditioning, interval_days};
use crate::plan::file::{Group, Item, Session, Week};
use crate::plan::next_time;
use crate::plan::screening::CarefulStart;
use crate::plan::steps::{Track, most_after, next_load};
use crate::plan::told::Told;
use crate::plan::waves;
use crate::plan::{finisher, fit, spare_time, tired};
use crate::request::dose::{Dose, Duty, Span, for_client};
use crate::strength::estimate::percent_at_reserve;
use crate::words::{GroupKind, Status, Turn};

/// Repetitions of a heavy set at most (RX-05: ACSM 2009, 1 to 6 for the advanced).
const MOST_HEAVY_REPS: u32 = 6;

pub use crate::plan::told::{Lift, WRITTEN_DOWN};

/// A week that begins at the low end of its repetitions rests longer where it takes less of its minutes. Common practice.
const BUILD_WEEK_PERCENT: u32 = 82;

/// Everything that the weeks are made from.
pub struct Course<'a> {
    /// The client.
    pub profile: &'a Profile,
    /// The first day of week 1.
    pub start: Option<Date>,
    /// What the screening answers ask for.
    pub careful: &'a CarefulStart,
    /// The conditioning, where there is any.
    pub conditioning: Option<&'a Conditioning<'a>>,
    /// A catalog entry by id.
    pub entry: &'a dyn Fn(&str) -> Option<&'a Entry>,
    /// The loads of an exercise by id.
    pub lift: &'a dyn Fn(&str) -> Lift,
    /// The sessions of a block, from 0, at their fullest: main lifts stay, accessories change. Their loads are those
    /// for the amounts that stand in them.
    pub block: &'a dyn Fn(usize) -> Vec<Session>,
}

/// Every week of the course, in order.
#[must_use]
pub fn weeks(course: &Course<'_>) -> Vec<Week> {
    let mut progress =
        Progress { course, tracks: BTreeMap::new(), base: Vec::new(), done: Vec::new(), raises: 0 };
    let plans = calendar(course.profile.training_status, course.profile.weeks);
    plans.into_iter().map(|plan| progress.week(plan)).collect()
}

/// Where an exercise stands, with what does not change about it.
struct Standing<'a> {
    entry: &'a Entry,
    duty: Duty,
    dose: Dose,
    span: Span,
    lift: Lift,
    track: Track,
    /// The load of the last week that had it.
    before: Option<f64>,
    /// The amount of the week as planned, and as written this week.
    planned: u32,
    /// The load of the week as planned.
    planned_kg: Option<f64>,
    written: Option<u32>,
    /// Whether its weeks follow the block's heavy loads instead of its own track.
    is_heavy: bool,
    /// Whether an earlier week had it.
    is_known: bool,
    /// Repetitions that the load leaves out of account, as the muscles are tired.
    tired: u32,
}

/// An exercise and its turn of the week: its heavier and its lighter day grow apart.
pub(super) type Tracked = (String, Option<Turn>);

pub(super) fn tracked(item: &Item) -> Tracked {
    (item.exercise.clone(), item.turn)
}

struct Progress<'c, 'a> {
    course: &'c Course<'a>,
    tracks: BTreeMap<Tracked, Standing<'a>>,
    base: Vec<Session>,
    /// What the session had so far, with its sets as planned.
    done: Vec<(&'a Entry, u32)>,
    /// Full weeks of conditioning so far: it grows with each, and not in easier ones.
    raises: u32,
}

impl<'a> Progress<'_, 'a> {
    fn week(&mut self, plan: WeekPlan) -> Week {
        if plan.in_block == 0 {
            self.base = (self.course.block)(plan.block);
            for standing in self.tracks.values_mut().filter(|one| plan.block > 0 && !one.is_heavy) {
                standing.track.begin_block(standing.lift.ladder.as_ref(), standing.lift.cap_kg);
            }
        }
        let base = std::mem::take(&mut self.base);
        let rotates = plan.block > 0 && base.iter().any(|session| self.is_new(session));
        let hard_ends = match self.course.conditioning {
            Some(conditioning) => interval_days(&base, conditioning, self.course.entry),
            None => vec![false; base.len()],
        };
        let days = base.iter().zip(hard_ends);
        let sessions: Vec<Session> =
            days.map(|(session, hard)| self.session(session, plan, hard)).collect();
        self.base = base;
        self.advance(plan, &sessions);
        let has_begun = |conditioning: &Conditioning<'_>| plan.week >= conditioning.from_week();
        self.raises += u32::from(!plan.is_light && self.course.conditioning.is_some_and(has_begun));
        Week {
            week: plan.week,
            date: self.course.start.and_then(|start| week_date(start, plan.week)),
            kind: plan.kind,
            repeats: None,
            note: Some(week_notes::note(self.course, plan, rotates)),
            sessions,
        }
    }

    /// Whether a session has an exercise that no week had before.
    fn is_new(&self, session: &Session) -> bool {
        let groups = session.groups.iter().filter(|group| group.is_work());
        let mut items = groups.flat_map(|group| &group.items);
        items.any(|item| !self.tracks.keys().any(|(id, _)| *id == item.exercise))
    }

    fn session(&mut self, base: &Session, plan: WeekPlan, hard_end: bool) -> Session {
        let mut session = base.clone();
        let limit = base.minutes.as_ref().map(|minutes| minutes.limit);
        self.done.clear();
        session.groups = base
            .groups
            .iter()
            .filter_map(|group| self.group(group, plan, limit, hard_end))
            .collect();
        fit::to_minutes(&mut session, base, self.course.entry);
        let profile = self.course.profile;
        let learns = profile.training_status == Status::Novice;
        let older = learns && is_senior(profile);
        if !(plan.is_light || older || profile.goal.rests_briefly()) {
            let most = limit.unwrap_or(0).saturating_mul(60);
            let wanted = most / 100 * BUILD_WEEK_PERCENT;
            fit::rest_longer(&mut session, [wanted, most], self.course.entry);
        }
        session.note = spare_time::of_week(&session, base, plan);
        session
    }

    fn group(
        &mut self,
        base: &Group,
        plan: WeekPlan,
        limit: Option<u32>,
        hard_end: bool,
    ) -> Option<Group> {
        let status = self.course.profile.training_status;
        match base.kind {
            GroupKind::Prep => Some(base.clone()),
            GroupKind::Conditioning => {
                self.course.conditioning?.with(&base.items.first()?.exercise).of_week(
                    plan.week,
                    self.raises.saturating_sub(u32::from(plan.is_light)),
                    limit.unwrap_or(60),
                    hard_end && !plan.is_light,
                )
            }
            GroupKind::Finisher => {
                (finisher::is_time(status, plan.week) && !plan.is_light).then(|| base.clone())
            }
            GroupKind::Single | GroupKind::Superset => {
                let mut group = base.clone();
                for item in &mut group.items {
                    self.item(item, plan);
                }
                Some(group)
            }
        }
    }

    fn item(&mut self, item: &mut Item, plan: WeekPlan) {
        let profile = self.course.profile;
        let careful = self.course.careful;
        let done = (self.course.entry)(&item.exercise).map(|entry| (entry, item.sets));
        let before = self.done.iter().copied();
        let tired = done.map_or(0, |(entry, _)| tired::after(entry, item.turn, before));
        self.done.extend(done);
        let Some(standing) = self.standing(item) else {
            return;
        };
        standing.tired = tired;
        let sets = week_sets(item.sets, plan, profile.training_status, careful);
        let mut rir = week_rir(standing, item, plan, profile.training_status);
        let mut amount = if plan.is_light { standing.track.low } else { standing.track.amount };
        let mut load_kg = standing.track.load_kg;
        let heavy = standing.heavy(profile, plan).filter(|_| careful.heavy_sets);
        standing.is_heavy = heavy.is_some();
        if let Some((heavy, load)) = heavy {
            amount = heavy.reps;
            rir = rir.map(|_| heavy.rir);
            // A week that asks for less than the kit's lightest step stays where the last one was.
            load_kg = load.or_else(|| load_kg.into_iter().chain(standing.before).reduce(f64::min));
        }
        item.sets = sets;
        set_amounts(item, amount);
        item.rir = rir.map(|rir| rir.max(careful.rir(plan.week)).min(5));
        standing.before = load_kg.or(standing.before);
        let told = standing.told(plan);
        told.load(item, load_kg, amount);
        item.effort = item
            .rir
            .and_then(|rir| next_time::effort(profile.training_status, rir))
            .or(item.effort.take());
        item.next = Some(told.next(standing.before, profile.training_status, careful));
    }

    /// The standing of an item's exercise, begun where it is new; `None` where the catalog does not know it.
    fn standing(&mut self, item: &Item) -> Option<&mut Standing<'a>> {
        let key = tracked(item);
        if !self.tracks.contains_key(&key) {
            let standing = self.begin(item)?;
            self.tracks.insert(key.clone(), standing);
        }
        let standing = self.tracks.get_mut(&key)?;
        standing.planned = fit::most_of(item);
        Some(standing)
    }

    fn begin(&self, item: &Item) -> Option<Standing<'a>> {
        let entry = (self.course.entry)(&item.exercise)?;
        let profile = self.course.profile;
        let duty = Duty::of(entry);
        let dose = for_client(profile, entry, item.turn);
        let span = dose.span(entry);
        let lift = (self.course.lift)(&item.exercise);
        let planned = fit::most_of(item);
        let is_heavy = waves::is_for(profile, duty);
        // A heavy load is found with the sets it is meant for, not with fewer repetitions of who knows what.
        let unknown = is_heavy && lift.one_rep_max.is_none();
        // Where an exercise's own range lies above the heavy one, its aim is no longer heavy.
        let low = if unknown { span.aim.min(span.low.max(MOST_HEAVY_REPS)) } else { span.low };
        let span = Span { low, ..span };
        let load_kg = self.first_load(item, &lift, span);
        let track = Track::start(entry, duty, span, planned, load_kg);
        Some(Standing {
            entry,
            duty,
            dose,
            span,
            lift,
            track,
            before: None,
            planned,
            planned_kg: item.load_kg,
            written: None,
            is_heavy: false,
            is_known: false,
            tired: 0,
        })
    }

    /// The first load of an item; where a careful start keeps more in reserve, what the known lift gives with that. A
    /// first week that has no fewer repetitions to begin with keeps its one more in reserve by the load.
    fn careful_load(&self, item: &Item, lift: &Lift, span: Span) -> Option<f64> {
        let learns = self.course.profile.training_status == Status::Novice;
        // A set that was cut to fit its minutes has none fewer either.
        let planned = fit::most_of(item).min(span.aim);
        let starts = item.rir.filter(|_| span.low >= planned && !learns).map_or(0, |rir| rir + 1);
        let reserve = self.course.careful.rir(1).max(starts);
        let load = item.load_kg?;
        let careful = || {
            let percent = percent_at_reserve(fit::most_of(item), reserve)?;
            lift.ladder.as_ref()?.at_most(lift.one_rep_max?.load_kg(percent))
        };
        let raised = item.rir.is_some_and(|rir| rir < reserve);
        Some(if raised { careful().map_or(load, |careful| careful.min(load)) } else { load })
    }

    /// The first load of an item; where earlier weeks had the exercise on a day of another kind, no more than a tenth or a
    /// step above those.
    fn first_load(&self, item: &Item, lift: &Lift, span: Span) -> Option<f64> {
        let load = self.careful_load(item, lift, span)?;
        let of_it = self
            .tracks
            .iter()
            .filter(|((id, _), standing)| *id == item.exercise && standing.is_known);
        let before = of_it.filter_map(|(_, standing)| standing.before).reduce(f64::max);
        let Some((before, ladder)) = before.zip(lift.ladder.as_ref()) else { return Some(load) };
        Some(ladder.at_most(most_after(before, ladder)).map_or(load, |most| most.min(load)))
    }

    /// Moves every exercise of the week on, except after light weeks, of which a novice's first is one.
    fn advance(&mut self, plan: WeekPlan, sessions: &[Session]) {
        for item in
            sessions.iter().flat_map(|session| &session.groups).flat_map(|group| &group.items)
        {
            if let Some(standing) = self.tracks.get_mut(&tracked(item)) {
                standing.written = Some(fit::most_of(item));
            }
        }
        for standing in self.tracks.values_mut() {
            standing.is_known |= standing.written.is_some();
            let Some(written) = standing.written.take().filter(|_| !plan.is_light) else {
                continue;
            };
            standing.track.step_from = None;
            if standing.is_heavy {
                continue;
            }
            // Inside the first block the week as planned is the fullest; later, minutes alone hold an amount back.
            let trimmed = (written < standing.track.amount).then_some(written);
            let in_first = plan.block == 0 && plan.in_block + 1 < BLOCK;
            let most = if in_first { Some(standing.planned) } else { trimmed };
            standing.track.advance(standing.lift.ladder.as_ref(), standing.lift.cap_kg, most);
        }
    }
}

impl Standing<'_> {
    /// Reps, reserve and load of a heavy main lift past novice, where its maximum is known.
    fn heavy(&self, profile: &Profile, plan: WeekPlan) -> Option<(waves::Heavy, Option<f64>)> {
        let status = profile.training_status;
        let is_heavy = waves::is_for(profile, self.duty);
        let known = self.lift.ladder.as_ref().zip(self.lift.one_rep_max);
        let (ladder, most_for_one) = known.filter(|_| is_heavy)?;
        let (block, cap_kg) = (plan.block, self.lift.cap_kg);
        let asked = |in_block: u32| {
            waves::heavy(status, self.span, self.dose.rir, block, in_block, plan.is_light)
        };
        let loaded = |heavy: waves::Heavy, before: Option<f64>| {
            let in_reserve = waves::Heavy { rir: heavy.rir + self.tired, ..heavy };
            waves::load(in_reserve, status, block, most_for_one, ladder, cap_kg, before)
        };
        // Fewer repetitions are for more load: where the next step is too far, last week's stay.
        let heavy = (0..=plan.in_block).map(asked).reduce(|last, now| {
            let gains = loaded(now, None) > loaded(last, None);
            if gains { now } else { waves::Heavy { reps: now.reps.max(last.reps), ..now } }
        })?;
        let load = loaded(heavy, self.before);
        // In the first block what was done is done again, though the table says a little less.
        let same = |(went, _): &(u32, f64)| block == 0 && *went == heavy.reps + heavy.rir;
        let lifted = self.lift.lifted.filter(same).map(|(_, kg)| kg);
        // A load that is a step lower for many sets stays so.
        let lifted = lifted.map(|kg| self.planned_kg.map_or(kg, |planned| planned.min(kg)));
        // Nor does it come at once where the week before was more than a tenth under it.
        let most = self.before.map(|before| most_for_one.most_after(before, ladder));
        let soon = |kg: f64| most.is_some_and(|most| kg > most);
        let lifted = lifted.filter(|kg| !soon(*kg));
        let again = lifted.filter(|kg| ladder.makes(*kg) && cap_kg.is_none_or(|cap| *kg <= cap));
        let next = |kg: f64| {
            let next = next_load(kg, ladder, cap_kg).filter(|next| !next.is_wide && heavy.step_up);
            let next = next.filter(|next| !soon(next.load_kg));
            next.map_or(kg, |next| next.load_kg)
        };
        Some((heavy, again.map(next).map_or(load, |again| load.map(|load| load.max(again)))))
    }

    /// What the week says of it.
    fn told(&self, plan: WeekPlan) -> Told<'_> {
        Told {
            entry: self.entry,
            duty: self.duty,
            lift: &self.lift,
            track: &self.track,
            week: plan,
            is_heavy: self.is_heavy,
            is_known: self.is_known,
        }
    }
}

/// Reserve of a week: one more in light weeks and in the first week of a block, as planned else.
fn week_rir(standing: &Standing<'_>, item: &Item, plan: WeekPlan, status: Status) -> Option<u32> {
    let planned = item.rir?;
    if standing.duty == Duty::Explosive {
        return Some(planned);
    }
    let starts = plan.in_block == 0 && status != Status::Novice;
    Some((planned + u32::from(plan.is_light || starts)).min(5))
}

#[cfg(test)]
mod tests;
