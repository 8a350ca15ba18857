//! What a week misses of a rule, with its numbers. The words are made here and nowhere else.

use std::cmp::Ordering;
use std::fmt;

use crate::words::Muscle;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// A hard rule is broken.
    Broken,
    /// A wish about patterns, sets or balance falls short.
    Shortfall,
    /// Something a coach would remark on.
    Remark,
}

/// What a week misses of a rule.
#[derive(Debug, Clone)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// The rule.
    pub rule: &'static str,
    /// The day, muscle or exercise.
    pub place: String,
    /// The muscle, where it is about one alone.
    pub muscle: Option<Muscle>,
    /// What was wanted.
    pub wanted: Figure,
    /// What there is.
    pub got: Figure,
}

/// A number with its unit, or words where there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// What no number says.
    Words(String),
    /// A number.
    Number {
        /// As many.
        value: f64,
        /// Of what.
        unit: Unit,
        /// At least or at most so many.
        bound: Bound,
    },
    /// One of these in the week: an exercise of a pattern.
    OneInTheWeek(String),
    /// Nothing.
    None,
    /// Nothing, as kit and limits leave nothing.
    NoneLeft,
}

/// What a number counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::Display)]
pub enum Unit {
    /// Nothing but itself.
    #[strum(to_string = "")]
    Plain,
    /// Sets, by halves.
    #[strum(to_string = " sets")]
    Sets,
    /// Sets in a week, by halves.
    #[strum(to_string = " sets a week")]
    SetsAWeek,
    /// Direct sets.
    #[strum(to_string = " direct sets")]
    DirectSets,
    /// Times in a week.
    #[strum(to_string = " times a week")]
    TimesAWeek,
    /// Seconds.
    #[strum(to_string = " s")]
    Seconds,
    /// Hours.
    #[strum(to_string = " h")]
    Hours,
    /// A share.
    #[strum(to_string = " %")]
    Percent,
}

/// Which side of a number is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::Display)]
pub enum Bound {
    /// The number itself.
    #[strum(to_string = "")]
    Exactly,
    /// It or more.
    #[strum(to_string = " at least")]
    AtLeast,
    /// It or less.
    #[strum(to_string = " at most")]
    AtMost,
}

impl Figure {
    /// A number of something.
    pub fn number(value: impl Into<f64>, unit: Unit) -> Figure {
        Figure::Number { value: value.into(), unit, bound: Bound::Exactly }
    }

    /// Half-sets as sets.
    #[must_use]
    pub fn sets(halves: u32, unit: Unit) -> Figure {
        Figure::number(f64::from(halves) / 2.0, unit)
    }

    /// The same number with a side that is wanted.
    #[must_use]
    pub fn bounded(self, bound: Bound) -> Figure {
        match self {
            Figure::Number { value, unit, .. } => Figure::Number { value, unit, bound },
            other => other,
        }
    }

    /// The number, where there is one.
    #[must_use]
    pub fn value(&self) -> Option<f64> {
        match self {
            Figure::Number { value, .. } => Some(*value),
            _ => None,
        }
    }

    /// The side of the number that is wanted.
    #[must_use]
    pub fn bound(&self) -> Option<Bound> {
        match self {
            Figure::Number { bound, .. } => Some(*bound),
            _ => None,
        }
    }
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Figure::Words(words) => f.write_str(words),
            Figure::Number { value, unit, bound } => write!(f, "{value}{unit}{bound}"),
            Figure::OneInTheWeek(what) => write!(f, "a {what} in the week"),
            Figure::None => f.write_str("none"),
            Figure::NoneLeft => f.write_str("none that kit and limits leave"),
        }
    }
}

impl From<String> for Figure {
    fn from(words: String) -> Figure {
        Figure::Words(words)
    }
}

impl From<&str> for Figure {
    fn from(words: &str) -> Figure {
        Figure::Words(words.to_owned())
    }
}

impl Finding {
    /// A broken hard rule.
    pub fn broken(
        rule: &'static str,
        place: impl Into<String>,
        wanted: impl Into<Figure>,
        got: impl Into<Figure>,
    ) -> Finding {
        let (place, wanted, got) = (place.into(), wanted.into(), got.into());
        let muscle = None;
        Finding { severity: Severity::Broken, rule, place, muscle, wanted, got }
    }

    /// A broken hard rule about a muscle.
    pub fn of_muscle(
        rule: &'static str,
        muscle: Muscle,
        wanted: impl Into<Figure>,
        got: impl Into<Figure>,
    ) -> Finding {
        Finding { muscle: Some(muscle), ..Finding::broken(rule, muscle.id(), wanted, got) }
    }

    /// The same finding as a wish that falls short.
    #[must_use]
    pub fn as_shortfall(self) -> Finding {
        Finding { severity: Severity::Shortfall, ..self }
    }

    /// The same finding as a remark.
    #[must_use]
    pub fn as_remark(self) -> Finding {
        Finding { severity: Severity::Remark, ..self }
    }

    /// The wish and what became of it in a few words: `chest 3.5 of 4 sets`, `no squat exercise`.
    #[must_use]
    pub fn in_short(&self) -> String {
        match (&self.got, &self.wanted) {
            (
                Figure::Number { value: got, unit: Unit::Sets, .. },
                Figure::Number { value, unit: Unit::SetsAWeek, bound: Bound::Exactly },
            ) => format!("{} {got} of {value} sets", self.place),
            (Figure::None, Figure::OneInTheWeek(what)) => format!("no {what}"),
            (got, wanted) => format!("{} {got} instead of {wanted}", self.place),
        }
    }

    /// Whether it is the same as another, or about the same with a number that is no further from the one wanted.
    #[must_use]
    pub fn is_no_worse_than(&self, other: &Finding) -> bool {
        let is_about_the_same = self.severity >= other.severity
            && (self.rule, &self.place, &self.wanted) == (other.rule, &other.place, &other.wanted);
        let off = |one: &Finding| Some((one.got.value()? - one.wanted.value()?).abs());
        let is_no_further = || off(self).zip(off(other)).is_some_and(|(own, than)| own <= than);
        self == other || (is_about_the_same && is_no_further())
    }

    /// What findings are told apart and sorted by.
    fn key(&self) -> (Severity, &'static str, &str, String, String) {
        let (wanted, got) = (self.wanted.to_string(), self.got.to_string());
        (self.severity, self.rule, &self.place, wanted, got)
    }
}

impl PartialEq for Finding {
    fn eq(&self, other: &Finding) -> bool {
        self.key() == other.key()
    }
}

impl Eq for Finding {}

impl PartialOrd for Finding {
    fn partial_cmp(&self, other: &Finding) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Finding {
    fn cmp(&self, other: &Finding) -> Ordering {
        self.key().cmp(&other.key())
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}: wanted {}, got {}", self.rule, self.place, self.wanted, self.got)
    }
}
