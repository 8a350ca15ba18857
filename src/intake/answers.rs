//! The answers so far.

use std::collections::BTreeMap;

/// Answers by question, each as it stands in the profile's YAML; a question that may be answered
/// several times has several.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answers {
    given: BTreeMap<&'static str, Vec<String>>,
}

impl Answers {
    /// The answer to a question; the first where there are several.
    #[must_use]
    pub fn get(&self, question: &str) -> Option<&str> {
        self.all(question).first().map(String::as_str)
    }

    /// Every answer to a question, in the order given.
    #[must_use]
    pub fn all(&self, question: &str) -> &[String] {
        self.given.get(question).map_or(&[], Vec::as_slice)
    }

    /// Whether the answer to a question is yes.
    #[must_use]
    pub fn says_yes(&self, question: &str) -> bool {
        self.get(question) == Some("true")
    }

    /// Takes an answer; it replaces the last one unless the question takes several.
    pub(super) fn take(&mut self, question: &'static str, answer: String, is_one_of_many: bool) {
        let answers = self.given.entry(question).or_default();
        if !is_one_of_many {
            answers.clear();
        }
        answers.push(answer);
    }

    /// Forgets a question, as if it had not been asked.
    pub(super) fn forget(&mut self, question: &str) {
        self.given.remove(question);
    }
}
