//! The sets of a line: the load where there is one, then each set.

use super::word::{Word, word};
use crate::book::done::{DoneSet, Effort, Load, grams};
use crate::diagnostic::quoted;
use crate::input::catalog::Entry;
use crate::input::plan::{Amounts, Item};
use crate::strength::estimate::MOST_KG;
use crate::strength::ladder::{mass_text, to_kg};
use crate::words::{LoadKind, Measure, Units};

/// What the sets are read with.
pub struct About<'a> {
    /// The exercise.
    pub entry: &'a Entry,
    /// The plan's line for it, where the day has one.
    pub planned: Option<&'a Item>,
    /// In which loads are written.
    pub units: Units,
    /// The lightest load that the place has for it.
    pub lightest_kg: Option<f64>,
}

/// What a line says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sets {
    /// Each set.
    Done(Vec<DoneSet>),
    /// Left out.
    Skipped,
}

/// A word that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Its place among the words; past the last where something is missing.
    pub word: usize,
    /// `E6010` and the like.
    pub code: &'static str,
    /// What is wrong.
    pub message: String,
    /// What to write.
    pub help: String,
}

/// The most sets of a line.
const MOST_SETS: usize = 30;
/// More repetitions than this are a slip of the pen. Common practice.
const MOST_REPS: u32 = 200;
/// A first number under this share of the planned load may be repetitions whose load was left out.
const HALF: f64 = 0.5;

/// The sets that words tell.
///
/// # Errors
/// The first word that cannot be read or that could be read in two ways.
pub fn sets(words: &[&str], about: &About<'_>) -> Result<Sets, Fault> {
    let told: Vec<Word> = words.iter().map(|text| word(text, about.units)).collect();
    match told.as_slice() {
        [] => return Err(missing(0, "its sets are missing")),
        [Word::Skip] => return Ok(Sets::Skipped),
        [Word::AsPlanned] => return as_planned(about),
        _ => {}
    }
    let mut reader = Reader { about, words, load: None, sets: Vec::new() };
    for (place, told) in told.iter().enumerate() {
        reader.take(place, told)?;
    }
    if reader.sets.is_empty() {
        return Err(reader.without_sets());
    }
    if reader.sets.len() > MOST_SETS {
        let message = format!("{} sets are more than a line holds", reader.sets.len());
        return Err(Fault { word: 0, code: "E6012", message, help: format!("up to {MOST_SETS}") });
    }
    reader.first_number_is_a_load(&told)?;
    Ok(Sets::Done(reader.sets))
}

struct Reader<'a, 'b> {
    about: &'b About<'a>,
    words: &'b [&'b str],
    load: Option<Load>,
    sets: Vec<DoneSet>,
}

impl Reader<'_, '_> {
    fn take(&mut self, place: usize, told: &Word) -> Result<(), Fault> {
        let body = is_of_the_body(self.about.entry.load);
        match told {
            Word::Number(number) if self.wants_load() => {
                let load_kg = to_kg(*number, self.about.units);
                self.load = Some(self.mass(place, load_kg)?);
            }
            Word::Number(_) if self.could_be_added() => {
                let message =
                    format!("{} could be a load or the first set", quoted(self.words[place]));
                let help =
                    "write `bw` before the sets, or the load that is added as `+10`".to_owned();
                return Err(Fault { word: place, code: "E6011", message, help });
            }
            Word::Number(number) => {
                let amount = self.whole(place, *number)?;
                self.push(place, amount, None)?;
            }
            Word::Mass(load_kg) => self.load = Some(self.mass(place, *load_kg)?),
            Word::Added(load_kg) if body => self.load = Some(self.mass(place, *load_kg)?),
            Word::Help(load_kg) if body => {
                self.mass(place, *load_kg)?;
                self.load = Some(Load::Help(grams(*load_kg)));
            }
            Word::Body if body => self.load = Some(Load::Body),
            Word::Amount(amount, measure) => {
                self.counts(place, *measure)?;
                self.push(place, *amount, None)?;
            }
            Word::Sides(left, right) => {
                self.counts_load(place)?;
                self.push(place, *left, Some(*right))?;
            }
            Word::Times(one, amount) => self.times(place, *one, *amount)?,
            Word::Effort(effort) => self.effort(place, *effort)?,
            Word::Other if takes_a_band(self.about.entry.load) && self.sets.is_empty() => {
                self.band(place);
            }
            _ => return Err(self.unread(place)),
        }
        Ok(())
    }

    /// Whether a plain number is the load: where the exercise has one and none is told yet.
    fn wants_load(&self) -> bool {
        self.load.is_none() && has_load(self.about.entry.load)
    }

