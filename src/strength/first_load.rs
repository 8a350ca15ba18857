//! How to find a load that nobody knows yet: where to begin, what to add from set to set, and when to stop.
//!
//! The starts stand in `starts.yaml` beside this file. Steps are those that the place's kit makes.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::input::catalog::Entry;
use crate::input::plan::{FindLoad, Item};
use crate::input::profile::Profile;
use crate::input::{age, starts_from_rest};
use crate::strength::estimate::{Ask, percent_at_reserve};
use crate::strength::ladder::{KG_PER_LB, Ladder};
use crate::words::{LoadKind, Measure, Pattern, Sex, Status, Units};

/// What the client brings to a first load.
#[derive(Debug, Clone, Copy, Default)]
pub struct Starter {
    status: Option<Status>,
    sex: Option<Sex>,
    body_mass_kg: Option<f64>,
    age: Option<u32>,
    /// Whether the client begins after years of sitting.
    is_rested: bool,
    /// How the lifts that are known compare with the figures, by half of the body; none where none is.
    by_known: [Option<f64>; 2],
}

/// Sets of a climb: enough to find a load in one session. Common practice.
const CLIMB: u32 = 3;
/// The adult that the figures are for, in kilograms.
const USUAL_MASS_KG: f64 = 75.0;
/// What body mass may change: strength goes with about its two-thirds power. Common practice.
const BY_MASS: [f64; 2] = [0.8, 1.2];
/// Of who has not lifted more mass is seldom more muscle. Common practice.
const MOST_BY_MASS_OF_A_BEGINNER: f64 = 1.05;
/// The share of a beginner who has long sat. Common practice.
const RESTED: f64 = 0.85;
/// A man's share of the figures. Common practice.
const MAN: f64 = 1.1;
/// A woman's share of the figures, upper and lower body, and on a stack, which is held for her. Common practice.
const WOMAN: [f64; 2] = [0.7, 0.8];
const WOMAN_ON_A_STACK: f64 = 0.85;
/// The share of the figures under 16, under 18 and from 65 on. Common practice.
const YOUNG: f64 = 0.75;
const NEARLY_GROWN: f64 = 0.9;
const OLD: f64 = 0.6;
/// The same from 70: balance and grip give out before the muscles do. Common practice.
const VERY_OLD: f64 = 0.5;
const VERY_OLD_FROM: u32 = 70;
/// The share from 65 on with a machine, which keeps the balance and holds the way. Common practice.
const HELD_OLD: f64 = 0.7;
/// A beginner of that age begins at this share of a rack at most, from its lightest to its heaviest.
const LOWER_HALF: f64 = 0.5;
/// Percent of the maximum that the figures stand for: ten repetitions with two left (RM-22).
const TEN_WITH_TWO_LEFT: f64 = 67.0;
/// The share of the figures for sets beyond the table of percents.
const LONG_SET: f64 = 0.9;
/// The widest step of a climb as a share of its start, upper and lower body. Common practice.
const WIDEST_STEP: [f64; 2] = [0.145, 0.17];
/// The same on a machine for the legs that takes plates, where the sled and not the body keeps the balance.
const WIDEST_STEP_OF_A_SLED: f64 = 0.23;
/// A climb from what a related lift says has so much finer steps.
const FINER_STEP: f64 = 0.6;
/// Steps that one would say, in thousandths of the unit.
const STEPS_KG: &[u32] = &[20_000, 10_000, 5000, 4000, 2500, 2000, 1250, 1000, 500];
const STEPS_LB: &[u32] = &[50_000, 25_000, 20_000, 10_000, 5000, 2500, 1000];
/// Steps of a bar on the legs under and over so much.
const LEG_STEPS_KG: [f64; 2] = [5.0, 10.0];
const HEAVY_BAR_KG: f64 = 60.0;

/// What a client can is about so many times a first set. Common practice.
const OVER_THE_START: f64 = 1.25;
/// How far known lifts move the figures of others.
const BY_KNOWN: [f64; 2] = [0.6, 1.4];
/// What a first load beside the body's own mass is a multiple of.
const ADDED_KG: f64 = 5.0;
/// Less is no step.
const LEAST_STEP_KG: f64 = 0.01;
/// The lightest step beyond the body's own weight.
const ADDED_STEP_KG: f64 = 2.5;

