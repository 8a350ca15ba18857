//! From picks to the week as it is planned at its fullest.

use std::collections::BTreeSet;

use super::working_load::{Ask, KnownLifts};
use super::{arrange, loads::Ladder, pair_up, prepare, racks, ramp, screening};
use crate::input::catalog::Entry;
use crate::input::plan::{Group, Item, MinutesUsed, Session};
use crate::input::profile::{SessionSlot, SplitChoice};
use crate::model::worth::worths;
use crate::request::candidate::Candidate;
use crate::request::dose::{self, Duty};
use crate::request::{Day, Request};
use crate::search::{Done, Solution};
use crate::split::SplitDay;
use crate::timing;
use crate::words::{GroupKind, LoadKind, Measure, Muscle, Pattern, Sides};

/// The sessions of a block of a solution, in the order of the week; past the last block, the last one's.
#[must_use]
pub fn sessions(request: &Request, solution: &Solution, block: usize) -> Vec<Session> {
    let known = KnownLifts::of(&request.profile);
    let later =
        block.checked_sub(1).and_then(|place| solution.later.get(place).or(solution.later.last()));
    let block = later.unwrap_or(&solution.done);
    let most_percent = screening::advise(&request.profile).start.most_percent;
    request
        .days
        .iter()
        .enumerate()
        .map(|(place, day)| {
            let done: Vec<Done> = block.iter().copied().filter(|done| done.day == place).collect();
            Composer { request, known: &known, day, most_percent }
                .session(&solution.split.days[place], &done)
        })
        .collect()
}

/// Ramp sets of a session: 70 s each stay under eight minutes.
const MOST_RAMP_SETS: usize = 6;

/// What a session has warmed so far.
#[derive(Default)]
struct Warm {
    patterns: BTreeSet<Pattern>,
    ramp_sets: usize,
}

struct Composer<'a> {
    request: &'a Request,
    known: &'a KnownLifts,
    day: &'a Day,
    /// The most in percent of the maximum that first loads may be, where age asks for it.
    most_percent: Option<f64>,
}