    /// Whether a plain number could be a load on top of the body.
    fn could_be_added(&self) -> bool {
        self.load.is_none() && self.about.entry.load == LoadKind::BodyweightPlus
    }

    fn mass(&self, place: usize, load_kg: f64) -> Result<Load, Fault> {
        if load_kg > MOST_KG {
            return Err(Fault {
                word: place,
                code: "E6012",
                message: format!("{} is no load for a person", quoted(self.words[place])),
                help: format!("up to {}", mass_text(MOST_KG, self.about.units)),
            });
        }
        Ok(if load_kg > 0.0 { Load::Grams(grams(load_kg)) } else { Load::Body })
    }

    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "it is whole and small"
    )]
    fn whole(&self, place: usize, number: f64) -> Result<u32, Fault> {
        if number.fract() > 0.0 {
            let what = self.about.entry.measure;
            return Err(Fault {
                word: place,
                code: "E6011",
                message: format!("{} is no whole number of {what}", quoted(self.words[place])),
                help: "sets are apart by blanks, as in `42.5 8 8 7`; another load is written with its unit, \
                       as in `42.5 8 8 40kg 8`"
                    .to_owned(),
            });
        }
        Ok(number as u32)
    }

    fn counts(&self, place: usize, measure: Measure) -> Result<(), Fault> {
        self.counts_load(place)?;
        let own = self.about.entry.measure;
        if measure == own {
            return Ok(());
        }
        let message =
            format!("{} is counted in {own}, not in {measure}", quoted(&self.about.entry.id));
        let help = format!("write {own}");
        Err(Fault { word: place, code: "E6011", message, help })
    }

    /// A set needs its load first, where the exercise has one that the plan does not name either.
    fn counts_load(&self, place: usize) -> Result<(), Fault> {
        if self.wants_load() && self.about.planned.and_then(|item| item.load_kg).is_none() {
            return Err(missing(place, "the load is missing before the sets"));
        }
        Ok(())
    }

    fn push(&mut self, place: usize, amount: u32, right: Option<u32>) -> Result<(), Fault> {
        let measure = self.about.entry.measure;
        let most = most(measure);
        if amount.max(right.unwrap_or(0)) > most {
            return Err(Fault {
                word: place,
                code: "E6012",
                message: format!("{amount} {measure} in a set are a slip of the pen"),
                help: format!("up to {most}; leave a blank between sets"),
            });
        }
        let planned = self.about.planned.and_then(|item| item.load_kg).map(grams).map(Load::Grams);
        let load = self.load.clone().or(planned).unwrap_or(Load::Body);
        self.sets.push(DoneSet { load, amount, measure, right, effort: None });
        Ok(())
    }

    /// `42.5x8` is a load with its repetitions; after a load, and where there is none, `3x8` is three sets.
    fn times(&mut self, place: usize, one: f64, amount: u32) -> Result<(), Fault> {
        const MOST_TIMES: f64 = 10.0;
        let count = one.fract() == 0.0 && (1.0..=MOST_TIMES).contains(&one);
        if !has_load(self.about.entry.load) || self.load.is_some() {
            let told_apart = self.sets.iter().all(|set| Some(&set.load) == self.load.as_ref());
            if !count || !told_apart {
                return Err(self.unread(place));
            }
            for _ in 0..self.whole(place, one)? {
                self.push(place, amount, None)?;
            }
            return Ok(());
        }
        if count {
            let help = format!(
                "write the load first, as in `20 {one}x{amount}`, or `{one}kg {amount}` where it was {one}"
            );
            let message = format!("{} could be sets or a load", quoted(self.words[place]));
            return Err(Fault { word: place, code: "E6011", message, help });
        }
        let load = self.mass(place, to_kg(one, self.about.units))?;
        self.load = Some(load);
        self.push(place, amount, None)?;
        self.load = None;
        Ok(())
    }

    fn effort(&mut self, place: usize, effort: Effort) -> Result<(), Fault> {
        match self.sets.last_mut() {
            Some(set) => set.effort = Some(effort),
            None => return Err(missing(place, "an effort follows the set that it was told of")),
        }
        Ok(())
    }

    fn band(&mut self, place: usize) {
        let word = self.words[place].to_lowercase();
        self.load = Some(match self.load.take() {
            Some(Load::Band(before)) => Load::Band(format!("{before} {word}")),
            _ => Load::Band(word),
        });
    }

    fn unread(&self, place: usize) -> Fault {
        let help = match self.about.entry.load {
            LoadKind::Assisted => {
                "write help as `-15` or a band by its name, then each set: `-15 8 8 7`"
            }
            LoadKind::BodyweightPlus | LoadKind::Bodyweight => {
                "write `bw` or `+10`, then each set: `bw 8 8 7`"
            }
            LoadKind::Band => "write the band's name, then each set: `green 12 12 10`",
            _ if self.about.entry.measure == Measure::Seconds => "write seconds: `45s 40s`",
            _ => "write the load, then each set, and the reserve of the last: `42.5 8 8 7 r2`",
        };
        Fault {
            word: place,
            code: "E6010",
            message: format!("{} cannot be read", quoted(self.words[place])),
            help: help.to_owned(),
        }
    }

    fn without_sets(&self) -> Fault {
        let told = self.words.first().map_or_else(String::new, |word| quoted(word));
        if self.load.is_some() && self.words.len() == 1 {
            let message = format!("{told} alone could be the load or the sets");
            let help = "write both: the load, then each set, as in `42.5 8 8 7`".to_owned();
            return Fault { word: 0, code: "E6011", message, help };
        }
        missing(self.words.len(), "its sets are missing")
    }

    /// Refuses a first number that is far under the planned load and looks like the repetitions after it.
    fn first_number_is_a_load(&self, told: &[Word]) -> Result<(), Fault> {
        let (Some(Word::Number(first)), Some(set)) = (told.first(), self.sets.first()) else {
            return Ok(());
        };
        let load_kg = to_kg(*first, self.about.units);
        let planned_kg = self.about.planned.and_then(|item| item.load_kg);
        let is_light = self.about.lightest_kg.is_some_and(|lightest| load_kg < lightest)
            || planned_kg.is_some_and(|planned| load_kg < planned * HALF);
        let like_the_rest = (first - f64::from(set.amount)).abs() <= 4.0 && first.fract() == 0.0;
        if !has_load(self.about.entry.load) || !is_light || !like_the_rest {
            return Ok(());
        }
        let unit = self.about.units;
        let rest: Vec<String> = self.words.iter().map(|word| (*word).to_owned()).collect();
        let before =
            planned_kg.map_or_else(|| "LOAD".to_owned(), |kg| mass_text(kg, unit).replace(' ', ""));
        Err(Fault {
            word: 0,
            code: "E6011",
            message: format!("{} could be the load or the first set", quoted(self.words[0])),
            help: format!(
                "write `{before} {}`, or `{first}{unit} {}` where that was the load",
                rest.join(" "),
                rest[1..].join(" ")
            ),
        })
    }
}

