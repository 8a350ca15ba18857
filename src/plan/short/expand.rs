//! From the kept form to the whole plan.

use super::teller::Teller;
use super::{Entries, is_called};
use crate::input::place::KG_PER_LB;
use crate::input::plan::{
    FORMAT, FindLoad, Group, Item, MinutesUsed, Plan, ProfileRef, RampSet, Session, Week,
};
use crate::input::profile::Profile;
use crate::input::short_plan::{
    Amount, Ramp, ShortChange, ShortDose, ShortFind, ShortGroup, ShortItem, ShortPlan,
    ShortSession, ShortWeek,
};
use crate::plan::calendar::WeekPlan;
use crate::plan::pounds;

/// What of the kept form does not fit together, and where it stands: the keys and places on the way to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misfit {
    /// The week's place in the list of weeks.
    pub week: usize,
    /// The key in the week.
    pub key: &'static str,
    /// The place in that list.
    pub place: usize,
    /// What is wrong, with what to write.
    pub what: String,
}

/// The whole plan that a kept one stands for.
///
/// # Errors
/// Everything in the weeks that names what its block does not have.
pub fn expand(
    short: &ShortPlan,
    profile: Option<&Profile>,
    entry: &Entries<'_>,
) -> Result<Plan, Vec<Misfit>> {
    let teller = profile.map(|profile| Teller::new(profile, entry));
    let mut maker = Maker { teller, faults: Vec::new() };
    let sessions = maker.block(&short.sessions);
    let mut base = sessions.clone();
    let mut weeks = Vec::new();
    for (place, week) in short.weeks.iter().enumerate() {
        if let Some(block) = short.blocks.iter().find(|block| block.from_week == week.week) {
            base = maker.block(&block.sessions);
        }
        weeks.push(maker.week(place, week, &base));
    }
    if !maker.faults.is_empty() {
        return Err(maker.faults);
    }
    let mut plan = Plan {
        format: FORMAT.to_owned(),
        client: short.client.clone(),
        seed: short.seed,
        inputs: short.inputs.clone(),
        profile: short.profile.clone(),
        exercises: short.exercises.clone(),
        solve: short.solve.clone(),
        split: short.split.clone(),
        sessions,
        volume: short.volume.clone(),
        balance: short.balance,
        shortfalls: short.shortfalls.clone(),
        cautions: short.cautions.clone(),
        weeks,
        exceptions: short.exceptions.clone(),
        pauses: short.pauses.clone(),
        reworked_from: short.reworked_from.clone(),
    };
    if let Some(profile) = profile {
        let weeks = plan.weeks.iter_mut().flat_map(|week| &mut week.sessions);
        pounds::fill_in(plan.sessions.iter_mut().chain(weeks), profile.units);
    }
    if let (ProfileRef::File(_), Some(profile)) = (&plan.profile, profile) {
        plan.profile = ProfileRef::Whole(Box::new(profile.clone()));
    }
    Ok(plan)
}

struct Maker<'p, 'e> {
    /// Without a profile nothing is told.
    teller: Option<Teller<'p, 'e>>,
    faults: Vec<Misfit>,
}

impl Maker<'_, '_> {
    /// A block's session.
    fn block(&self, short: &[ShortSession]) -> Vec<Session> {
        let mut sessions: Vec<Session> = short.iter().map(|session| self.base(session)).collect();
        if let Some(teller) = &self.teller {
            teller.block(&mut sessions);
        }
        for item in sessions
            .iter_mut()
            .flat_map(|session| &mut session.groups)
            .flat_map(|group| &mut group.items)
        {
            said(item);
        }
        sessions
    }

    fn base(&self, short: &ShortSession) -> Session {
        let mut session = bare(short);
        session.groups = short.groups.iter().map(|group| self.base_group(group)).collect();
        if let Some(teller) = &self.teller {
            teller.session(&mut session, None);
        }
        session.note = session.note.filter(|note| !note.is_empty());
        session
    }

    fn base_group(&self, short: &ShortGroup) -> Group {
        let is_work = matches!(
            short.kind,
            crate::words::GroupKind::Single | crate::words::GroupKind::Superset
        );
        let items = short.items.iter().map(|short| {
            let mut item = whole_item(short);
            let steps = match short.dose.ramp {
                Some(Ramp::Steps(steps)) => Some(steps),
                _ => None,
            };
            if let Some(teller) = self.teller.as_ref().filter(|_| is_work) {
                teller.base(&mut item, steps);
            }
            item
        });
        Group { kind: short.kind, seconds: None, items: items.collect() }
    }

