//! What was done as it would be written: read again, the line says the same.

use super::sets::has_load;
use crate::book::done::{DoneItem, DoneSet, Effort, Load, kilograms};
use crate::input::catalog::Entry;
use crate::input::plan::{Amounts, Item};
use crate::strength::ladder::{KG_PER_LB, mass_number};
use crate::words::{LoadKind, Measure, Units};

/// The load and each set: `42.5 8 8 7 r2`; `-` where it was left out.
#[must_use]
pub fn sets_text(item: &DoneItem, entry: &Entry, units: Units) -> String {
    if item.sets.is_empty() {
        return "-".to_owned();
    }
    let mut words: Vec<String> = Vec::new();
    let mut before: Option<&Load> = None;
    for set in &item.sets {
        if before != Some(&set.load) {
            let is_first = before.is_none();
            words.extend(load_text(&set.load, entry, units, is_first));
            before = Some(&set.load);
        }
        words.push(amount_text(set));
        words.extend(set.effort.map(effort_text));
    }
    words.join(" ")
}

/// What a line of a plan asks for in the words of a written one: the load, empty where it names none, and each set.
#[must_use]
pub fn planned_words(item: &Item, entry: &Entry, units: Units) -> (String, Vec<String>) {
    let load = match item.load_kg {
        Some(load_kg) if has_load(entry.load) => mass_number(load_kg, units),
        Some(load_kg) => format!("+{}", mass_number(load_kg, units)),
        None if entry.load == LoadKind::BodyweightPlus => "bw".to_owned(),
        None => String::new(),
    };
    let amounts = item.amounts().map_or(&[][..], Amounts::list);
    let unit = unit_of(entry.measure);
    (load, amounts.iter().map(|amount| format!("{amount}{unit}")).collect())
}

/// The load of a set alone, as the first word of a line.
#[must_use]
pub fn load_word(load: &Load, entry: &Entry, units: Units) -> String {
    load_text(load, entry, units, true).unwrap_or_default()
}

fn load_text(load: &Load, entry: &Entry, units: Units, is_first: bool) -> Option<String> {
    let unit = units.id();
    match load {
        Load::Grams(grams) => {
            let number = mass(*grams, units);
            Some(match (has_load(entry.load), is_first) {
                (true, true) => number,
                (true, false) => format!("{number}{unit}"),
                (false, _) => format!("+{number}"),
            })
        }
        Load::Help(grams) => Some(format!("-{}", mass(*grams, units))),
        Load::Band(name) => Some(name.clone()),
        Load::Body if has_load(entry.load) => {
            Some(if is_first { "0".to_owned() } else { format!("0{unit}") })
        }
        Load::Body if is_first && entry.load != LoadKind::BodyweightPlus => None,
        Load::Body if entry.load == LoadKind::Band => None,
        Load::Body => Some("bw".to_owned()),
    }
}

/// A mass in the client's unit, exact to the gram.
fn mass(grams: u32, units: Units) -> String {
    let number = match units {
        Units::Kg => kilograms(grams),
        Units::Lb => (kilograms(grams) / KG_PER_LB * 1000.0).round() / 1000.0,
    };
    number.to_string()
}

/// What follows a number that is no repetitions.
const fn unit_of(measure: Measure) -> &'static str {
    match measure {
        Measure::Reps => "",
        Measure::Seconds => "s",
        Measure::Meters => "m",
        Measure::Calories => "cal",
    }
}

/// How much was done in a set: `8`, `8/7`, `45s`.
#[must_use]
pub fn amount_text(set: &DoneSet) -> String {
    let unit = unit_of(set.measure);
    match set.right {
        Some(right) => format!("{}/{right}", set.amount),
        None => format!("{}{unit}", set.amount),
    }
}

/// How hard a set was: `r2`, `@8`.
#[must_use]
pub fn effort_text(effort: Effort) -> String {
    let number = f64::from(effort.tenths()) / 10.0;
    match effort {
        Effort::Reserve(_) => format!("r{number}"),
        Effort::Scale10(_) => format!("@{number}"),
        Effort::Scale20(_) => format!("borg{number}"),
    }
}