impl Starter {
    /// The client of a profile.
    #[must_use]
    pub fn of(profile: &Profile) -> Starter {
        Starter {
            status: Some(profile.training_status),
            sex: profile.sex,
            body_mass_kg: profile.body_mass_kg,
            age: age(profile),
            is_rested: starts_from_rest(profile),
            by_known: [None; 2],
        }
    }

    /// The same client, whose known lifts weigh so many times what the figures say of them: who is stronger or weaker
    /// than usual in these is so in the others of the same half of the body, up to a bound, and half as much in those of
    /// the other half.
    #[must_use]
    pub fn compared(self, times: &[(Body, f64)]) -> Starter {
        let mean = |part: Body| {
            let of_part = || times.iter().filter(move |(one, _)| *one == part);
            let count = f64::from(u32::try_from(of_part().count()).unwrap_or(u32::MAX));
            let sum = of_part().map(|(_, times)| libm::log(times / OVER_THE_START)).sum::<f64>();
            (count > 0.0).then(|| sum / count)
        };
        let by_known =
            [(Body::Upper, Body::Lower), (Body::Lower, Body::Upper)].map(|(own, other)| {
                let mean = mean(own).or_else(|| mean(other).map(|mean| mean / 2.0))?;
                Some(libm::exp(mean).clamp(BY_KNOWN[0], BY_KNOWN[1]))
            });
        Starter { by_known, ..self }
    }

    /// Which half of the body a figure is for; none where there is no figure.
    pub(super) fn part(entry: &Entry) -> Option<Body> {
        row(entry).map(|row| row.part)
    }

    /// Whether the client has trained before.
    fn is_trained(self) -> bool {
        !matches!(self.status, None | Some(Status::Novice))
    }

    /// What a first set would weigh if the kit made every load, in kilograms; `None` where the table has no row.
    #[must_use]
    pub fn wanted(self, entry: &Entry, ask: Ask) -> Option<f64> {
        let row = row(entry)?;
        let status = match self.status {
            None | Some(Status::Novice) => 0,
            Some(Status::Intermediate) => 1,
            Some(Status::Advanced) => 2,
        };
        let most = if self.is_trained() { BY_MASS[1] } else { MOST_BY_MASS_OF_A_BEGINNER };
        let mass = self
            .body_mass_kg
            .map_or(1.0, |mass| libm::pow(mass / USUAL_MASS_KG, 2.0 / 3.0).clamp(BY_MASS[0], most));
        let rested = if self.is_rested { RESTED } else { 1.0 };
        let held = matches!(entry.load, LoadKind::Stack | LoadKind::PlateMachine);
        let sex = match self.sex {
            None => 1.0,
            Some(Sex::Male) => MAN,
            Some(Sex::Female) if entry.load == LoadKind::Stack => WOMAN_ON_A_STACK,
            Some(Sex::Female) => WOMAN[row.part as usize],
        };
        let age = match self.age {
            Some(..16) => YOUNG,
            Some(16..18) => NEARLY_GROWN,
            Some(65..) if held => HELD_OLD,
            Some(VERY_OLD_FROM..) => VERY_OLD,
            Some(65..) => OLD,
            _ => 1.0,
        };
        let known = self.by_known[row.part as usize].unwrap_or(1.0);
        Some(row.kg[status] * mass * sex * age * rested * known * by_repetitions(entry, ask))
    }

    /// What the client is likely to lift, in kilograms.
    #[must_use]
    pub fn expected(self, entry: &Entry, ask: Ask) -> Option<f64> {
        self.wanted(entry, ask).map(|first| first * OVER_THE_START)
    }

