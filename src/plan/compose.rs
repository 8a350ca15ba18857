//! From picks to the week as it is planned at its fullest.

use std::collections::BTreeMap;

use super::pair_up::Together;
use super::turns::{self, Turns};
use super::{
    arrange, fit, found_again, instead, lead_up, own_weight, pair_up, prepare, screening, tired,
};
use itertools::Itertools as _;

use crate::input::catalog::Entry;
use crate::input::plan::{FindLoad, Group, Item, MinutesUsed, Session};
use crate::input::profile::{SessionSlot, SplitChoice};
use crate::request::candidate::Candidate;
use crate::request::dose::{self, Duty};
use crate::request::{Day, Request};
use crate::search::{Done, Solution};
use crate::split::SplitDay;
use crate::strength::estimate::Ask;
use crate::strength::ladder::Ladder;
use crate::strength::racks;
use crate::strength::working_load::{KnownLifts, THE_HEAVIEST, WorkingLoad};
use crate::timing;
use crate::words::{GroupKind, LoadKind, Measure, Muscle, Pattern, Sides, Status, Turn};

/// The sessions of a block of a solution, in the order of the week; past the last block, the last one's.
#[must_use]
pub fn sessions(request: &Request, solution: &Solution, block: usize) -> Vec<Session> {
    let later =
        block.checked_sub(1).and_then(|place| solution.later.get(place).or(solution.later.last()));
    let block = later.unwrap_or(&solution.done);
    let paired: Vec<Vec<Together>> = (0..request.days.len())
        .map(|day| {
            let done: Vec<Done> = block.iter().copied().filter(|done| done.day == day).collect();
            pair_up::groups(request, &done)
        })
        .collect();
    let heavier = turns::heavier(request, &paired);
    let of_day = |(groups, split): (Vec<Together>, &SplitDay)| {
        let arranged = arrange::arranged(request, groups, &heavier, split.whole_body);
        pair_up::after_the_lead(request, arranged)
    };
    let days: Vec<Vec<Together>> =
        paired.into_iter().zip(&solution.split.days).map(of_day).collect();
    let turns = turns::turns(request, &days, &heavier);
    let composer = Composer {
        request,
        known: &request.known,
        most_percent: screening::advise(&request.profile).start.most_percent,
        turned: turns::turned(request, &turns),
        turns,
        is_tight: false,
        is_generous: true,
    };
    let of_day = |(day, groups): (usize, &Vec<Together>)| {
        composer.session_in_time(day, &solution.split.days[day], groups)
    };
    let mut sessions: Vec<Session> = days.iter().enumerate().map(of_day).collect();
    let units = request.profile.units;
    let ladder =
        |id: &str| racks::ladder(request.entry(id)?, request.profile.equipment.as_ref()?, units);
    found_again::go_on(&mut sessions, units, &ladder);
    sessions
}

/// A session that uses less of its minutes rests longer. Common practice.
const WELL_USED_PERCENT: u32 = 84;

/// A lighter day's load as a share of the heavier day's: common practice.
const LIGHT_SHARE: f64 = 0.93;
/// So many more repetitions are a lighter day whatever the load.
const MANY_MORE: u32 = 4;

struct Composer<'a> {
    request: &'a Request,
    known: &'a KnownLifts,
    /// The most in percent of the maximum that first loads may be, where age asks for it.
    most_percent: Option<f64>,
    /// The heavier and lighter turns of the week.
    turns: Turns,
    /// Candidates with the dose of their turn.
    turned: BTreeMap<(usize, usize), Candidate>,
    /// Whether a heavier turn rests no longer than usual, as the minutes hold no more.
    is_tight: bool,
    /// Whether lighter sets come on the way to lifts beyond those that the minutes were kept for.
    is_generous: bool,
}

