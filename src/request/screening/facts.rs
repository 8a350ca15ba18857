//! The answers as facts: an open question stays open, and what is not known counts as the more careful of its answers
//! only where another answer makes it matter.

use std::collections::BTreeSet;

use jiff::ToSpan as _;
use jiff::civil::Date;

use crate::input::age;
use crate::input::clock::date;
use crate::input::profile::{Profile, Screening};
use crate::request::WEEKS_OF_BLOCK;
use crate::words::{ChestPain, Intensity, Region, Sex, Status};

/// How long a clinician's word holds (SC-06).
const MONTHS: i64 = 12;

/// The youngest who gets a plan: ready from about 7 to 8 years on (SC-12: NSCA 2009, AAP 2020).
const YOUNGEST: u32 = 8;

/// A question before training.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Whether the client was active lately.
    Active,
    /// A known disease.
    Disease,
    /// Signs of one.
    Signs,
    /// How hard the client wants to work.
    Intensity,
    /// Pregnancy.
    Pregnant,
    /// What hurts.
    Pain,
    /// Whether pain in the chest is of a muscle.
    Chest,
    /// Whether a clinician said to wait.
    ToldToWait,
}

/// Whether a clinician agreed to training.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Agreement {
    /// Nobody says so.
    None,
    /// On this day, which counts.
    On(Date),
    /// More than a year before the plan starts, so that they are asked again.
    Old(Date),
}

/// What was answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Facts {
    pub(super) active: Option<bool>,
    pub(super) disease: Option<bool>,
    pub(super) signs: Option<bool>,
    pub(super) wanted: Option<Intensity>,
    pub(super) pregnant: Option<bool>,
    /// What hurts, as it was written; `None` where it was not asked.
    pub(super) pain: Option<Vec<String>>,
    /// The regions that hurt.
    pub(super) regions: BTreeSet<Region>,
    /// What hurts and names no region.
    pub(super) notes: Vec<String>,
    /// Pain in the chest that is not known to be of a muscle.
    pub(super) chest: bool,
    pub(super) told_to_wait: Option<bool>,
    pub(super) agreement: Agreement,
    pub(super) age: Option<u32>,
    pub(super) open: Vec<Question>,
    /// Whether the client has trained for a while, and did so lately as far as is known.
    pub(super) trained: bool,
    /// Whether there are weeks after the first block.
    pub(super) goes_on: bool,
}

impl Facts {
    pub(super) fn of(profile: &Profile) -> Facts {
        let none = Screening::default();
        let answers = profile.screening.as_ref().unwrap_or(&none);
        let pain = answers.pain.as_deref();
        let told = pain.unwrap_or_default();
        let regions: BTreeSet<Region> =
            told.iter().flat_map(crate::input::screening::Pain::regions).collect();
        let notes = told.iter().filter(|pain| pain.regions().is_empty());
        let in_chest = regions.contains(&Region::Chest);
        let mut facts = Facts {
            active: answers.active,
            disease: answers.disease,
            signs: answers.signs,
            wanted: answers.intensity,
            pregnant: answers.pregnant,
            pain: pain.map(|told| told.iter().map(crate::input::screening::Pain::text).collect()),
            notes: notes.map(crate::input::screening::Pain::text).collect(),
            chest: in_chest && answers.chest != Some(ChestPain::Muscle)
                || answers.chest == Some(ChestPain::UnderEffort),
            regions,
            told_to_wait: answers.told_to_wait,
            agreement: agreement(answers, profile),
            age: age(profile),
            open: Vec::new(),
            trained: profile.training_status != Status::Novice && answers.active != Some(false),
            goes_on: profile.weeks > WEEKS_OF_BLOCK,
        };
        let chest_is_open = in_chest && answers.chest.is_none();
        facts.open = facts.open_questions(profile.sex == Some(Sex::Male), chest_is_open);
        facts
    }

    fn open_questions(&self, is_male: bool, chest_is_open: bool) -> Vec<Question> {
        let open = [
            (Question::Active, self.active.is_none()),
            (Question::Disease, self.disease.is_none()),
            (Question::Signs, self.signs.is_none()),
            (Question::Intensity, self.wanted.is_none()),
            (Question::Pregnant, self.pregnant.is_none() && !is_male),
            (Question::Pain, self.pain.is_none()),
            (Question::Chest, chest_is_open),
            (Question::ToldToWait, self.told_to_wait.is_none()),
        ];
        open.into_iter().filter(|(_, is_open)| *is_open).map(|(question, _)| question).collect()
    }

    /// Signs of a disease, of which pain in the chest is one.
    pub(super) fn has_signs(&self) -> bool {
        self.signs == Some(true) || self.chest
    }

    pub(super) fn has_disease(&self) -> bool {
        self.disease == Some(true)
    }

    pub(super) fn is_pregnant(&self) -> bool {
        self.pregnant == Some(true)
    }

    pub(super) fn has_pain(&self) -> bool {
        self.pain.as_ref().is_some_and(|pain| !pain.is_empty())
    }

    pub(super) fn is_too_young(&self) -> bool {
        self.age.is_some_and(|age| age < YOUNGEST)
    }

    pub(super) fn is_young(&self) -> bool {
        self.age.is_some_and(|age| age < 18)
    }

    pub(super) fn is_older(&self) -> bool {
        self.age.is_some_and(|age| age >= 65)
    }

    /// Whether a clinician is asked before any training: SC-03, SC-04, SC-08 and SC-11.
    pub(super) fn needs_clinician(&self) -> bool {
        let is_row = matches!(self.row(), Some("SC-03" | "SC-04" | "SC-08"));
        is_row || self.is_pregnant()
    }

    /// Whether the client reported something that the plan heeds.
    pub(super) fn reported(&self) -> bool {
        self.has_signs()
            || self.has_disease()
            || self.is_pregnant()
            || self.has_pain()
            || self.told_to_wait == Some(true)
    }

    /// The row of the table that fits. A yes counts also where other answers are missing; who may not be active lately
    /// counts as not active then.
    pub(super) fn row(&self) -> Option<&'static str> {
        let wanted = self.wanted.unwrap_or(Intensity::Moderate);
        let active = self.active.unwrap_or(false);
        let known = self.active.is_some() && self.disease.is_some() && self.signs.is_some();
        let is_yes = self.has_signs() || self.has_disease();
        (known || is_yes).then(|| super::row(active, self.has_disease(), self.has_signs(), wanted))
    }
}

fn agreement(answers: &Screening, profile: &Profile) -> Agreement {
    let Some(agreed) = answers.clinician_agreed.as_deref().and_then(date) else {
        return Agreement::None;
    };
    let until = agreed.checked_add(MONTHS.months()).unwrap_or(agreed);
    match profile.start.as_deref().and_then(date) {
        Some(start) if start < agreed => Agreement::None,
        Some(start) if start > until => Agreement::Old(agreed),
        _ => Agreement::On(agreed),
    }
}
