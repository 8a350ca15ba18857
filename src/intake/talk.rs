//! Asking: one question after the other, each answer checked before the next.

use super::answers::Answers;
use super::kind::{Kind, as_yaml};
use super::profile_text::profile_text;
use super::questions::{QUESTIONS, Question, Usual};
use crate::diagnostic::{Diagnostic, Source};
use crate::input::check::{self, Known};
use crate::input::profile::Profile;
use crate::input::{read, suggest};

/// The other side of the talk: a terminal, or a list of answers in a test.
pub trait Talk {
    /// Asks and waits for a line; `None` where no more will come.
    fn hear(&mut self, prompt: &str) -> Option<String>;
    /// Says a line.
    fn say(&mut self, line: &str);
}

/// What is there before the client comes.
#[derive(Debug, Clone, Default)]
pub struct Around {
    /// The first day that is proposed, ISO 8601.
    pub first_day: String,
    /// Places that have a file.
    pub places: Vec<String>,
}

/// Where the talk goes after a question.
enum Move {
    On,
    Back,
}

/// Asks every question that fits the client. `None` where the talk ended before its last question.
#[must_use]
pub fn interview(talk: &mut dyn Talk, around: &Around, known: Known<'_>) -> Option<Answers> {
    talk.say("Enter takes what stands in brackets. `?` explains, `<` goes back one question.");
    let mut answers = Answers::default();
    let mut asked: Vec<usize> = Vec::new();
    let mut at = 0;
    while let Some(question) = QUESTIONS.get(at) {
        if !(question.when)(&answers, around) {
            at += 1;
            continue;
        }
        let is_new = asked.last().is_none_or(|last| QUESTIONS[*last].section != question.section);
        if is_new {
            talk.say(&format!("\n{}", question.section));
        }
        match ask(question, &mut answers, talk, around, known)? {
            Move::On => {
                asked.push(at);
                at += 1;
            }
            Move::Back => {
                at = asked.pop().unwrap_or(0);
                answers.forget(QUESTIONS[at].id);
            }
        }
    }
    Some(answers)
}

fn ask(
    question: &Question,
    answers: &mut Answers,
    talk: &mut dyn Talk,
    around: &Around,
    known: Known<'_>,
) -> Option<Move> {
    let usual = question.usual(answers, around);
    loop {
        let typed = talk.hear(&prompt(question, usual.as_deref()))?;
        let typed = match (typed.trim(), &usual) {
            ("?", _) => {
                explain(question, talk, around);
                continue;
            }
            ("<", _) => return Some(Move::Back),
            ("", Some(usual)) => usual.clone(),
            ("", None) if matches!(question.usual, Usual::Needed) => {
                talk.say("  An answer is needed here.");
                continue;
            }
            ("", None) => return Some(Move::On),
            (typed, _) => typed.to_owned(),
        };
        match taken(question, &typed, answers, around, known) {
            Ok(remarks) => {
                for remark in remarks {
                    talk.say(&format!("  Note: {remark}."));
                }
                if !question.repeats {
                    return Some(Move::On);
                }
            }
            Err(why) => talk.say(&format!("  {why}.")),
        }
    }
}

fn prompt(question: &Question, usual: Option<&str>) -> String {
    match usual {
        Some(usual) => format!("{} [{usual}]: ", question.ask),
        None if matches!(question.usual, Usual::Needed) => format!("{}: ", question.ask),
        None => format!("{} [none]: ", question.ask),
    }
}

/// What the question means, and the words it takes.
fn explain(question: &Question, talk: &mut dyn Talk, around: &Around) {
    talk.say(&format!("  {}", question.help));
    let words: Vec<String> = match question.kind {
        Kind::Word(words) | Kind::Words(words) => words().into_iter().map(str::to_owned).collect(),
        Kind::Place => around.places.iter().cloned().chain(["none".to_owned()]).collect(),
        _ => Vec::new(),
    };
    if !words.is_empty() {
        talk.say(&format!("  Words: {}", words.join(", ")));
    }
}

/// Takes an answer if a profile with it passes, and says what is remarkable about it.
fn taken(
    question: &Question,
    typed: &str,
    answers: &mut Answers,
    around: &Around,
    known: Known<'_>,
) -> Result<Vec<String>, String> {
    let yaml = as_yaml(question.kind, typed, around)?;
    if let Kind::Word(words) = question.kind {
        one_of(&yaml, &words())?;
    }
    let mut trial = answers.clone();
    trial.take(question.id, yaml, question.repeats);
    let before = messages(&faults(answers, known));
    let found = faults(&trial, known);
    if let Some(fault) = found.iter().find(|fault| fault.is_error()) {
        return Err(format!("{}: {}", fault.message, fault.help));
    }
    *answers = trial;
    Ok(messages(&found).into_iter().filter(|remark| !before.contains(remark)).collect())
}

/// Words of a short list are all told, so that a wrong one needs no second look.
fn one_of(yaml: &str, words: &[&str]) -> Result<(), String> {
    let typed = yaml.trim_matches('"');
    if words.contains(&typed) {
        return Ok(());
    }
    let all = format!("one of {} belongs here", suggest::list(words));
    Err(format!("`{typed}` is not known: {}", suggest::help(typed, words, &all)))
}

/// What the checks of every profile file say of a profile with these answers.
fn faults(answers: &Answers, known: Known<'_>) -> Vec<Diagnostic> {
    let source = Source::new("answers", &profile_text(answers));
    match read::<Profile>(&source) {
        Ok(read) => check::profile(&read, None, known),
        Err(faults) => faults,
    }
}

fn messages(faults: &[Diagnostic]) -> Vec<String> {
    faults.iter().map(|fault| format!("{}: {}", fault.message, fault.help)).collect()
}
