//! The answers so far.

use std::collections::BTreeMap;

/// Answers by question, each as it stands in the profile's YAML; a question that may be answered several times has
/// several. Keys of a profile that no question asks for are answers too, so that they are not lost.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answers {
    given: BTreeMap<String, Vec<String>>,
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

    /// Every answer with its question.
    pub(super) fn iter(&self) -> impl Iterator<Item = (&str, &[String])> {
        self.given.iter().map(|(question, answers)| (question.as_str(), answers.as_slice()))
    }

    /// Takes an answer; it replaces the last one unless the question takes several.
    pub(super) fn take(&mut self, question: &str, answer: String, is_one_of_many: bool) {
        let answers = self.given.entry(question.to_owned()).or_default();
        if !is_one_of_many {
            answers.clear();
        }
        answers.push(answer);
    }

    /// Takes an answer from a file, beside those that the file gave before.
    pub(super) fn recall(&mut self, question: &str, answer: String) {
        self.take(question, answer, true);
    }

    /// Forgets all questions but some.
    pub(super) fn retain(&mut self, keeps: impl Fn(&str) -> bool) {
        self.given.retain(|question, _| keeps(question));
    }

    /// Forgets a question, as if it had not been asked.
    pub(super) fn forget(&mut self, question: &str) {
        self.given.remove(question);
    }
}