    fn week(&mut self, place: usize, short: &ShortWeek, base: &[Session]) -> Week {
        let plan = self.teller.as_ref().and_then(|teller| teller.week_plan(short.week));
        self.check(place, short, base);
        let mut sessions: Vec<Session> = Vec::new();
        let own = |session: &Session| {
            short.sessions.iter().find(|own| own.day == session.day && own.at == session.at)
        };
        for session in base {
            let at = session.at.as_deref();
            if let Some(own) = own(session) {
                sessions.push(self.own(own));
            } else if !short.off.iter().any(|called| is_called(session.day, at, called)) {
                sessions.push(self.changed(session, short, plan));
            }
        }
        let is_new = |own: &&ShortSession| {
            !base.iter().any(|session| own.day == session.day && own.at == session.at)
        };
        for own in short.sessions.iter().filter(is_new) {
            sessions.push(self.own(own));
        }
        if let Some((teller, plan)) = self.teller.as_mut().zip(plan) {
            teller.passed(&sessions, plan);
        }
        Week {
            week: short.week,
            date: short.date.clone(),
            kind: short.kind,
            repeats: short.repeats,
            note: short.note.clone(),
            sessions,
        }
    }

    /// A week's own session stands as it is written; only its time is counted.
    fn own(&self, short: &ShortSession) -> Session {
        let mut session = bare(short);
        let group = |group: &ShortGroup| Group {
            kind: group.kind,
            seconds: None,
            items: group.items.iter().map(whole_item).collect(),
        };
        session.groups = short.groups.iter().map(group).collect();
        let note = session.note.take();
        if let Some(teller) = &self.teller {
            teller.session(&mut session, None);
        }
        session.note = note.filter(|note| !note.is_empty());
        for item in session.groups.iter_mut().flat_map(|group| &mut group.items) {
            said(item);
        }
        session
    }

    /// A block's session with what the week changes.
    fn changed(&self, base: &Session, week: &ShortWeek, plan: Option<WeekPlan>) -> Session {
        let mut session = Session { note: None, ..base.clone() };
        let at = base.at.as_deref();
        let is_dropped = |item: &Item| {
            let mut drops = week.drop.iter();
            drops.any(|one| is_called(base.day, at, &one.day) && one.exercise == item.exercise)
        };
        for group in &mut session.groups {
            let works = group.is_work() && group.kind != crate::words::GroupKind::Finisher;
            group.items.retain(|item| !is_dropped(item));
            for item in &mut group.items {
                let before = item.clone();
                let mut changes = week.items.iter().filter(|one| {
                    is_called(base.day, at, &one.day) && one.exercise == before.exercise
                });
                let change = changes.next();
                item.basis = None;
                if let Some(change) = change {
                    apply(item, change);
                }
                if let Some((teller, plan)) = self.teller.as_ref().zip(plan).filter(|_| works) {
                    teller.week(item, &before, plan);
                }
                if let Some(change) = change {
                    speak(item, &change.dose);
                }
                said(item);
            }
        }
        session.groups.retain(|group| !group.items.is_empty());
        let note = week.notes.iter().find(|(day, _)| is_called(base.day, at, day));
        session.note = note.map(|(_, text)| text.clone());
        if let Some((teller, plan)) = self.teller.as_ref().zip(plan) {
            teller.session(&mut session, Some((base, plan)));
        }
        session.note = session.note.filter(|note| !note.is_empty());
        session
    }

    /// Everything that a week names and its block does not have.
    fn check(&mut self, week: usize, short: &ShortWeek, base: &[Session]) {
        let has = |day: &str, exercise: &str| {
            let sessions =
                base.iter().filter(|session| is_called(session.day, session.at.as_deref(), day));
            let mut items =
                sessions.flat_map(|session| &session.groups).flat_map(|group| &group.items);
            items.any(|item| item.exercise == exercise)
        };
        let missing = |day: &str, exercise: &str| {
            format!("the block's `{day}` has no `{exercise}`; name an exercise of that day")
        };
        for (place, change) in short.items.iter().enumerate() {
            if !has(&change.day, &change.exercise) {
                let what = missing(&change.day, &change.exercise);
                self.faults.push(Misfit { week, key: "items", place, what });
            }
        }
        for (place, drop) in short.drop.iter().enumerate() {
            if !has(&drop.day, &drop.exercise) {
                let what = missing(&drop.day, &drop.exercise);
                self.faults.push(Misfit { week, key: "drop", place, what });
            }
        }
        for (place, day) in short.off.iter().enumerate() {
            if !base.iter().any(|one| is_called(one.day, one.at.as_deref(), day)) {
                let what = format!("the block has no session on `{day}`");
                self.faults.push(Misfit { week, key: "off", place, what });
            }
        }
    }
}

