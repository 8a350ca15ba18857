//! One exercise on its way through the coming weeks.

use std::collections::BTreeMap;

use crate::book::done::{grams, kilograms};
use crate::book::history::Performance;
use crate::book::rule::{Decision, Room, Rule, decide, easier, makeable, restart};
use crate::input::catalog::Entry;
use crate::input::plan::{Basis, Item};
use crate::input::profile::Profile;
use crate::plan::ramp::ramp;
use crate::plan::screening::CarefulStart;
use crate::plan::steps::{MOST_RAISE, Track, eased};
use crate::plan::{fit, next_time, waves};
use crate::request::dose::{Duty, for_client};
use crate::strength::estimate::{Estimate, percent_at_reserve};
use crate::strength::ladder::{Ladder, to_kg};
use crate::strength::racks;
use crate::words::{LoadKind, Status};

/// Sessions whose estimates make the running one: the middle of three is not moved by one bad day. Common practice.
const RUNNING: usize = 3;
/// Estimates from more repetitions than this are not used (RM-10).
const MOST_REPS: u32 = 10;
/// A beginner's word on reserve is taken from this week on (RM-19).
const JUDGES_FROM: u32 = 3;

/// What the lines of a plan are made with.
pub(super) struct Desk<'a> {
    pub(super) profile: &'a Profile,
    pub(super) careful: &'a CarefulStart,
    pub(super) entries: &'a BTreeMap<String, Entry>,
}

/// An exercise with what was done of it.
pub(super) struct Line<'a> {
    entry: &'a Entry,
    duty: Duty,
    ladder: Option<Ladder>,
    cap_kg: Option<f64>,
    track: Track,
    rir: Option<u32>,
    asked: u32,
    judges_from: u32,
    /// What was done, oldest first, easier weeks apart.
    done: Vec<Performance>,
    last: Performance,
    weeks_away: u32,
    one_rep_max_kg: Option<f64>,
    /// The full week that it last came in, and its load then.
    full_week: Option<u32>,
    load_g: Option<u32>,
}

