//! Why a hard rule stands in the way: what it demands in a coach's words, where the profile says so, and what of the
//! profile may be loosened.

use std::fmt;

use super::relaxation::Relaxation;
use super::subject::{day_of, slot_of};
use super::{RULES, Rule};
use crate::model::changes::{ASKED, TODAY};
use crate::request::Request;

/// What a hard rule demands of one subject.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reason {
    /// In words.
    pub demand: Demand,
    /// The place of the day that it is about, in the order of the week.
    pub day: Option<usize>,
    /// Where the profile says so: keys and places in lists.
    pub path: Vec<PathStep>,
    /// Who asks for it.
    pub asked_by: AskedBy,
}

/// Who asks for what a rule demands: the later, the more readily a coach thinks of it where wishes collide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AskedBy {
    /// It holds for everyone.
    Everyone,
    /// The minutes of a session.
    Minutes,
    /// A rework.
    Rework,
    /// The profile, by name.
    Name,
}

/// What is demanded, and of whom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demand {
    /// A muscle, an exercise or a day.
    pub who: String,
    /// The day, where it is not the subject itself.
    pub on: Option<String>,
    /// What is said of one, and of several.
    pub says: [String; 2],
}

impl Demand {
    /// A demand about one subject whatever the day, in the same words for several.
    #[must_use]
    pub fn about(who: &str, says: &str) -> Demand {
        Demand { who: who.to_owned(), on: None, says: [says.to_owned(), says.to_owned()] }
    }
}

impl fmt::Display for Demand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let on = self.on.as_ref().map_or(String::new(), |day| format!(" on {day}"));
        write!(f, "{}{on}{}", self.who, self.says[0])
    }
}

/// A step into the profile.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PathStep {
    /// A key of a map.
    Key(String),
    /// A place in a list.
    Index(usize),
}

/// Keys of maps as a path.
#[must_use]
pub fn keys<const N: usize>(keys: [&str; N]) -> Vec<PathStep> {
    keys.iter().map(|key| PathStep::Key((*key).to_owned())).collect()
}

impl Reason {
    /// The reason of a rule about a day, or a muscle, pattern or family on a day, as rows call their subjects.
    #[must_use]
    pub fn of_a_day(request: &Request, subject: &str, says: [String; 2]) -> Reason {
        let day = day_of(request, subject);
        let mut path = Vec::new();
        if let Some(slot) = slot_of(request, subject) {
            path = keys(["sessions"]);
            path.push(PathStep::Index(slot));
            path.extend(keys(["minutes"]));
        }
        let (who, on) = match subject.split_once('_') {
            Some((who, on)) => (who.to_owned(), Some(on.to_owned())),
            None => (subject.to_owned(), None),
        };
        Reason { demand: Demand { who, on, says }, day, path, asked_by: AskedBy::Everyone }
    }
}

/// The reason behind the rows of a rule about a subject; a rework has rows of its own.
#[must_use]
pub fn reason(request: &Request, rule: &str, subject: &str) -> Reason {
    if let Some(rule) = named(rule) {
        return rule.reason(request, subject);
    }
    let plain = Reason::of_a_day(request, subject, [format!(": {rule}"), format!(": {rule}")]);
    let plain = match rule {
        TODAY => Reason { demand: Demand::about("the other days", " stay as they are"), ..plain },
        _ => plain,
    };
    let asked_by = if matches!(rule, TODAY | ASKED) { AskedBy::Rework } else { plain.asked_by };
    Reason { asked_by, ..plain }
}

/// What may be loosened where the rows of a rule about a subject stand in the way.
#[must_use]
pub fn relaxations(request: &Request, rule: &str, subject: &str) -> Vec<Relaxation> {
    match named(rule) {
        Some(rule) => rule.relaxations(request, subject),
        None => Relaxation::longer_session(request, subject),
    }
}

fn named(rule: &str) -> Option<&'static dyn Rule> {
    RULES.iter().copied().find(|known| known.id() == rule)
}