fn bare(short: &ShortSession) -> Session {
    let minutes = |limit| MinutesUsed { limit, planned: 0.0, planned_s: 0 };
    Session {
        day: short.day,
        at: short.at.clone(),
        focus: short.focus.clone(),
        minutes: short.limit.map(minutes),
        note: short.note.clone(),
        groups: Vec::new(),
    }
}

fn whole_item(short: &ShortItem) -> Item {
    let mut item = Item {
        exercise: short.exercise.clone(),
        sets: short.sets,
        each_side: short.each_side,
        turn: short.turn,
        tempo: short.tempo.clone(),
        instead: short.instead.clone(),
        ..Item::default()
    };
    count(&mut item, &short.dose);
    speak(&mut item, &short.dose);
    item
}

/// Takes over what the change says of an item; numbers of sets that do not fit are spread anew.
fn apply(item: &mut Item, change: &ShortChange) {
    if let Some(swap) = &change.swap {
        item.exercise.clone_from(swap);
    }
    if let Some(sets) = change.sets {
        item.sets = sets;
        let lists = [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories];
        for list in lists.into_iter().flatten() {
            let last = list.last().copied().unwrap_or(1);
            list.resize(sets as usize, last);
        }
    }
    count(item, &change.dose);
}

/// The numbers of a dose.
fn count(item: &mut Item, dose: &ShortDose) {
    let given = [&dose.reps, &dose.seconds, &dose.meters, &dose.calories];
    if given.iter().any(|amount| amount.is_some()) {
        let sets = item.sets;
        let list = |amount: &Option<Amount>| {
            amount.as_ref().map(|amount| match amount {
                Amount::Same(number) => vec![*number; sets as usize],
                Amount::Each(list) => list.clone(),
            })
        };
        [item.reps, item.seconds, item.meters, item.calories] = given.map(list);
    }
    if let Some(rest_s) = dose.rest_s {
        item.rest_s = rest_s;
    }
    item.rir = dose.rir.or(item.rir);
    if dose.basis.is_some() {
        item.basis.clone_from(&dose.basis);
    }
    if let Some(load) = in_kg(dose.load_kg, dose.load_lb) {
        item.load_kg = Some(load);
        item.load_lb = dose.load_lb;
        item.find_load = None;
    }
    if let Some(find) = &dose.find_load {
        item.find_load = Some(whole_find(find));
    }
    match &dose.ramp {
        None => {}
        Some(Ramp::Steps(steps)) => {
            let surplus = item.ramp.len().saturating_sub(*steps as usize);
            item.ramp.drain(..surplus);
            item.ramp.resize(*steps as usize, RampSet::default());
        }
        Some(Ramp::Sets(sets)) => {
            item.ramp.clone_from(sets);
            for step in &mut item.ramp {
                step.load_kg = in_kg(step.load_kg, step.load_lb);
            }
        }
    }
}

fn whole_find(short: &ShortFind) -> FindLoad {
    FindLoad {
        start_kg: in_kg(short.start_kg, short.start_lb).unwrap_or(0.0),
        start_lb: short.start_lb,
        step_kg: in_kg(short.step_kg, short.step_lb).unwrap_or(0.0),
        step_lb: short.step_lb,
        sets: short.sets,
        stop: short.stop,
    }
}

/// Kilograms to the gram; pounds alone are turned into them.
fn in_kg(kg: Option<f64>, lb: Option<f64>) -> Option<f64> {
    kg.or_else(|| lb.map(|lb| (lb * KG_PER_LB * 1000.0).round() / 1000.0))
}

/// The texts of a dose, where somebody wrote them; an own ramp and an own search too.
fn speak(item: &mut Item, dose: &ShortDose) {
    let texts = [
        (&mut item.load_note, &dose.load_note),
        (&mut item.next, &dose.next),
        (&mut item.effort, &dose.effort),
    ];
    for (text, own) in texts {
        if own.is_some() {
            text.clone_from(own);
        }
    }
    if let Some(find) = &dose.find_load {
        item.find_load = Some(whole_find(find));
    }
    if let Some(Ramp::Sets(_)) = &dose.ramp {
        let kept = ShortDose { ramp: dose.ramp.clone(), ..ShortDose::default() };
        count(item, &kept);
    }
}

/// An empty text is none.
fn said(item: &mut Item) {
    for text in [&mut item.load_note, &mut item.next, &mut item.effort] {
        if text.as_ref().is_some_and(String::is_empty) {
            *text = None;
        }
    }
}
