//! From the whole plan to the kept form: what the numbers give again is left out, and the rest is compared until
//! nothing is lost.

use super::{Entries, is_called};
use crate::input::plan::{
    Exception, FindLoad, Group, Item, Plan, ProfileRef, RampSet, Session, Week,
};
use crate::input::short_plan::{
    Amount, DayExercise, Ramp, SHORT_FORMAT, ShortBlock, ShortChange, ShortDose, ShortFind,
    ShortGroup, ShortItem, ShortPlan, ShortSession, ShortWeek,
};
use crate::words::{GroupKind, Units};

/// The kept form of a plan, with the names of `entry` beside the ids.
#[must_use]
pub fn shorten(plan: &Plan, entry: &Entries<'_>) -> ShortPlan {
    let profile = match &plan.profile {
        ProfileRef::Whole(profile) => Some(profile.as_ref()),
        ProfileRef::File(_) => None,
    };
    let units = profile.map_or(Units::Kg, |profile| profile.units);
    let writer = Writer { units, entry };
    let mut short = writer.bare(plan);
    writer.complete(&mut short, plan, profile);
    short
}

pub(super) struct Writer<'p, 'e> {
    units: Units,
    pub(super) entry: &'p Entries<'e>,
}

impl Writer<'_, '_> {
    /// The numbers, without any text that may follow from them.
    fn bare(&self, plan: &Plan) -> ShortPlan {
        let mut short = ShortPlan {
            format: SHORT_FORMAT.to_owned(),
            client: plan.client.clone(),
            seed: plan.seed,
            inputs: plan.inputs.clone(),
            profile: plan.profile.clone(),
            exercises: plan.exercises.clone(),
            solve: plan.solve.clone(),
            split: plan.split.clone(),
            sessions: plan.sessions.iter().map(|session| self.session(session)).collect(),
            blocks: Vec::new(),
            volume: Vec::new(),
            balance: None,
            shortfalls: plan.shortfalls.clone(),
            cautions: plan.cautions.clone(),
            weeks: Vec::new(),
            exceptions: plan.exceptions.clone(),
            pauses: plan.pauses.clone(),
            reworked_from: plan.reworked_from.clone(),
        };
        let mut base: &[Session] = &plan.sessions;
        for (place, week) in plan.weeks.iter().enumerate() {
            if place > 0 && !differs_little(base, week, &plan.exceptions) {
                let fullest = fullest(&plan.weeks[place..], &plan.exceptions);
                base = &fullest.sessions;
                let sessions = base.iter().map(|session| self.block_session(session)).collect();
                short.blocks.push(ShortBlock { from_week: week.week, sessions });
            }
            short.weeks.push(self.week(base, week));
        }
        short
    }

    fn session(&self, session: &Session) -> ShortSession {
        ShortSession {
            day: session.day,
            at: session.at.clone(),
            focus: session.focus.clone(),
            limit: session.minutes.as_ref().map(|minutes| minutes.limit),
            note: None,
            groups: session.groups.iter().map(|group| self.group(group)).collect(),
        }
    }

    /// A later block's session. What was done before a week is that week's own.
    fn block_session(&self, session: &Session) -> ShortSession {
        let mut short = self.session(session);
        let groups = short.groups.iter_mut();
        groups.flat_map(|group| &mut group.items).for_each(|item| item.dose.basis = None);
        short
    }

    fn group(&self, group: &Group) -> ShortGroup {
        let items = group.items.iter().map(|item| self.item(item, group.kind));
        ShortGroup { kind: group.kind, items: items.collect() }
    }

