//! From what a client has lifted to the load on the bar: for repetitions at a reserve, never above a cap, rounded
//! down to what the place can make.

mod as_done;
mod body_alone;
mod remarks;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use self::as_done::for_long_sets;
use crate::input::catalog::Entry;
use crate::input::plan::FindLoad;
use crate::input::profile::Profile;
use crate::strength::estimate::{Ask, Estimate, Estimator, MOST_REPS, percent_at_reserve};
use crate::strength::first_load::{Body, Starter, stop_text};
use crate::strength::ladder::{Ladder, mass_text, to_kg};
use crate::strength::racks::lies_low;
use crate::strength::related::{RELATED, Related};
use crate::words::{LoadKind, Measure, Pattern, Units};

/// What a note begins with where the load is still to be found.
pub const FIRST_LOAD: &str = "find:";

/// What stands in a note before the estimate of the most for one repetition; its figures end with a
/// closing bracket.
pub const ESTIMATE: &str = ": most for one about";

/// What a client has lifted lately, in kilograms.
#[derive(Debug, Clone, Default)]
pub struct KnownLifts {
    lifts: BTreeMap<String, Lift>,
    body_mass_kg: Option<f64>,
    units: Option<Units>,
    starter: Starter,
}

#[derive(Debug, Clone)]
struct Lift {
    load_kg: f64,
    reps: u32,
    rir: u32,
    cap_kg: Option<f64>,
}

/// A load for the first week, or how to find one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WorkingLoad {
    /// The whole bar, or one hand's implement; none where it is to be found, or where there is nothing to load.
    pub load_kg: Option<f64>,
    /// Where the load comes from, or how to find it; empty where there is nothing to load.
    pub note: String,
    /// How to find it, where it is not known and there is something to climb.
    pub find: Option<FindLoad>,
    /// The estimated one-repetition maximum, for the weeks that follow.
    pub one_rep_max_kg: Option<f64>,
    /// The load that is never passed.
    pub cap_kg: Option<f64>,
}

/// A maximum and where it comes from.
struct Source<'a> {
    one_rep_max: f64,
    lift: &'a Lift,
    direct: bool,
    /// Whether the figure may be put on the bar as it is.
    near: bool,
    text: String,
}

impl KnownLifts {
    /// The lifts of a profile.
    #[must_use]
    pub fn of(profile: &Profile) -> KnownLifts {
        let kg = |load: f64| to_kg(load, profile.units);
        let lifts = profile.known_lifts.iter().map(|(id, known)| {
            let lift = Lift {
                load_kg: kg(known.load),
                reps: known.reps,
                rir: known.rir,
                cap_kg: known.cap.map(kg),
            };
            (id.clone(), lift)
        });
        KnownLifts {
            lifts: lifts.collect(),
            body_mass_kg: profile.body_mass_kg,
            units: Some(profile.units),
            starter: Starter::of(profile),
        }
    }

