//! What a client's answers before training change: whether there is a plan, how hard it may be, what it leaves out, and
//! the words for coach and client. Numbers and words of every combination of answers are decided here and nowhere else.
//!
//! The table follows the 2015 algorithm of the American College of Sports Medicine (Riebe et al., Med Sci Sports Exerc
//! 47:2473-2479; rows SC-01 to SC-08 of the handbook) in our own words. It does not judge anyone's health: it defers to
//! clinicians and to local rules.

mod effort;
mod facts;
mod pain;
mod words;

use std::fmt;

use super::candidate::grade;
pub use crate::input::age;
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::input::screening::Pain;
use crate::words::{Intensity, Region, Stress};
pub use effort::{CarefulStart, MODERATE_PERCENT};
use facts::Facts;
pub use facts::Question;

/// What the answers change.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Advice {
    /// The row of the table that fits, `SC-01` to `SC-08`; none where answers are missing.
    pub row: Option<&'static str>,
    /// Why there is no plan yet; none where there is one.
    pub withheld: Option<Withheld>,
    /// What the weeks must keep to.
    pub start: CarefulStart,
    /// Whether the client reported something that the plan heeds.
    pub reported: bool,
    /// Questions that nobody answered.
    pub open: Vec<Question>,
    /// For the coach, to be printed with the plan.
    pub cautions: Vec<String>,
    /// For the client: what to do, never why.
    pub instructions: Vec<String>,
}

/// Why there is no plan yet, and what would bring one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Withheld {
    /// In one sentence without a full stop.
    pub because: String,
    /// What to do and to write.
    pub instead: String,
}

impl fmt::Display for Withheld {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.because)
    }
}

/// The advice for a profile.
#[must_use]
pub fn advise(profile: &Profile) -> Advice {
    let facts = Facts::of(profile);
    let start = effort::start(&facts);
    Advice {
        row: facts.row(),
        withheld: words::withheld(&facts),
        reported: facts.reported(),
        cautions: words::cautions(&facts, &start),
        instructions: words::instructions(&facts, &start),
        open: facts.open,
        start,
    }
}

/// What keeps an exercise out, of all that was reported.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reported {
    /// Pregnancy keeps a stress out.
    Pregnancy(Stress),
    /// A region hurts.
    Pain(Region),
}

impl fmt::Display for Reported {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reported::Pregnancy(stress) => write!(f, "pregnancy keeps `{stress}` out"),
            Reported::Pain(region) => write!(
                f,
                "it loads the {} that hurts; what was tried and does not hurt goes under `painless`",
                region.name()
            ),
        }
    }
}

/// What of the answers keeps an exercise out; nothing where it was tried and is painless.
#[must_use]
pub fn kept_out(profile: &Profile, entry: &Entry) -> Option<Reported> {
    let answers = profile.screening.as_ref()?;
    let pregnant = effort::PREGNANCY.iter().filter(|_| answers.pregnant == Some(true));
    let stress = pregnant.copied().find(|stress| grade(entry, *stress).is_some());
    if let Some(stress) = stress {
        return Some(Reported::Pregnancy(stress));
    }
    let told = answers.pain.iter().flatten().filter(|_| !answers.painless.contains(&entry.id));
    let mut regions = told.flat_map(Pain::regions);
    regions.find(|region| pain::strains(*region, entry)).map(Reported::Pain)
}

/// The row of the table for four answers.
#[must_use]
pub fn row(active: bool, disease: bool, signs: bool, wanted: Intensity) -> &'static str {
    match (active, disease, signs, wanted) {
        (false, _, true, _) => "SC-04",
        (true, _, true, _) => "SC-08",
        (false, true, false, _) => "SC-03",
        (false, false, false, Intensity::Vigorous) => "SC-02",
        (false, false, false, _) => "SC-01",
        (true, false, false, _) => "SC-05",
        (true, true, false, Intensity::Vigorous) => "SC-07",
        (true, true, false, _) => "SC-06",
    }
}

#[cfg(test)]
mod tests;