    fn item(&self, item: &Item, kind: GroupKind) -> ShortItem {
        let dosed = matches!(kind, GroupKind::Single | GroupKind::Superset);
        let mut dose = ShortDose {
            rest_s: Some(item.rest_s).filter(|rest_s| *rest_s > 0),
            rir: item.rir,
            basis: item.basis.clone(),
            find_load: item.find_load.as_ref().map(|find| self.find(find)),
            ramp: u32::try_from(item.ramp.len()).ok().filter(|steps| *steps > 0).map(Ramp::Steps),
            ..ShortDose::default()
        };
        set_amounts(&mut dose, item);
        self.set_load(&mut dose, item.load_kg);
        if !dosed {
            // Nothing tells these but the plan itself.
            dose.load_note.clone_from(&item.load_note);
            dose.next.clone_from(&item.next);
            dose.effort.clone_from(&item.effort);
        }
        let leads_to = item.load_kg.is_some() || item.find_load.is_some();
        if !(dosed && leads_to) {
            dose.ramp = Some(self.ramp(&item.ramp)).filter(|_| !item.ramp.is_empty());
        }
        ShortItem {
            exercise: item.exercise.clone(),
            name: (self.entry)(&item.exercise).map(|entry| entry.name.clone()),
            sets: item.sets,
            each_side: item.each_side,
            turn: item.turn,
            tempo: item.tempo.clone(),
            instead: item.instead.clone(),
            dose,
        }
    }

    fn set_load(&self, dose: &mut ShortDose, load_kg: Option<f64>) {
        match self.units {
            Units::Kg => dose.load_kg = load_kg,
            Units::Lb => dose.load_lb = load_kg.map(pounds),
        }
        // A load that is no half pound is kept as it is.
        if let Some((kg, lb)) = load_kg.zip(dose.load_lb)
            && (grams(lb) - kg).abs() > 1e-9
        {
            dose.load_kg = Some(kg);
        }
    }

    pub(super) fn find(&self, find: &FindLoad) -> ShortFind {
        let fits = |kg: f64| (grams(pounds(kg)) - kg).abs() < 1e-9;
        let in_pounds = self.units == Units::Lb && fits(find.start_kg) && fits(find.step_kg);
        let (sets, stop) = (find.sets, find.stop);
        let kg = |mass: f64| Some(mass).filter(|_| !in_pounds);
        let lb = |mass: f64| Some(pounds(mass)).filter(|_| in_pounds);
        ShortFind {
            start_kg: kg(find.start_kg),
            start_lb: lb(find.start_kg),
            step_kg: kg(find.step_kg),
            step_lb: lb(find.step_kg),
            sets,
            stop,
        }
    }

    pub(super) fn ramp(&self, ramp: &[RampSet]) -> Ramp {
        let in_pounds = self.units == Units::Lb;
        let fits = |kg: f64| (grams(pounds(kg)) - kg).abs() < 1e-9;
        let step = |step: &RampSet| match step.load_kg.filter(|kg| in_pounds && fits(*kg)) {
            Some(kg) => RampSet { load_kg: None, load_lb: Some(pounds(kg)), ..step.clone() },
            None => RampSet { load_lb: None, ..step.clone() },
        };
        Ramp::Sets(ramp.iter().map(step).collect())
    }

    fn week(&self, base: &[Session], week: &Week) -> ShortWeek {
        let mut short = empty(week);
        for session in base {
            let is_it = |one: &&Session| one.day == session.day && one.at == session.at;
            let called = called(base, session);
            match week.sessions.iter().find(is_it) {
                None => short.off.push(called),
                Some(now) => match self.changes(session, now, &called) {
                    Some((items, drop)) => {
                        short.items.extend(items);
                        short.drop.extend(drop);
                    }
                    None => short.sessions.push(self.whole_session(now)),
                },
            }
        }
        let is_new =
            |one: &&Session| !base.iter().any(|was| was.day == one.day && was.at == one.at);
        for session in week.sessions.iter().filter(is_new) {
            short.sessions.push(self.whole_session(session));
        }
        short
    }