fn as_planned(about: &About<'_>) -> Result<Sets, Fault> {
    let Some(item) = about.planned else {
        return Err(missing(0, "the plan has no such exercise on that day"));
    };
    if has_load(about.entry.load) && item.load_kg.is_none() {
        return Err(missing(0, "the plan names no load"));
    }
    let Some(amounts) = item.amounts().map(Amounts::list) else {
        return Err(missing(0, "the plan names no numbers"));
    };
    let load = item.load_kg.map_or(Load::Body, |kg| Load::Grams(grams(kg)));
    let last = amounts.len().saturating_sub(1);
    let effort = |place| item.rir.filter(|_| place == last).map(|rir| Effort::Reserve(rir * 10));
    let sets = amounts.iter().enumerate().map(|(place, amount)| DoneSet {
        load: load.clone(),
        amount: *amount,
        measure: about.entry.measure,
        right: None,
        effort: effort(place),
    });
    Ok(Sets::Done(sets.collect()))
}

fn missing(word: usize, message: &str) -> Fault {
    Fault {
        word,
        code: "E6010",
        message: message.to_owned(),
        help: "write the load, then each set, and the reserve of the last: `42.5 8 8 7 r2`"
            .to_owned(),
    }
}

/// Whether a plain number before the sets is a load.
#[must_use]
pub const fn has_load(kind: LoadKind) -> bool {
    matches!(
        kind,
        LoadKind::BarTotal
            | LoadKind::PerHand
            | LoadKind::SingleImplement
            | LoadKind::Stack
            | LoadKind::PlateMachine
            | LoadKind::Sled
    )
}

/// Whether a band may be named: as the load, or as the help.
const fn takes_a_band(kind: LoadKind) -> bool {
    matches!(kind, LoadKind::Band | LoadKind::Assisted)
}

const fn is_of_the_body(kind: LoadKind) -> bool {
    matches!(
        kind,
        LoadKind::Bodyweight | LoadKind::BodyweightPlus | LoadKind::Assisted | LoadKind::None
    )
}

const fn most(measure: Measure) -> u32 {
    match measure {
        Measure::Reps => MOST_REPS,
        Measure::Seconds => 2 * 60 * 60,
        Measure::Meters => 50_000,
        Measure::Calories => 2000,
    }
}