    /// The climb to a load that is not known, in steps that the kit makes; `None` where there is nothing to climb. It
    /// begins at `least` where a related lift says so, and never passes `most`.
    #[must_use]
    pub fn climb(
        self,
        entry: &Entry,
        ladder: &Ladder,
        ask: Ask,
        [least, most]: [Option<f64>; 2],
    ) -> Option<FindLoad> {
        let most = most.unwrap_or(f64::INFINITY);
        if ladder.lightest() > most {
            return None;
        }
        let known = least.map(|least| least.min(most));
        let known = known.map(|least| match entry.load {
            // A plate of a kilogram on the belt tells nothing: the body alone comes first.
            LoadKind::BodyweightPlus if least < ADDED_KG => 0.0,
            _ => ladder.at_most(least).unwrap_or_else(|| ladder.lightest()),
        });
        let start_kg = known.unwrap_or_else(|| self.start(entry, ladder, ask, most));
        let start_kg = match known {
            None => {
                self.in_the_lower_half(entry, ladder, self.under_the_heaviest(ladder, start_kg))
            }
            Some(_) => start_kg,
        };
        let finer = if known.is_some() { FINER_STEP } else { 1.0 };
        let step_kg = step(entry, ladder, [start_kg, finer], most)?;
        let climbs = (1..CLIMB).take_while(|times| {
            let load = start_kg + step_kg * f64::from(*times);
            load <= most && ladder.near(load).is_some()
        });
        let sets = 1 + u32::try_from(climbs.count()).unwrap_or(0);
        Some(FindLoad { start_kg, start_lb: None, step_kg, step_lb: None, sets, stop: ask.rir })
    }

    /// A beginner from 70 on takes no weight from the upper half of a rack to begin with.
    fn in_the_lower_half(self, entry: &Entry, ladder: &Ladder, start_kg: f64) -> f64 {
        let in_hands = matches!(entry.load, LoadKind::PerHand | LoadKind::SingleImplement);
        let is_old = self.age.is_some_and(|age| age >= VERY_OLD_FROM);
        let [least, most] = [ladder.lightest(), ladder.heaviest()];
        let half = ladder.at_most(least + LOWER_HALF * (most - least));
        half.filter(|_| in_hands && is_old && !self.is_trained())
            .map_or(start_kg, |half| start_kg.min(half))
    }

    /// Who has never lifted does not begin with the heaviest of the place: two sizes under it.
    fn under_the_heaviest(self, ladder: &Ladder, start_kg: f64) -> f64 {
        let below = |kg: f64| ladder.at_most(kg - LEAST_STEP_KG);
        let heaviest = ladder.next_above(start_kg).is_none();
        let lower = below(start_kg).map(|lower| below(lower).unwrap_or(lower));
        lower.filter(|_| heaviest && !self.is_trained()).unwrap_or(start_kg)
    }

    /// The first set: at most what is wanted, and for a trained client more than the bare bar.
    fn start(self, entry: &Entry, ladder: &Ladder, ask: Ask, most: f64) -> f64 {
        let wanted = self.wanted(entry, ask).unwrap_or(0.0).min(most);
        if entry.load == LoadKind::BodyweightPlus {
            // Beside the body's own mass a whole five is as fine as it needs to be.
            return ladder.at_most((wanted / ADDED_KG).floor() * ADDED_KG).unwrap_or(0.0);
        }
        // A figure is no finer than a fiftieth.
        let start = ladder.at_most((wanted * 1.02).min(most)).unwrap_or_else(|| ladder.lightest());
        let start = rounded(start, ladder);
        let is_bare = entry.load == LoadKind::BarTotal && start <= ladder.lightest();
        let next = ladder.next_above(start).filter(|next| *next <= most);
        next.filter(|_| is_bare && entry.main && self.is_trained()).unwrap_or(start)
    }
}

/// The same or a little less, so that it is a number that one would say: whole fives, where the kit makes them.
fn rounded(start: f64, ladder: &Ladder) -> f64 {
    const NEAR_ENOUGH: f64 = 0.92;
    let five = match ladder.made_in() {
        Units::Kg => 5.0,
        Units::Lb => 5.0 * KG_PER_LB,
    };
    let round = ((start + ROUNDING_KG) / five).floor() * five;
    ladder.near(round).filter(|load| *load >= start * NEAR_ENOUGH).unwrap_or(start)
}

/// What writing a load to the gram may take off.
const ROUNDING_KG: f64 = 0.01;

