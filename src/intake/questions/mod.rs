//! The questions, in the order a first talk takes.

mod first;
mod more;
mod screening;
mod words;

use super::answers::Answers;
use super::around::Around;
use super::kind::Kind;
use first::FIRST;
use more::MORE;
use screening::BEFORE;
pub(super) use screening::{ANY, ANY_OF};

/// What stands in brackets and is taken on Enter.
#[derive(Clone, Copy)]
pub(super) enum Usual {
    /// The question needs an answer of its own.
    Needed,
    /// The key stays out of the profile.
    Nothing,
    /// A usual answer.
    Is(&'static str),
    /// What fits what is known.
    From(fn(&Around) -> String),
}

/// A question of the first talk.
pub(super) struct Question {
    /// The profile's key, with a dot inside a map.
    pub id: &'static str,
    /// The part of the talk.
    pub section: &'static str,
    /// The question.
    pub ask: &'static str,
    /// What `?` says.
    pub help: &'static str,
    /// What Enter takes.
    pub usual: Usual,
    /// What the answer is read as.
    pub kind: Kind,
    /// Whether it is asked until Enter ends it.
    pub repeats: bool,
    /// Whether it is asked only of those who want more than the usual.
    pub more: bool,
    /// Whether it fits what was answered so far.
    pub when: fn(&Answers, &Around) -> bool,
}

impl Question {
    /// What Enter takes here where nothing was answered before.
    pub(super) fn usual(&self, answers: &Answers, around: &Around) -> Option<String> {
        match self.usual {
            Usual::Needed | Usual::Nothing => None,
            Usual::Is(_) if self.repeats && !answers.all(self.id).is_empty() => None,
            Usual::Is(usual) => Some(usual.to_owned()),
            Usual::From(usual) => Some(usual(around)).filter(|usual| !usual.is_empty()),
        }
    }
}

const fn always(_: &Answers, _: &Around) -> bool {
    true
}

/// A question that is asked of everyone, once, and may stay open.
const fn open(
    id: &'static str,
    section: &'static str,
    ask: &'static str,
    help: &'static str,
    kind: Kind,
) -> Question {
    let usual = Usual::Nothing;
    Question { id, section, ask, help, usual, kind, repeats: false, more: false, when: always }
}

/// A question for those who want more than the usual.
const fn further(
    id: &'static str,
    section: &'static str,
    ask: &'static str,
    help: &'static str,
    kind: Kind,
) -> Question {
    Question { more: true, ..open(id, section, ask, help, kind) }
}

/// Every question: first those that every plan needs, then the others.
pub(super) fn all() -> impl Iterator<Item = &'static Question> {
    [FIRST, BEFORE, MORE].into_iter().flatten()
}