    /// What makes the week's session of the block's; `None` where that takes more than numbers and left-out exercises.
    fn changes(
        &self,
        base: &Session,
        now: &Session,
        called: &str,
    ) -> Option<(Vec<ShortChange>, Vec<DayExercise>)> {
        let (mut items, mut drop) = (Vec::new(), Vec::new());
        let mut left = now.groups.iter().peekable();
        for group in &base.groups {
            let same = left.next_if(|next| matches_group(group, next));
            let mut now_items = same.into_iter().flat_map(|group| &group.items).peekable();
            for item in &group.items {
                let next = now_items
                    .next_if(|next| next.exercise == item.exercise || group.items.len() == 1);
                match next {
                    None => drop.push(DayExercise {
                        day: called.to_owned(),
                        exercise: item.exercise.clone(),
                    }),
                    Some(next) => items.extend(self.change(item, next, called)?),
                }
            }
            if now_items.next().is_some() {
                return None;
            }
        }
        left.next().is_none().then_some((items, drop))
    }

    /// What differs about an item; nothing where it is the same, `None` where numbers do not tell it.
    fn change(&self, base: &Item, now: &Item, called: &str) -> Option<Vec<ShortChange>> {
        let same = base.each_side == now.each_side
            && base.turn == now.turn
            && base.tempo == now.tempo
            && base.instead == now.instead
            && (base.rir.is_none() || now.rir.is_some())
            && (base.load_kg.is_none() || now.load_kg.is_some());
        if !same {
            return None;
        }
        let mut dose = ShortDose {
            rest_s: Some(now.rest_s).filter(|rest| *rest != base.rest_s),
            rir: now.rir.filter(|rir| Some(*rir) != base.rir),
            basis: now.basis.clone(),
            ..ShortDose::default()
        };
        if now.load_kg != base.load_kg {
            self.set_load(&mut dose, now.load_kg);
        }
        let was = [&base.reps, &base.seconds, &base.meters, &base.calories];
        let is = [&now.reps, &now.seconds, &now.meters, &now.calories];
        if !was
            .into_iter()
            .zip(is)
            .all(|(was, is)| is_spread(was.as_deref(), is.as_deref(), now.sets))
        {
            set_amounts(&mut dose, now);
        }
        if now.ramp.len() != base.ramp.len() {
            dose.ramp = u32::try_from(now.ramp.len()).ok().map(Ramp::Steps);
        }
        let change = ShortChange {
            day: called.to_owned(),
            exercise: base.exercise.clone(),
            swap: Some(now.exercise.clone()).filter(|id| *id != base.exercise),
            sets: Some(now.sets).filter(|sets| *sets != base.sets),
            dose,
        };
        let empty = ShortChange {
            day: change.day.clone(),
            exercise: change.exercise.clone(),
            ..ShortChange::default()
        };
        Some(if change == empty { Vec::new() } else { vec![change] })
    }

    pub(super) fn whole_week(&self, week: &Week) -> ShortWeek {
        let mut short = empty(week);
        short.sessions = week.sessions.iter().map(|one| self.whole_session(one)).collect();
        short
    }

    /// A session with every text written out.
    pub(super) fn whole_session(&self, session: &Session) -> ShortSession {
        let mut short = self.session(session);
        short.note.clone_from(&session.note);
        for (short, group) in short.groups.iter_mut().zip(&session.groups) {
            for (short, item) in short.items.iter_mut().zip(&group.items) {
                short.dose.load_note.clone_from(&item.load_note);
                short.dose.next.clone_from(&item.next);
                short.dose.effort.clone_from(&item.effort);
                short.dose.ramp = Some(self.ramp(&item.ramp)).filter(|_| !item.ramp.is_empty());
            }
        }
        short
    }
}

/// Whether amounts are those of before, cut or spread to a number of sets by the last one.
fn is_spread(was: Option<&[u32]>, is: Option<&[u32]>, sets: u32) -> bool {
    let (Some(was), Some(is)) = (was, is) else { return was.is_none() && is.is_none() };
    let last = was.last().copied().unwrap_or(1);
    let mut spread = was.iter().copied().chain(std::iter::repeat(last));
    u32::try_from(is.len()) == Ok(sets) && is.iter().all(|amount| spread.next() == Some(*amount))
}