fn by_repetitions(entry: &Entry, ask: Ask) -> f64 {
    let is_fast = entry.pattern.is_some_and(Pattern::is_explosive);
    if is_fast || entry.measure != Measure::Reps {
        return 1.0;
    }
    percent_at_reserve(ask.reps, ask.rir).map_or(LONG_SET, |percent| percent / TEN_WITH_TWO_LEFT)
}

/// What is added from set to set: the largest round step that is not too wide and that the kit makes twice, else the
/// kit's next.
fn step(entry: &Entry, ladder: &Ladder, [start, finer]: [f64; 2], most: f64) -> Option<f64> {
    if entry.load == LoadKind::BodyweightPlus {
        let next = ladder.near(start + ADDED_STEP_KG).map(|_| ADDED_STEP_KG);
        let next = next.or_else(|| ladder.next_above(start).map(|next| to_grams(next - start)));
        return next.filter(|step| start + step <= most);
    }
    let part = row(entry).map_or(Body::Upper, |row| row.part);
    let sled = entry.load == LoadKind::PlateMachine && part == Body::Lower;
    let widest = if sled { WIDEST_STEP_OF_A_SLED } else { WIDEST_STEP[part as usize] };
    let widest = finer * widest;
    let (steps, unit) = match ladder.made_in() {
        Units::Kg => (STEPS_KG, 1.0),
        Units::Lb => (STEPS_LB, KG_PER_LB),
    };
    let makes = |step: f64| {
        [1.0, 2.0].iter().all(|times| ladder.near(start + times * step).is_some())
            && start + step <= most
    };
    // The bar on the legs goes up by plates that one feels.
    let heavy_bar =
        entry.load == LoadKind::BarTotal && part == Body::Lower && ladder.made_in() == Units::Kg;
    let plates = if start < HEAVY_BAR_KG { LEG_STEPS_KG[0] } else { LEG_STEPS_KG[1] };
    if heavy_bar && makes(plates) {
        return Some(plates);
    }
    let round = steps
        .iter()
        .map(|step| f64::from(*step) / 1000.0 * unit)
        .find(|step| *step <= start * widest && makes(*step));
    let next = ladder.next_above(start).filter(|next| *next <= most);
    round.or(next.map(|next| next - start)).map(to_grams)
}

/// The end of a search in words.
#[must_use]
pub fn stop_text(entry: &Entry, stop: u32) -> String {
    match entry.pattern {
        Some(pattern) if pattern.is_explosive() => "stop when it slows".to_owned(),
        _ => left_text(stop),
    }
}

fn left_text(stop: u32) -> String {
    match stop {
        0 => "stop at the last clean one".to_owned(),
        1 => "stop when one is left".to_owned(),
        more => format!("stop when {more} are left"),
    }
}

/// Brings the search of an item to the sets and the reserve that its week has.
pub fn to_week(item: &mut Item) {
    let Some(find) = &mut item.find_load else { return };
    find.sets = find.sets.min(item.sets);
    let Some(stop) = item.rir.filter(|rir| *rir != find.stop) else { return };
    if let Some(note) = &mut item.load_note {
        *note = note.replace(&left_text(find.stop), &left_text(stop));
    }
    find.stop = stop;
}

fn to_grams(mass_kg: f64) -> f64 {
    (mass_kg * 1000.0).round() / 1000.0
}

/// Which half of the body a figure belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Body {
    /// Arms, shoulders, chest, back and trunk.
    Upper = 0,
    /// Legs and hips.
    Lower = 1,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    #[serde(default)]
    lifts: Vec<String>,
    #[serde(default)]
    load: Option<LoadKind>,
    #[serde(default)]
    patterns: Vec<Pattern>,
    part: Body,
    kg: [f64; 3],
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("starts.yaml")).expect("starts.yaml is well formed")
});

fn row(entry: &Entry) -> Option<&'static Row> {
    let named = ROWS.iter().find(|row| row.lifts.contains(&entry.id));
    let fits = |row: &&Row| {
        row.load == Some(entry.load) && entry.pattern.is_some_and(|one| row.patterns.contains(&one))
    };
    named.or_else(|| ROWS.iter().find(fits))
}

#[cfg(test)]
mod tests;
