//! A session as it was done: exercises in their order, each with its sets.

use jiff::civil::Date;

use crate::input::plan::{Amounts, Item};
use crate::plan::fit;
use crate::words::{Measure, Weekday};

/// A session that was done, with its place in a plan where it has one.
#[derive(Debug, Clone, PartialEq)]
pub struct DoneSession {
    /// The day it was done.
    pub date: Date,
    /// When it began, where a day has more than one.
    pub at: Option<String>,
    /// The plan's week.
    pub week: Option<u32>,
    /// The plan's day, which may be another than that of the date.
    pub day: Option<Weekday>,
    /// Whether the plan's week is an easier one, from which nothing is raised.
    pub is_light: bool,
    /// The course of its plan, as [`crate::book::slot::course`] tells it; empty without a plan.
    pub course: String,
    /// In the order they were done.
    pub items: Vec<DoneItem>,
    /// What the coach adds.
    pub note: String,
}

/// An exercise that was done or left out.
#[derive(Debug, Clone, PartialEq)]
pub struct DoneItem {
    /// Its id.
    pub exercise: String,
    /// What the plan asked for; none for an extra.
    pub asked: Option<Asked>,
    /// In the order they were done; none where it was left out.
    pub sets: Vec<DoneSet>,
    /// What the coach adds.
    pub note: String,
}

/// What a plan asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked {
    /// Sets.
    pub sets: u32,
    /// The most of a set, in the exercise's measure.
    pub amount: u32,
    /// The load in grams.
    pub load_g: Option<u32>,
    /// Repetitions left in reserve.
    pub rir: Option<u32>,
}

/// One set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoneSet {
    /// What was lifted.
    pub load: Load,
    /// How much.
    pub amount: u32,
    /// What `amount` counts.
    pub measure: Measure,
    /// The other side, where it was written apart: `amount` is then the left one.
    pub right: Option<u32>,
    /// How hard it was.
    pub effort: Option<Effort>,
}

/// What was lifted in a set.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Load {
    /// Nothing was said, or nothing but the body.
    Body,
    /// The whole bar, one hand's implement, or what is added to the body, in grams.
    Grams(u32),
    /// What a machine or band takes off the body, in grams.
    Help(u32),
    /// A band by its name.
    Band(String),
}

impl Load {
    /// The load in grams, where it has one.
    #[must_use]
    pub const fn grams(&self) -> Option<u32> {
        match self {
            Load::Grams(grams) => Some(*grams),
            _ => None,
        }
    }
}

/// How hard a set was, on the scale that it was told on, in tenths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effort {
    /// Repetitions left in reserve.
    Reserve(u32),
    /// The scale of effort from 1 to 10 that stands on repetitions in reserve (RM-18, Zourdos et al. 2016).
    Scale10(u32),
    /// Borg's scale from 6 to 20, which says nothing of repetitions.
    Scale20(u32),
}

impl Effort {
    /// Whole repetitions left in reserve: 9 of 10 is one, 9.5 is none with a little more load possible (RM-18).
    #[must_use]
    pub const fn reserve(self) -> Option<u32> {
        match self {
            Effort::Reserve(tenths) => Some(tenths / 10),
            Effort::Scale10(tenths) => Some(100_u32.saturating_sub(tenths) / 10),
            Effort::Scale20(_) => None,
        }
    }

    /// The scale's name as it is kept.
    #[must_use]
    pub const fn scale(self) -> &'static str {
        match self {
            Effort::Reserve(_) => "reserve",
            Effort::Scale10(_) => "effort-10",
            Effort::Scale20(_) => "borg-20",
        }
    }

    /// The number on its scale, in tenths.
    #[must_use]
    pub const fn tenths(self) -> u32 {
        match self {
            Effort::Reserve(tenths) | Effort::Scale10(tenths) | Effort::Scale20(tenths) => tenths,
        }
    }

    /// An effort by the name of its scale; `None` where there is no such scale or no such number on it.
    #[must_use]
    pub fn on(scale: &str, tenths: u32) -> Option<Effort> {
        match scale {
            "reserve" if tenths <= 100 => Some(Effort::Reserve(tenths)),
            "effort-10" if (10..=100).contains(&tenths) => Some(Effort::Scale10(tenths)),
            "borg-20" if (60..=200).contains(&tenths) => Some(Effort::Scale20(tenths)),
            _ => None,
        }
    }
}

impl Asked {
    /// What an item of a plan asks for.
    #[must_use]
    pub fn of(item: &Item) -> Asked {
        Asked {
            sets: item.sets,
            amount: fit::most_of(item),
            load_g: item.load_kg.map(grams),
            rir: item.rir,
        }
    }
}

impl DoneItem {
    /// Whether the plan asked for it and it was left out.
    #[must_use]
    pub fn is_skipped(&self) -> bool {
        self.sets.is_empty() && self.asked.is_some()
    }
}

impl DoneSet {
    /// The set as far as both sides did it.
    #[must_use]
    pub fn both(&self) -> u32 {
        self.right.map_or(self.amount, |right| right.min(self.amount))
    }
}

/// What an item's numbers count.
#[must_use]
pub fn measure_of(item: &Item) -> Measure {
    match item.amounts() {
        Some(Amounts::Seconds(_)) => Measure::Seconds,
        Some(Amounts::Meters(_)) => Measure::Meters,
        Some(Amounts::Calories(_)) => Measure::Calories,
        _ => Measure::Reps,
    }
}

/// Kilograms in whole grams.
#[must_use]
pub fn grams(load_kg: f64) -> u32 {
    crate::input::place::grams(load_kg)
}

/// Grams in kilograms.
#[must_use]
pub fn kilograms(load_g: u32) -> f64 {
    f64::from(load_g) / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RM-18 (Zourdos et al. 2016): 10 of 10 is none left, 9 one, 8 two; 9.5 none, but a little more load possible.
    #[test]
    fn effort_of_ten_is_a_reserve() {
        for (told, left) in [(100, 0), (95, 0), (90, 1), (80, 2), (70, 3)] {
            assert_eq!(Effort::Scale10(told).reserve(), Some(left), "RM-18 {told}");
        }
        assert_eq!(Effort::Scale20(150).reserve(), None);
        assert_eq!(Effort::on("effort-10", 105), None);
    }
}
