//! Tells what the numbers of a plan leave to be said: notes, ramps, the next step, effort, time.

use std::collections::{BTreeMap, BTreeSet};

use super::Entries;
use crate::input::catalog::Entry;
use crate::input::plan::{Item, Session};
use crate::input::profile::Profile;
use crate::plan::calendar::{WeekPlan, calendar};
use crate::plan::fit::most_of;
use crate::plan::progression::{Tracked, tracked};
use crate::plan::ramp::ramp;
use crate::plan::screening::{self, CarefulStart};
use crate::plan::steps::Track;
use crate::plan::told::{Lifts, Told};
use crate::plan::{found_again, next_time, own_weight, spare_time, timing, waves};
use crate::request::dose::{Duty, for_client};
use crate::strength::estimate::Ask;
use crate::strength::racks;
use crate::strength::working_load::KnownLifts;

/// Knows the client, and what the weeks told so far.
pub(super) struct Teller<'p, 'e> {
    profile: &'p Profile,
    entry: &'p Entries<'e>,
    known: KnownLifts,
    careful: CarefulStart,
    lifts: Lifts,
    /// Exercises of earlier weeks, with what their last full week asked for.
    before: BTreeMap<Tracked, u32>,
    seen: BTreeSet<Tracked>,
}

impl<'p, 'e> Teller<'p, 'e> {
    pub(super) fn new(profile: &'p Profile, entry: &'p Entries<'e>) -> Teller<'p, 'e> {
        Teller {
            profile,
            entry,
            known: KnownLifts::of(profile).measured_by(&|id| entry(id)),
            careful: screening::advise(profile).start,
            lifts: Lifts::default(),
            before: BTreeMap::new(),
            seen: BTreeSet::new(),
        }
    }

    pub(super) fn week_plan(&self, week: u32) -> Option<WeekPlan> {
        let status = self.profile.training_status;
        let weeks = self.profile.weeks.max(week);
        calendar(status, weeks).into_iter().find(|plan| plan.week == week)
    }

    fn ladder(&self, entry: &Entry) -> Option<crate::strength::ladder::Ladder> {
        racks::ladder(entry, self.profile.equipment.as_ref()?, self.profile.units)
    }

    fn ask(&self, reps: u32, rir: u32) -> Ask {
        Ask { reps, rir, most_percent: self.careful.most_percent }
    }

    /// The note of an item of a block's sessions; `steps` is how many ramp sets it has.
    pub(super) fn base(&self, item: &mut Item, steps: Option<u32>) {
        let Some(entry) = (self.entry)(&item.exercise) else { return };
        let ladder = self.ladder(entry);
        let amount = most_of(item);
        let first = item.load_kg.or(item.find_load.as_ref().map(|find| find.start_kg));
        if let Some(steps) = steps {
            item.ramp = ramp(first, ladder.as_ref(), amount, steps as usize);
        }
        if item.load_note.is_none() {
            item.load_note = self.note(entry, ladder.as_ref(), item);
        }
    }

    /// What the sessions of a block say of each other.
    pub(super) fn block(&self, sessions: &mut [Session]) {
        let ladder = |id: &str| (self.entry)(id).and_then(|entry| self.ladder(entry));
        found_again::tell(sessions, self.profile.units, &ladder);
    }

    /// Where the load of a block's item comes from, or how to find it; nothing for a load that was written by hand.
    fn note(
        &self,
        entry: &Entry,
        ladder: Option<&crate::strength::ladder::Ladder>,
        item: &Item,
    ) -> Option<String> {
        let rir = item.rir?;
        let amount = most_of(item);
        let dosed = for_client(self.profile, entry, item.turn);
        let full = dosed.span(entry).aim;
        if let Some(own) = own_weight::set_of(self.profile, entry, (full, item.sets), dosed.rir) {
            return Some(own.note);
        }
        let ask = self.ask(amount, rir);
        if let Some((find, ladder)) = item.find_load.as_ref().zip(ladder) {
            return Some(self.known.find_note(entry, ladder, find, ask));
        }
        let found = self.known.working_load(entry, ladder, ask);
        let is_it = match (found.load_kg, item.load_kg) {
            (Some(found), Some(load)) => (found - load).abs() < 0.01,
            (found, load) => found.is_none() && load.is_none() && found_nothing(ladder),
        };
        Some(found.note).filter(|note| is_it && !note.is_empty())
    }

    /// What a week says of an item; `base` is the same item in the block's sessions.
    pub(super) fn week(&self, item: &mut Item, base: &Item, plan: WeekPlan) {
        let Some(entry) = (self.entry)(&item.exercise) else { return };
        let status = self.profile.training_status;
        let duty = Duty::of(entry);
        let lift = self.lifts.of(self.profile, &self.careful, &self.known, entry);
        let amount = most_of(item);
        let span = for_client(self.profile, entry, item.turn).span(entry);
        let mut track = Track::start(entry, duty, span, most_of(base), item.load_kg);
        track.amount = amount;
        let has_max = lift.ladder.is_some() && lift.one_rep_max.is_some();
        let is_heavy = waves::is_for(self.profile, duty) && has_max && self.careful.heavy_sets;
        let before = self.before.get(&tracked(item)).copied();
        track.step_from = before.filter(|before| amount < *before && item.load_kg.is_none());
        let is_known = self.seen.contains(&tracked(item));
        let told = Told { entry, duty, lift: &lift, track: &track, week: plan, is_heavy, is_known };
        told.load(item, item.load_kg, amount);
        item.effort =
            item.rir.and_then(|rir| next_time::effort(status, rir)).or(item.effort.take());
        item.next = Some(told.next(item.load_kg, status, &self.careful));
    }

    /// The seconds of a session, and why it leaves minutes free.
    pub(super) fn session(&self, session: &mut Session, base: Option<(&Session, WeekPlan)>) {
        timing::fill_in(session, &|id| (self.entry)(id));
        if session.note.is_none() {
            session.note = match base {
                Some((base, plan)) => spare_time::of_week(session, base, plan),
                None => spare_time::at_its_fullest(session),
            };
        }
    }

    /// Takes in what a finished week had.
    pub(super) fn passed(&mut self, sessions: &[Session], plan: WeekPlan) {
        let works = sessions.iter().flat_map(|session| &session.groups);
        for item in works.filter(|group| group.is_work()).flat_map(|group| &group.items) {
            self.seen.insert(tracked(item));
            if !plan.is_light {
                self.before.insert(tracked(item), most_of(item));
            }
        }
    }
}

/// Without kit there is nothing to load, so that no load was taken away either.
fn found_nothing(ladder: Option<&crate::strength::ladder::Ladder>) -> bool {
    ladder.is_none()
}