fn empty(week: &Week) -> ShortWeek {
    ShortWeek {
        week: week.week,
        date: week.date.clone(),
        kind: week.kind,
        repeats: week.repeats,
        note: week.note.clone(),
        items: Vec::new(),
        drop: Vec::new(),
        off: Vec::new(),
        notes: std::collections::BTreeMap::new(),
        sessions: Vec::new(),
    }
}

/// The name of a session among those of its week.
pub(super) fn called(sessions: &[Session], session: &Session) -> String {
    let alone = sessions.iter().filter(|other| other.day == session.day).count() == 1;
    match &session.at {
        Some(at) if !alone => format!("{}@{at}", session.day),
        _ => session.day.to_string(),
    }
}

/// Whether two groups are the same one, with some items left out or, where there is one, another in its place.
fn matches_group(base: &Group, now: &Group) -> bool {
    let known = |item: &Item| base.items.iter().any(|was| was.exercise == item.exercise);
    let one = base.items.len() == 1 && now.items.len() == 1;
    base.kind == now.kind
        && (now.items.iter().all(known) || one && base.kind == GroupKind::Conditioning)
}

/// Whether a week's sessions are those of the block with fewer exercises at most. What is otherwise on a date is told in
/// its week and makes no block.
fn differs_little(base: &[Session], week: &Week, exceptions: &[Exception]) -> bool {
    let usual = week.sessions.iter().filter(|session| !is_excepted(week, session, exceptions));
    usual.into_iter().all(|session| {
        let was = base.iter().find(|was| was.day == session.day && was.at == session.at);
        was.is_some_and(|was| {
            let mut groups = was.groups.iter();
            session.groups.iter().all(|now| groups.any(|group| matches_group(group, now)))
        })
    })
}

fn is_excepted(week: &Week, session: &Session, exceptions: &[Exception]) -> bool {
    let at = session.at.as_deref();
    exceptions.iter().any(|one| one.week == week.week && is_called(session.day, at, &one.day))
}

/// The fullest of the weeks that share the first one's exercises, without exceptions where there is such a week.
fn fullest<'w>(weeks: &'w [Week], exceptions: &[Exception]) -> &'w Week {
    let size = |week: &Week| -> (usize, u32) {
        let groups = || week.sessions.iter().flat_map(|session| &session.groups);
        let items = || groups().flat_map(|group| &group.items);
        (items().count(), items().map(|item| item.sets).sum())
    };
    let is_usual =
        |week: &&Week| !week.sessions.iter().any(|one| is_excepted(week, one, exceptions));
    let first = &weeks[0];
    let alike = weeks.iter().take_while(|week| {
        differs_little(&week.sessions, first, exceptions)
            || differs_little(&first.sessions, week, exceptions)
    });
    let alike: Vec<&Week> = alike.collect();
    let usual = alike.iter().copied().filter(is_usual);
    // Of equally full weeks the first.
    usual.reduce(|best, week| if size(week) > size(best) { week } else { best }).unwrap_or(first)
}

fn set_amounts(dose: &mut ShortDose, item: &Item) {
    let amount = |list: &Option<Vec<u32>>| {
        let list = list.as_ref()?;
        let first = *list.first()?;
        let same = list.len() == item.sets as usize && list.iter().all(|one| *one == first);
        Some(if same { Amount::Same(first) } else { Amount::Each(list.clone()) })
    };
    dose.reps = amount(&item.reps);
    dose.seconds = amount(&item.seconds);
    dose.meters = amount(&item.meters);
    dose.calories = amount(&item.calories);
}

/// Kilograms in pounds, to the half.
fn pounds(kg: f64) -> f64 {
    crate::strength::ladder::half_pounds(kg)
}

/// Pounds in kilograms, to the gram.
fn grams(lb: f64) -> f64 {
    (crate::strength::ladder::to_kg(lb, Units::Lb) * 1000.0).round() / 1000.0
}