    /// The same, with what the client knows as a measure for what they do not.
    #[must_use]
    pub fn measured_by<'e>(mut self, entry: &dyn Fn(&str) -> Option<&'e Entry>) -> KnownLifts {
        let times = self.lifts.iter().filter_map(|(id, lift)| {
            let entry = entry(id).filter(|entry| entry.load != LoadKind::BodyweightPlus)?;
            let ask = Ask { reps: lift.reps, rir: lift.rir, most_percent: None };
            let usual = self.starter.wanted(entry, ask).filter(|usual| *usual > 0.0)?;
            let part = Starter::part(entry)?;
            (lift.load_kg > 0.0).then(|| (part, lift.load_kg / usual))
        });
        let times: Vec<(Body, f64)> = times.collect();
        self.starter = self.starter.compared(&times);
        self
    }

    /// The load for a set, or how to find it.
    #[must_use]
    pub fn working_load(&self, entry: &Entry, ladder: Option<&Ladder>, ask: Ask) -> WorkingLoad {
        let cap_kg = self.lifts.get(&entry.id).and_then(|lift| lift.cap_kg);
        let Some(ladder) = ladder else {
            let note = unloaded_note(entry, ask);
            return WorkingLoad { note, cap_kg, ..WorkingLoad::default() };
        };
        let mut found = WorkingLoad { cap_kg, ..WorkingLoad::default() };
        let Some(source) = self.source(entry) else {
            let as_done = self.as_done(entry, ladder, ask);
            return as_done.unwrap_or_else(|| self.to_find(entry, ladder, ask, (found, None)));
        };
        found.one_rep_max_kg = Some(source.one_rep_max);
        let body_alone = entry.load == LoadKind::BodyweightPlus && source.direct;
        let wanted = self.wanted(entry, &source, ask).or(body_alone.then_some(0.0));
        let Some(wanted) = wanted else {
            return self.to_find(entry, ladder, ask, (found, None));
        };
        if !(source.direct || (source.near && ladder.is_bar())) {
            // What a hand, a stack or another movement takes is only guessed from a bar: the search begins under it.
            found.one_rep_max_kg = None;
            let least = if ladder.is_bar() { wanted * UNDER_A_GUESS } else { wanted };
            return self.to_find(entry, ladder, ask, (found, Some(least)));
        }
        let limited = cap_kg.map_or(wanted, |cap| cap.min(wanted));
        found.load_kg = ladder.at_most(limited);
        found.note = match found.load_kg {
            Some(_) if limited < wanted => {
                format!("held at the cap of {}; {}", self.mass(limited), source.text)
            }
            Some(_) => source.text,
            None if body_alone => format!("the body alone, nothing added; {}", source.text),
            None => {
                let mut find = self.starter.climb(entry, ladder, ask, [None, cap_kg]);
                if let Some(find) = &mut find {
                    find.start_kg = ladder.lightest();
                }
                found.find = find;
                self.too_light_note(entry, ladder, limited, &source)
            }
        };
        found
    }

    /// The load in kilograms that the maximum gives, before cap and rounding.
    fn wanted(&self, entry: &Entry, source: &Source<'_>, ask: Ask) -> Option<f64> {
        let done = source.lift;
        let [asked, then] = [ask.reps.saturating_add(ask.rir), done.reps.saturating_add(done.rir)];
        let Some(percent) = percent_at_reserve(ask.reps, ask.rir) else {
            let known = source.direct && entry.load != LoadKind::BodyweightPlus;
            return if known { for_long_sets(done.load_kg, asked, then) } else { None };
        };
        let no_more = source.direct && asked >= then;
        let again = source.direct && done.rir >= EASY;
        let bound = ask.most_percent.filter(|most| !again || *most < OF_TRAINED_AGE);
        let is_free = ask.most_percent.is_some() && bound.is_none();
        let within = bound.is_none_or(|most| percent <= most);
        let percent = bound.map_or(percent, |most| most.min(percent));
        let mut total = source.one_rep_max * percent / 100.0;
        if no_more || is_free {
            // At least as many as were done: no more than was lifted then; as many as were done: what was lifted.
            let lifted = done.load_kg + self.body_share(entry);
            total = if asked == then && within { lifted } else { total.min(lifted) };
        }
        let load = total - self.body_share(entry);
        (load > 0.0).then_some(load)
    }

    /// About what the client lifts for a set: by the lift itself or a related one, else by how the client compares.
    #[must_use]
    pub fn expected(&self, entry: &Entry, ask: Ask) -> Option<f64> {
        let found = self.source(entry).and_then(|source| self.wanted(entry, &source, ask));
        found.or_else(|| self.starter.expected(entry, ask))
    }

    /// The load of a known lift as it was done, where at least as many repetitions are asked for as could be done then.
    #[must_use]
    pub fn lifted_kg(&self, id: &str, ask: Ask) -> Option<f64> {
        let lift = self.lifts.get(id)?;
        (ask.reps + ask.rir >= lift.reps + lift.rir).then_some(lift.load_kg)
    }

    /// The repetitions that went in all with a load that is known, and that load in kilograms.
    #[must_use]
    pub fn lifted(&self, id: &str) -> Option<(u32, f64)> {
        self.lifts.get(id).map(|lift| (lift.reps + lift.rir, lift.load_kg))
    }

    /// The body's own part in the load that is lifted.
    #[must_use]
    pub fn body_share(&self, entry: &Entry) -> f64 {
        match entry.load {
            LoadKind::BodyweightPlus => self.body_mass_kg.unwrap_or(0.0),
            _ => 0.0,
        }
    }

    fn source(&self, entry: &Entry) -> Option<Source<'_>> {
        if entry.load == LoadKind::BodyweightPlus && self.body_mass_kg.is_none() {
            return None;
        }
        if let Some(lift) = self.lifts.get(&entry.id) {
            let body = self.body_share(entry);
            let estimate = Estimate::from_set(lift.load_kg + body, lift.reps, lift.rir).ok()?;
            let text = self.set_text(lift, &estimate, "");
            return Some(Source {
                one_rep_max: estimate.one_rep_max,
                lift,
                direct: true,
                near: true,
                text,
            });
        }
        RELATED.iter().filter(|row| row.lift == entry.id).find_map(|row| {
            let lift = self.lifts.get(&row.from)?;
            let body = if row.with_body { self.body_mass_kg? } else { 0.0 };
            let estimate = Estimate::from_set(lift.load_kg + body, lift.reps, lift.rir).ok()?;
            let text = format!(
                "a cautious start: {:.0} % of the {} ({}), common practice; a step more or less after the first set",
                row.share * 100.0,
                name(&row.from),
                self.set_text(lift, &estimate, "its ")
            );
            let one_rep_max = estimate.one_rep_max * row.share;
            Some(Source { one_rep_max, lift, direct: false, near: row.near, text })
        })
    }

    /// The first row from a lift that is known.
    fn related(&self, entry: &Entry) -> Option<&'static Related> {
        let rows = RELATED.iter().filter(|row| row.lift == entry.id);
        rows.into_iter().find(|row| self.lifts.contains_key(&row.from))
    }

    /// "50 kg × 5 with 2 left: most about 60 kg (Brzycki; 57-62 kg by seven equations)".
    fn set_text(&self, lift: &Lift, estimate: &Estimate, whose: &str) -> String {
        let reserve = if lift.rir == 0 { "none".to_owned() } else { lift.rir.to_string() };
        let rough = if estimate.is_rough() { ", rough" } else { "" };
        format!(
            "from {whose}{} × {} with {reserve} left{ESTIMATE} {} ({}, {} to {}{rough})",
            self.mass(lift.load_kg),
            lift.reps,
            self.mass(estimate.one_rep_max.round()),
            Estimator::DEFAULT,
            self.mass(estimate.low.floor()),
            self.mass(estimate.high.ceil()),
        )
    }

    fn mass(&self, load_kg: f64) -> String {
        mass_text(load_kg, self.units.unwrap_or(Units::Kg))
    }

    /// A load that is still to be found; where the place has a single one, there is nothing to find.
    fn to_find(
        &self,
        entry: &Entry,
        ladder: &Ladder,
        ask: Ask,
        (mut found, least): (WorkingLoad, Option<f64>),
    ) -> WorkingLoad {
        found.find = self.starter.climb(entry, ladder, ask, [least, found.cap_kg]);
        if let Some(find) = &found.find {
            found.note = self.find_note(entry, ladder, find, ask);
        } else {
            found.load_kg = ladder.at_most(found.cap_kg.unwrap_or(f64::INFINITY));
            found.note = match found.load_kg {
                None => OVER_THE_CAP,
                Some(_) if ladder.len() == 1 => ONLY_ONE,
                Some(_) => THE_HEAVIEST,
            }
            .to_owned();
        }
        found
    }

    /// "find: start 14 kg a hand, +2 kg each set, stop when 2 are left".
    #[must_use]
    pub fn find_note(&self, entry: &Entry, ladder: &Ladder, find: &FindLoad, ask: Ask) -> String {
        let cap_kg = self.lifts.get(&entry.id).and_then(|lift| lift.cap_kg);
        let start = ladder.text(find.start_kg);
        let is_lightest = find.start_kg <= ladder.lightest();
        let start = match entry.load {
            LoadKind::BodyweightPlus if find.start_kg <= 0.0 => "own weight".to_owned(),
            LoadKind::PerHand => format!("{start} a hand"),
            LoadKind::BarTotal if is_lightest => format!("{start} (the bar)"),
            _ => start,
        };
        let stop = stop_text(entry, find.stop);
        let even = ladder.near(find.start_kg + 2.0 * find.step_kg).is_some() || find.sets < 2;
        let step = if even {
            format!("+{} each set", ladder.text(find.step_kg))
        } else {
            "the next size each set".to_owned()
        };
        let mut note = format!("{FIRST_LOAD} start {start}, {step}, {stop}");
        let steps = if self.related(entry).is_some() { 1.0 } else { 2.0 };
        let wanted = self.starter.wanted(entry, ask).unwrap_or(0.0);
        // Where the lightest is heavy already, nobody knows whether it goes up.
        let most = if steps < 2.0 { f64::INFINITY } else { wanted * MOST_OVER };
        let expected = expected(entry, ladder, find, (steps, cap_kg)).and_then(|found| {
            ladder.at_most(found.min(most)).filter(|found| *found > find.start_kg)
        });
        if let Some(found) = expected {
            let _ = write!(note, "; expect about {}", ladder.text(found));
        }
        if lies_low(entry) && find.start_kg < LOW_BAR_KG {
            note.push_str("; raise the bar to mid-shin on blocks or plates");
        }
        if is_lightest
            && wanted < find.start_kg * TOO_HEAVY
            && let Some(easier) = entry.easier.first()
        {
            let _ = write!(note, "; if that is too heavy, the {}", name(easier));
        }
        if let Some(cap) = cap_kg {
            let _ = write!(note, "; never above {}", self.mass(cap));
        }
        if let Some(row) = self.related(entry).filter(|_| !self.lifts.contains_key(&entry.id)) {
            let _ = write!(note, " (the start by the {})", name(&row.from));
        }
        note
    }
}