impl Composer<'_> {
    /// A day's session with its turns as far as its minutes hold them: the heavier one, which rests longer, is the
    /// first to be done as usual.
    fn session_in_time(&self, day: usize, split: &SplitDay, groups: &[Together]) -> Session {
        let generous = self.session(day, split, groups);
        if !self.is_over(&generous, day) {
            return self.rested(generous, day);
        }
        let (turns, turned) = (self.turns.clone(), self.turned.clone());
        let usual = Composer { turns, turned, is_generous: false, ..*self };
        let session = usual.session(day, split, groups);
        if !self.is_over(&session, day) {
            return self.rested(session, day);
        }
        let tight = |keep: fn(&Turn) -> bool| {
            let mut turns = self.turns.clone();
            turns.retain(|(other, _), turn| *other != day || keep(turn));
            let turned = turns::turned(self.request, &turns);
            Composer { turns, turned, is_tight: true, is_generous: false, ..*self }
                .session(day, split, groups)
        };
        let kept: [fn(&Turn) -> bool; 3] = [|_| true, |turn| turn.is_light(), |_| false];
        // As usual in the end, whatever that takes.
        kept.into_iter()
            .map(tight)
            .fold(session, |before, next| if self.is_over(&before, day) { next } else { before })
    }

    /// Seconds that a session has before what is kept for its end.
    fn most_s(&self, day: usize) -> u32 {
        let place = &self.request.days[day];
        (place.minutes * 60).saturating_sub(place.closing_s)
    }

    /// Whether a session takes of what is kept for its end.
    fn is_over(&self, session: &Session, day: usize) -> bool {
        session.minutes.as_ref().is_some_and(|used| used.planned_s > self.most_s(day))
    }

    /// A session that rests longer where the minutes are there.
    fn rested(&self, mut session: Session, day: usize) -> Session {
        if self.request.profile.goal.rests_briefly() {
            return session;
        }
        let most = self.most_s(day);
        let wanted = most * WELL_USED_PERCENT / 100;
        fit::rest_longer(&mut session, [wanted, most], &|id| self.request.entry(id));
        session
    }

    fn session(&self, day: usize, split: &SplitDay, groups: &[Together]) -> Session {
        let place = &self.request.days[day];
        let order: Vec<Done> = groups.iter().flatten().copied().collect();
        let used = self.muscles(&order);
        let slow = |one: &&Candidate| one.is_compound() && !one.pattern.is_explosive();
        let lifts = order.iter().map(|done| self.candidate(done)).filter(slow);
        let lifts: Vec<_> = lifts.map(|one| one.pattern).unique().collect();
        let mut written: Vec<Group> =
            prepare::preparation(self.request, place, &used, &lifts).into_iter().collect();
        let mut work: Vec<Group> = groups.iter().map(|group| self.group(group, &order)).collect();
        self.lead_up(&mut work, &order);
        written.extend(work);
        let mut session = Session {
            day: place.weekday,
            at: place.at.clone(),
            focus: self.focus(split, &order),
            minutes: Some(MinutesUsed { limit: place.minutes, planned: 0.0, planned_s: 0 }),
            note: None,
            groups: written,
        };
        let entry = |id: &str| self.request.entry(id);
        timing::fill_in(&mut session, &entry);
        session
    }

    /// A candidate with the dose of its turn on the day.
    fn candidate(&self, done: &Done) -> &Candidate {
        let turned = self.turned.get(&(done.day, done.candidate));
        turned.unwrap_or(&self.request.candidates[done.candidate])
    }

    /// The day's direct muscles: those of the first slow lift, which is prepared for first, then most sets first.
    fn muscles(&self, order: &[Done]) -> Vec<Muscle> {
        let slow = order.iter().find(|done| !self.candidate(done).pattern.is_explosive());
        let lead = slow.map_or(&[][..], |done| &self.candidate(done).entry.direct[..]);
        let sets = |muscle: &Muscle| -> u32 {
            let direct = order.iter().filter(|done| self.candidate(done).trains(*muscle));
            direct.map(|done| done.sets).sum()
        };
        let mut used: Vec<Muscle> =
            Muscle::ALL.iter().copied().filter(|muscle| sets(muscle) > 0).collect();
        let led = |muscle: &Muscle| lead.iter().position(|other| other == muscle);
        used.sort_by_key(|muscle| {
            (led(muscle).unwrap_or(usize::MAX), std::cmp::Reverse(sets(muscle)))
        });
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
        let own = order.first().and_then(|done| self.own_list(&self.request.days[done.day]));
        let named = |muscle: &Muscle| own.is_some_and(|list| list.contains(muscle));
        others.sort_by_key(|muscle| (!named(muscle), std::cmp::Reverse(direct(muscle)), *muscle));
        lead.into_iter().chain(others).take(MOST).collect()
    }

    /// The client's own list of muscles for the day, where the profile has one.
    fn own_list(&self, day: &Day) -> Option<&[Muscle]> {
        let SplitChoice::Own(lists) = &self.request.profile.split else { return None };
        let slots = &self.request.profile.sessions;
        let same = |slot: &SessionSlot| slot.day == day.weekday && slot.at == day.at;
        slots.iter().position(same).and_then(|place| lists.get(place)).map(Vec::as_slice)
    }

    fn group(&self, group: &[Done], day: &[Done]) -> Group {
        let rests = group.iter().map(|done| {
            let usual = self.request.candidates[done.candidate].rest_s;
            let rest = self.candidate(done).rest_s;
            if self.is_tight { rest.min(usual) } else { rest }
        });
        let rest_s = timing::round_rest_s(rests);
        let items = group.iter().map(|done| self.item(done, day, rest_s)).collect();
        let kind = if group.len() > 1 { GroupKind::Superset } else { GroupKind::Single };
        Group { kind, seconds: None, items }
    }

    fn item(&self, done: &Done, day: &[Done], rest_s: u32) -> Item {
        let candidate = self.candidate(done);
        let entry = &candidate.entry;
        let profile = &self.request.profile;
        let turn = self.turns.get(&(done.day, done.candidate)).copied();
        let dose = dose::for_client(profile, entry, turn);
        let ladder =
            profile.equipment.as_ref().and_then(|place| racks::ladder(entry, place, profile.units));
        let own = own_weight::set_of(profile, entry, (candidate.amount, done.sets), candidate.rir);
        let amount = own.as_ref().map_or(candidate.amount, |own| own.amount);
        let rir = own.as_ref().map_or(candidate.rir, |own| own.rir);
        let ask = Ask { reps: amount, rir, most_percent: self.most_percent };
        let mut load = self.known.working_load(entry, ladder.as_ref(), ask);
        let less = self.tired_kg(done, day, (&load, ladder.as_ref()), ask);
        let tired = u32::from(less.is_some());
        load.load_kg = less.or(load.load_kg);
        let mut held_kg = None;
        if let Some((kg, ladder)) = load.load_kg.zip(ladder.as_ref()) {
            let fewer = self.for_many_sets(done, kg, ladder, ask);
            if fewer < kg {
                load.note.clear();
            }
            load.load_kg = self.light_kg(done, fewer, ladder);
            // What is taken off for many sets is there for the last of them.
            held_kg = Some(kg).filter(|_| load.load_kg == Some(fewer));
            if load.note == THE_HEAVIEST && load.load_kg.is_some_and(|less| less < fewer) {
                load.note.clear();
            }
        }
        let left = |kg: f64| self.reserve_at(entry, kg, ladder.as_ref(), ask);
        let rir =
            held_kg.or(load.load_kg).map_or(rir, |kg| left(kg).saturating_sub(tired).max(rir));
        let list = Some(vec![amount; done.sets as usize]);
        let note = own.map_or(load.note, |own| own.note);
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
            turn,
            tempo: dose.tempo_for(entry).map(str::to_owned),
            rir: Some(rir),
            load_kg: load.load_kg,
            find_load: load.find.map(|find| FindLoad { sets: find.sets.min(done.sets), ..find }),
            load_note: Some(note).filter(|note| !note.is_empty()),
            instead: (candidate.duty == Duty::Main)
                .then(|| {
                    let day: Vec<usize> = day.iter().map(|done| done.candidate).collect();
                    instead::instead(self.request, candidate, &day)
                })
                .flatten(),
            ..Item::default()
        }
    }

    /// The load of a known lift after what its day has before it: that of a repetition more in reserve, or a little under
    /// its fresh one, where the kit makes it. A load that is to be found is found tired.
    fn tired_kg(
        &self,
        done: &Done,
        day: &[Done],
        (fresh, ladder): (&WorkingLoad, Option<&Ladder>),
        ask: Ask,
    ) -> Option<f64> {
        /// So much of a load is about a repetition less, where the table of percents takes a wide step.
        const A_REPETITION: f64 = 0.97;
        /// Kit with wider steps has nothing lighter for it.
        const LEAST_SHARE: f64 = 0.9;
        let before = day.iter().take_while(|other| *other != done);
        let before = before.map(|done| (&*self.candidate(done).entry, done.sets));
        let turn = self.turns.get(&(done.day, done.candidate)).copied();
        let entry = &self.candidate(done).entry;
        let tired = tired::after(entry, turn, before);
        let (kg, ladder) = fresh.load_kg.zip(ladder)?;
        fresh.one_rep_max_kg.filter(|_| tired > 0)?;
        let later =
            self.known.working_load(entry, Some(ladder), Ask { rir: ask.rir + tired, ..ask });
        let less = later.load_kg.into_iter().chain(ladder.at_most(kg * A_REPETITION));
        less.reduce(f64::max).filter(|less| *less >= kg * LEAST_SHARE && *less < kg)
    }

    /// The reserve that a load leaves: where sizes are coarse, or the day is the lighter one, it is more than was asked for.
    fn reserve_at(&self, entry: &Entry, kg: f64, ladder: Option<&Ladder>, ask: Ask) -> u32 {
        /// Reserves over that are misjudged (RM-21).
        const MOST: u32 = 5;
        /// From so many repetitions to failure on the table of percents is flat, and a step of rounding would pass for several
        /// repetitions: there each one more takes this share off. Common practice.
        const FLAT_FROM: u32 = 12;
        const FOR_EACH: f64 = 0.025;
        // On a belt it is a share of the body as well.
        let body = self.known.body_share(entry);
        let leaves = |rir: &u32| {
            let steep = FLAT_FROM.saturating_sub(ask.reps).clamp(ask.rir, (*rir).max(ask.rir));
            let found = self.known.working_load(entry, ladder, Ask { rir: steep, ..ask });
            let share = 1.0 - FOR_EACH * f64::from(*rir - steep.min(*rir));
            let lighter = |found: f64| (found + body) * share >= kg + body;
            found.one_rep_max_kg.is_some() && found.load_kg.is_some_and(lighter)
        };
        let is_fast = entry.pattern.is_some_and(Pattern::is_explosive);
        (ask.rir + 1..=MOST).rev().find(leaves).filter(|_| !is_fast).unwrap_or(ask.rir)
    }

    /// What was lifted for one good set is not lifted for four: a known lift starts a step lower, where a step is small.
    fn for_many_sets(&self, done: &Done, kg: f64, ladder: &Ladder, ask: Ask) -> f64 {
        /// From so many sets on.
        const MANY_SETS: u32 = 4;
        /// A load within so much of what was lifted is the same.
        const THE_SAME: f64 = 0.99;
        /// With so many left the last set is no harder than the first one was.
        const FAR_FROM_THE_LIMIT: u32 = 3;
        /// The most that is taken off.
        const LEAST_SHARE: f64 = 0.93;
        let candidate = &self.request.candidates[done.candidate];
        // Beside the body's own mass a step is nothing; who begins has easy first weeks anyway.
        let learns = self.request.profile.training_status == Status::Novice;
        let easy = ask.rir >= FAR_FROM_THE_LIMIT;
        if learns || easy || candidate.entry.load == LoadKind::BodyweightPlus {
            return kg;
        }
        let id = &candidate.id;
        let lifted = self.known.lifted_kg(id, ask).filter(|lifted| kg >= lifted * THE_SAME);
        let less = ladder.at_most(kg * THE_SAME).filter(|less| *less >= kg * LEAST_SHARE);
        match (lifted, less) {
            (Some(_), Some(less)) if done.sets >= MANY_SETS => less,
            _ => kg,
        }
    }

    /// A load of the day; on the lighter day of a lift that has a heavier one it is a little under that, as many repetitions
    /// alone make it little lighter.
    fn light_kg(&self, done: &Done, kg: f64, ladder: &Ladder) -> Option<f64> {
        let is_light =
            self.turns.get(&(done.day, done.candidate)).is_some_and(|turn| turn.is_light());
        let has_heavy = self
            .turns
            .iter()
            .any(|((_, candidate), turn)| *candidate == done.candidate && *turn == Turn::Heavier);
        if !is_light || !has_heavy {
            return Some(kg);
        }
        let candidate = &self.request.candidates[done.candidate];
        let profile = &self.request.profile;
        let heavier = Some(Turn::Heavier);
        let dose = dose::for_client(profile, &candidate.entry, heavier);
        let ask = Ask {
            reps: dose.span(&candidate.entry).aim,
            rir: dose.rir,
            most_percent: self.most_percent,
        };
        let heavy = self.known.working_load(&candidate.entry, Some(ladder), ask).load_kg;
        // Many more repetitions make it light enough.
        let share = if candidate.amount >= ask.reps + MANY_MORE { 1.0 } else { LIGHT_SHARE };
        heavy.map_or(Some(kg), |heavy| ladder.at_most(kg.min(heavy * share)).or(Some(kg)))
    }

    /// Leads up to the lifts of a day, whose items stand in its order.
    fn lead_up(&self, work: &mut [Group], order: &[Done]) {
        let profile = &self.request.profile;
        let ladder =
            |entry: &Entry| racks::ladder(entry, profile.equipment.as_ref()?, profile.units);
        let items = work.iter_mut().flat_map(|group| &mut group.items);
        let candidates = order.iter().map(|done| self.candidate(done));
        lead_up::lead_up(candidates.zip(items), &ladder, self.is_generous);
    }
}