impl Composer<'_> {
    fn session(&self, split: &SplitDay, done: &[Done]) -> Session {
        let groups = arrange::arranged(self.request, pair_up::groups(self.request, done));
        let order: Vec<Done> = groups.iter().flatten().copied().collect();
        let used = self.muscles(&order);
        let mut written: Vec<Group> =
            prepare::preparation(self.request, self.day, &used).into_iter().collect();
        let mut warm = Warm::default();
        for group in &groups {
            written.push(self.group(group, done, &mut warm));
        }
        let mut session = Session {
            day: self.day.weekday,
            at: self.day.at.clone(),
            focus: self.focus(split, &order),
            minutes: Some(MinutesUsed { limit: self.day.minutes, planned: 0.0, planned_s: 0 }),
            note: None,
            groups: written,
        };
        let entry = |id: &str| self.request.entries.get(id).map(AsRef::as_ref);
        timing::fill_in(&mut session, &entry);
        session
    }

    fn candidate(&self, done: &Done) -> &Candidate {
        &self.request.candidates[done.candidate]
    }

    /// The day's muscles, most half-sets first.
    fn muscles(&self, order: &[Done]) -> Vec<Muscle> {
        let halves = |muscle: &Muscle| -> u32 {
            order.iter().map(|done| done.sets * self.candidate(done).halves(*muscle)).sum()
        };
        let mut used: Vec<Muscle> =
            Muscle::ALL.iter().copied().filter(|muscle| halves(muscle) > 0).collect();
        used.sort_by_key(|muscle| std::cmp::Reverse(halves(muscle)));
        used
    }

    /// Up to four muscles that hold most of the day's sets, the lead lift's first.
    fn focus(&self, split: &SplitDay, order: &[Done]) -> Vec<Muscle> {
        const MOST: usize = 4;
        let slow = order.iter().find(|done| !self.candidate(done).pattern.is_explosive());
        let lead: Option<Muscle> = slow.and_then(|done| self.candidate(done).prime());
        let direct = |muscle: &Muscle| -> u32 {
            let sets = order.iter().filter(|done| self.candidate(done).halves(*muscle) == 2);
            sets.map(|done| done.sets).sum()
        };
        let mut others: Vec<Muscle> = Muscle::ALL
            .iter()
            .copied()
            .filter(|muscle| {
                split.muscles.contains(muscle) && direct(muscle) > 0 && Some(*muscle) != lead
            })
            .collect();
        let named = |muscle: &Muscle| self.own_list().is_some_and(|list| list.contains(muscle));
        others.sort_by_key(|muscle| (!named(muscle), std::cmp::Reverse(direct(muscle)), *muscle));
        lead.into_iter().chain(others).take(MOST).collect()
    }

    /// The client's own list of muscles for the day, where the profile has one.
    fn own_list(&self) -> Option<&[Muscle]> {
        let SplitChoice::Own(lists) = &self.request.profile.split else { return None };
        let slots = &self.request.profile.sessions;
        let same = |slot: &SessionSlot| slot.day == self.day.weekday && slot.at == self.day.at;
        slots.iter().position(same).and_then(|place| lists.get(place)).map(Vec::as_slice)
    }

    fn group(&self, group: &[Done], day: &[Done], warm: &mut Warm) -> Group {
        let rest_s = group.iter().map(|done| self.candidate(done).rest_s).max().unwrap_or(0);
        let items = group.iter().map(|done| self.item(done, day, rest_s, warm)).collect();
        let kind = if group.len() > 1 { GroupKind::Superset } else { GroupKind::Single };
        Group { kind, seconds: None, items }
    }

    fn item(&self, done: &Done, day: &[Done], rest_s: u32, warm: &mut Warm) -> Item {
        let candidate = self.candidate(done);
        let entry = &candidate.entry;
        let profile = &self.request.profile;
        let dose = dose::dose(profile.goal, profile.training_status, candidate.duty);
        let ladder =
            profile.equipment.as_ref().and_then(|place| racks::ladder(entry, place, profile.units));
        let ask =
            Ask { reps: candidate.amount, rir: candidate.rir, most_percent: self.most_percent };
        let load = self.known.working_load(entry, ladder.as_ref(), ask);
        let ramp = Self::ramp(candidate, load.load_kg, ladder.as_ref(), warm);
        let list = Some(vec![candidate.amount; done.sets as usize]);
        let of = |measure: Measure| list.clone().filter(|_| entry.measure == measure);
        Item {
            exercise: entry.id.clone(),
            sets: done.sets,
            reps: of(Measure::Reps),
            seconds: of(Measure::Seconds),
            meters: of(Measure::Meters),
            calories: of(Measure::Calories),
            each_side: entry.sides == Sides::Each,
            rest_s,
            tempo: dose.tempo_for(entry).map(str::to_owned),
            rir: Some(candidate.rir),
            load_kg: load.load_kg,
            load_note: Some(load.note).filter(|note| !note.is_empty()),
            ramp,
            instead: (candidate.duty == Duty::Main).then(|| self.instead(candidate, day)).flatten(),
            ..Item::default()
        }
    }

    /// Ramp sets of a main lift whose pattern is not warm yet, as many as its time was kept for.
    fn ramp(
        candidate: &Candidate,
        load_kg: Option<f64>,
        ladder: Option<&Ladder>,
        warm: &mut Warm,
    ) -> Vec<crate::input::plan::RampSet> {
        let already = !warm.patterns.insert(candidate.pattern);
        if candidate.duty != Duty::Main
            || !ramp::is_wanted(candidate.duty, candidate.amount, already)
        {
            return Vec::new();
        }
        let kept =
            crate::request::resolve::ramp_steps(&candidate.entry, candidate.duty, candidate.amount);
        let steps = ramp::ramp(load_kg, ladder, candidate.amount);
        let kept = kept.min(MOST_RAMP_SETS.saturating_sub(warm.ramp_sets));
        let surplus = steps.len().saturating_sub(kept);
        let ramp: Vec<_> = steps.into_iter().skip(surplus).collect();
        warm.ramp_sets += ramp.len();
        ramp
    }

    /// A ready substitute for a main lift: the same pattern and prime mover at another station, or with other
    /// kit, that the day does not already have.
    fn instead(&self, main: &Candidate, day: &[Done]) -> Option<String> {
        let taken = |other: &Candidate| day.iter().any(|done| self.candidate(done).id == other.id);
        let family = |candidate: &Candidate| {
            candidate.entry.family.clone().unwrap_or_else(|| candidate.id.clone())
        };
        let worths = worths(self.request);
        let mut others: Vec<(&Candidate, f64)> =
            self.request.candidates.iter().zip(worths).collect();
        // The first of those that are alike in what follows is the one with the most worth.
        others.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        others
            .into_iter()
            .map(|(other, _)| other)
            .filter(|other| other.pattern == main.pattern && other.prime() == main.prime())
            .filter(|other| !taken(other) && other.kit != main.kit)
            // The same lift with a dumbbell is another lift only where it leaves the bar to others.
            .filter(|other| {
                family(other) != family(main) || other.kit.iter().all(|kit| !main.kit.contains(kit))
            })
            .min_by_key(|other| {
                let elsewhere = other.station == main.station;
                let shared =
                    other.entry.direct.iter().filter(|one| main.entry.direct.contains(one)).count();
                let each = other.is_each_side() != main.is_each_side();
                // Who came to lift a load is not sent to pull at a towel where another load is at hand.
                let lighter = is_loaded(&main.entry) && !is_loaded(&other.entry);
                (lighter, elsewhere, each, other.duty, std::cmp::Reverse(shared))
            })
            .map(|other| other.id.clone())
    }
}

/// Whether the load of an exercise is told in kilograms, and not by a band or the body.
const fn is_loaded(entry: &Entry) -> bool {
    matches!(
        entry.load,
        LoadKind::BarTotal
            | LoadKind::PerHand
            | LoadKind::SingleImplement
            | LoadKind::Stack
            | LoadKind::PlateMachine
            | LoadKind::Sled
    )
}