fn name(id: &str) -> String {
    id.replace('-', " ")
}

/// Where a climb usually ends: some steps up, where neither the kit nor a cap ends it before. Common practice.
fn expected(
    entry: &Entry,
    ladder: &Ladder,
    find: &FindLoad,
    (steps, cap_kg): (f64, Option<f64>),
) -> Option<f64> {
    let is_fast = entry.pattern.is_some_and(Pattern::is_explosive);
    let found = ladder.near(find.start_kg + steps * find.step_kg)?;
    (!is_fast && cap_kg.is_none_or(|cap| found <= cap)).then_some(found)
}

/// How bands and help are chosen: they carry no honest kilograms, so by the repetitions that they allow.
fn unloaded_note(entry: &Entry, ask: Ask) -> String {
    let allows = ask.reps.saturating_add(ask.rir);
    match (entry.load, entry.measure) {
        (LoadKind::Band, Measure::Reps) => format!("a band that allows about {allows}"),
        (LoadKind::Band, _) => "a band that leaves a little in reserve".to_owned(),
        (LoadKind::Assisted, Measure::Reps) => format!("help that allows about {allows}"),
        _ => String::new(),
    }
}

/// What a note says where the place has a single load.
const ONLY_ONE: &str = "the only one here: as many as leave what is asked";
/// What a note says where the heaviest load is taken. A lighter day that goes below it does not say so.
pub const THE_HEAVIEST: &str = "the heaviest here";
/// What a note says where even the lightest load is over the cap.
const OVER_THE_CAP: &str = "the lightest here is over the cap: take an easier form";
/// Only age bounds first loads as little as that, for who has trained: what was done lately with so many left may be done
/// again. Common practice.
const EASY: u32 = 2;
const OF_TRAINED_AGE: f64 = 70.0;
/// A climb ends at so many times its first set at most. Common practice.
const MOST_OVER: f64 = 1.3;
/// A search with the bar that another movement gives begins at this share of what that says. Common practice.
const UNDER_A_GUESS: f64 = 0.9;
/// A bar lighter than this has no large plates, and lies under mid-shin.
const LOW_BAR_KG: f64 = 60.0;
/// A lightest load of which this share would be right may be too heavy to begin with.
const TOO_HEAVY: f64 = 0.75;

#[cfg(test)]
mod tests;