impl<'a> Line<'a> {
    /// Of an item of the plan; `None` where the exercise was never done or is no line to raise.
    pub(super) fn new(
        item: &Item,
        done: &[Performance],
        weeks_away: u32,
        desk: &Desk<'a>,
    ) -> Option<Line<'a>> {
        let entry = desk.entries.get(&item.exercise)?;
        let last = done.last()?.clone();
        let profile = desk.profile;
        let duty = Duty::of(entry);
        let units = profile.units;
        let dosed = for_client(profile, entry, item.turn);
        let span = dosed.span(entry);
        let place = profile.equipment.as_ref();
        let ladder = place.and_then(|place| racks::ladder(entry, place, units));
        let cap = profile.known_lifts.get(&item.exercise).and_then(|known| known.cap);
        let track = Track::start(entry, duty, span, fit::most_of(item), item.load_kg);
        let full: Vec<Performance> = done.iter().filter(|one| !one.is_light).cloned().collect();
        // What is added to the body says little of the most for one: a pull-up goes up by its repetitions.
        let on_a_bar = entry.load != LoadKind::BodyweightPlus;
        let is_heavy = waves::is_for(profile, duty) && on_a_bar && desk.careful.heavy_sets;
        let one_rep_max_kg = is_heavy.then(|| running_maximum(&full)).flatten();
        Some(Line {
            entry,
            duty,
            ladder,
            cap_kg: cap.map(|cap| to_kg(cap, units)),
            track,
            rir: item.rir,
            asked: fit::most_of(item),
            judges_from: if profile.training_status == Status::Novice { JUDGES_FROM } else { 1 },
            load_g: last.load.grams(),
            done: if full.is_empty() { done.to_vec() } else { full },
            last,
            weeks_away,
            one_rep_max_kg,
            full_week: None,
        })
    }

    fn room(&self) -> Room<'_> {
        Room {
            low: self.track.low,
            high: self.track.high,
            widened: self.track.widened_top(),
            step: self.track.step(),
            ladder: self.ladder.as_ref(),
            cap_kg: self.cap_kg,
            asked: self.asked,
            rir: self.rir,
            judges_from: self.judges_from,
        }
    }

    /// What the line asks for in a week. Each full week is taken once, however often the exercise comes in it.
    pub(super) fn in_week(&mut self, week: u32, is_light: bool, item: &Item) -> Option<Decision> {
        let decision = match self.full_week {
            _ if is_light => easier(&self.last_as_it_stands(), &self.room()),
            _ if self.one_rep_max_kg.is_some() && self.weeks_away == 0 => self.heavy(item)?,
            None if self.weeks_away > 0 => restart(&self.last, self.weeks_away, &self.room()),
            None => decide(&self.done, &self.room())?,
            Some(before) if before == week => self.as_it_stands(),
            Some(_) => self.onward(),
        };
        if !is_light {
            self.full_week = Some(week);
            self.track.amount = decision.amount;
        }
        let load_g = decision.load_g.and_then(|load| self.of_the_place(load));
        if !is_light {
            self.load_g = load_g;
            self.track.load_kg = load_g.map(kilograms);
        }
        // Speed is what grows, not the number.
        let amount =
            if self.duty == Duty::Explosive { fit::most_of(item) } else { decision.amount };
        Some(Decision { load_g, amount, ..decision })
    }

    /// The load as the place has it; `None` where a cap lies under its lightest.
    fn of_the_place(&self, load_g: u32) -> Option<u32> {
        let Some(ladder) = &self.ladder else { return Some(load_g) };
        let load = makeable(load_g, ladder);
        self.cap_kg.is_none_or(|cap| kilograms(load) <= cap + 1e-9).then_some(load)
    }

    fn last_as_it_stands(&self) -> Performance {
        let load =
            self.load_g.map_or_else(|| self.last.load.clone(), crate::book::done::Load::Grams);
        Performance { load, ..self.last.clone() }
    }

    /// The same again later in the week.
    fn as_it_stands(&self) -> Decision {
        let because = "as earlier in the week".to_owned();
        Decision { load_g: self.load_g, amount: self.track.amount, rule: Rule::Course, because }
    }

    /// A week on: as the course goes when everything is done as asked.
    fn onward(&mut self) -> Decision {
        if self.duty != Duty::Explosive {
            self.track.advance(self.ladder.as_ref(), self.cap_kg, None);
        }
        let load_g = self.track.load_kg.map(grams).or(self.load_g);
        let because = "as the course goes".to_owned();
        Decision { load_g, amount: self.track.amount, rule: Rule::Course, because }
    }

    /// The load of a heavy set from the running estimate: for the repetitions and the reserve that the plan asks for, a
    /// tenth or a step up at most, and about a tenth down.
    fn heavy(&self, item: &Item) -> Option<Decision> {
        let amount = fit::most_of(item);
        let max_kg = self.one_rep_max_kg?;
        let percent = percent_at_reserve(amount, item.rir.unwrap_or(0))?;
        let load_kg = kilograms(self.load_g?);
        let ladder = self.ladder.as_ref()?;
        let step = ladder.next_above(load_kg).unwrap_or(load_kg);
        let most = (load_kg * MOST_RAISE).max(step).min(self.cap_kg.unwrap_or(f64::INFINITY));
        let least = ladder.at_most(load_kg * (2.0 - MOST_RAISE)).unwrap_or(0.0).min(most);
        let load = ladder.at_most((max_kg * percent / 100.0).clamp(least, most) + 1e-9)?;
        Some(Decision {
            load_g: Some(grams(load)),
            amount,
            rule: Rule::RunningMaximum,
            because: format!("most for one about {max_kg:.0} kg of late"),
        })
    }

    /// Writes a decision into the item.
    pub(super) fn write(&self, item: &mut Item, decision: &Decision) {
        let sets = usize::try_from(item.sets).unwrap_or(1);
        let lists = [&mut item.reps, &mut item.seconds, &mut item.meters, &mut item.calories];
        for list in lists.into_iter().flatten() {
            *list = vec![decision.amount; sets];
        }
        item.basis = Some(self.basis(decision.rule));
        let load_kg = decision.load_g.map(kilograms);
        if let Some(load_kg) = load_kg {
            item.load_kg = Some(load_kg);
            item.find_load = None;
            item.load_note = self.ladder.as_ref().and_then(|ladder| ladder.plates_text(load_kg));
            let had = item.ramp.len();
            item.ramp = ramp(Some(load_kg), self.ladder.as_ref(), decision.amount, had);
        }
        if item.next.is_some() {
            item.next = Some(self.next(load_kg, decision));
        }
    }

    fn basis(&self, rule: Rule) -> Basis {
        Basis {
            date: self.last.date.to_string(),
            load: self.last.load.grams().map(kilograms),
            reps: self.last.last(),
            rir: self.last.reserve,
            rule: rule.id().to_owned(),
        }
    }

    /// What to do when the last set leaves room.
    fn next(&self, load_kg: Option<f64>, decision: &Decision) -> String {
        match decision.rule {
            Rule::EasierWeek => return decision.because.clone(),
            Rule::RunningMaximum => {
                let ladder = self.ladder.as_ref();
                let less = load_kg.zip(ladder).and_then(|(load, ladder)| eased(load, ladder));
                return match less.zip(ladder) {
                    Some((load, ladder)) => format!(
                        "if a set leaves one fewer than planned, take {} for the next",
                        ladder.text(load)
                    ),
                    None => "write down how many were left".to_owned(),
                };
            }
            _ => {}
        }
        let mut track = self.track.clone();
        (track.amount, track.load_kg) = (decision.amount, load_kg);
        next_time::condition(self.entry, self.duty, &track, self.ladder.as_ref(), self.cap_kg)
    }

    /// The last session of the exercise.
    pub(super) fn last(&self) -> &Performance {
        &self.last
    }
}

/// The running estimate of the most for one: the middle of the last sessions' best sets.
fn running_maximum(done: &[Performance]) -> Option<f64> {
    let mut estimates: Vec<f64> = done
        .iter()
        .rev()
        .filter_map(|one| maximum(one, MOST_REPS))
        .map(|found| found.one_rep_max)
        .take(RUNNING)
        .collect();
    estimates.sort_by(f64::total_cmp);
    estimates.get(estimates.len() / 2).copied()
}

/// The estimate of a session's best set: the last with the reserve that was told, and where none was told a set that was
/// done as asked counts with the reserve that was asked for. None stands on more than `most_reps` repetitions.
pub(crate) fn maximum(done: &Performance, most_reps: u32) -> Option<Estimate> {
    let load_kg = kilograms(done.load.grams()?);
    let reps = done.last();
    let asked = done.asked.filter(|asked| reps >= asked.amount).and_then(|asked| asked.rir);
    let rir = done.reserve.or(asked).unwrap_or(0);
    let last = Estimate::from_set(load_kg, reps, rir).ok();
    let best = Estimate::from_set(load_kg, done.most(), 0).ok();
    [last, best]
        .into_iter()
        .flatten()
        .filter(|estimate| estimate.reps <= most_reps)
        .max_by(|one, other| one.one_rep_max.total_cmp(&other.one_rep_max))
}
