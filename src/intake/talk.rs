//! Asking: one question after the other, each answer checked before the next.

use super::answers::Answers;
use super::around::Around;
use super::contradiction::contradictions;
use super::kind::{Kind, as_yaml};
use super::profile_text::profile_text;
use super::questions::{self, ANY, ANY_OF, Question, Usual};
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
    /// Keeps what was answered so far, so that nothing typed is lost.
    fn keep(&mut self, _answers: &Answers) {}
}

/// Where the talk goes after a question.
enum Move {
    On,
    Back,
}

/// Asks only who the client is, so that it is known where the answers go before there are any.
#[must_use]
pub fn ask_client(talk: &mut dyn Talk, around: &Around, known: Known<'_>) -> Option<Answers> {
    talk.say("Enter takes what stands in brackets. `?` explains, `<` goes back one question, `none` takes an answer away.");
    let mut answers = Answers::default();
    let first = questions::all().next()?;
    loop {
        match ask(first, &mut answers, talk, around, known)? {
            Move::On => return Some(answers),
            Move::Back => {}
        }
    }
}

/// Asks every question that fits the client and is not answered yet. `None` where the talk ended before its last
/// question.
#[must_use]
pub fn interview(
    talk: &mut dyn Talk,
    around: &Around,
    known: Known<'_>,
    begun: Answers,
) -> Option<Answers> {
    let mut answers = begun.clone();
    let is_new = |question: &&'static Question| begun.all(question.id).is_empty();
    let usual: Vec<&Question> =
        questions::all().filter(|question| !question.more).filter(is_new).collect();
    run(&usual, &mut answers, talk, around, known)?;
    let more =
        talk.hear("More: limits, wishes, lifts done lately, conditioning, sport (y/n) [n]: ")?;
    if matches!(more.trim().to_lowercase().as_str(), "y" | "yes") {
        let more: Vec<&Question> =
            questions::all().filter(|question| question.more).filter(is_new).collect();
        run(&more, &mut answers, talk, around, known)?;
    } else {
        for question in questions::all().filter(|question| question.more).filter(is_new) {
            let usual =
                question.usual(&answers, around).filter(|_| (question.when)(&answers, around));
            if let Some(usual) = usual {
                let _ = taken(question, &usual, &mut answers, around, known);
            }
        }
    }
    talk.keep(&answers);
    Some(answers)
}

/// Asks which answer changes, until Enter ends it. `None` where the talk ended before.
#[must_use]
pub fn change(
    talk: &mut dyn Talk,
    around: &Around,
    known: Known<'_>,
    mut answers: Answers,
) -> Option<Answers> {
    let keys =
        || questions::all().filter(|question| question.id != ANY).map(|question| question.id);
    talk.say("Type what changes, such as `days`, `goal` or `pain`; `?` lists all, Enter ends it.");
    loop {
        let typed = talk.hear("What changes: ")?;
        let plain = typed.trim().to_lowercase().replace([' ', '-'], "_");
        let named = |question: &&Question| {
            question.id == plain || question.id.rsplit('.').next() == Some(plain.as_str())
        };
        let asked = |question: &&Question| {
            question.ask.to_lowercase().contains(&typed.trim().to_lowercase())
        };
        let all = || questions::all().filter(|question| question.id != ANY);
        match plain.as_str() {
            "" => return Some(answers),
            "?" => talk.say(&format!("  {}", keys().collect::<Vec<_>>().join(", "))),
            _ => match all().find(named).or_else(|| all().find(asked)) {
                Some(question) => {
                    let _ = ask(question, &mut answers, talk, around, known)?;
                }
                None => talk.say(&format!("  There is no question for `{}`.", typed.trim())),
            },
        }
    }
}

fn run(
    questions: &[&Question],
    answers: &mut Answers,
    talk: &mut dyn Talk,
    around: &Around,
    known: Known<'_>,
) -> Option<()> {
    let mut asked: Vec<usize> = Vec::new();
    let mut at = 0;
    while let Some(question) = questions.get(at) {
        if !(question.when)(answers, around) {
            at += 1;
            continue;
        }
        let is_new = asked.last().is_none_or(|last| questions[*last].section != question.section);
        if is_new {
            talk.say(&format!("\n{}", question.section));
        }
        match ask(question, answers, talk, around, known)? {
            Move::On => {
                asked.push(at);
                at += 1;
            }
            Move::Back => {
                at = asked.pop().unwrap_or(0);
                answers.forget(questions[at].id);
            }
        }
    }
    Some(())
}

fn ask(
    question: &Question,
    answers: &mut Answers,
    talk: &mut dyn Talk,
    around: &Around,
    known: Known<'_>,
) -> Option<Move> {
    let before = answers.get(question.id).filter(|_| !question.repeats).map(str::to_owned);
    let usual = question.usual(answers, around);
    loop {
        let typed = talk.hear(&prompt(question, before.as_deref(), usual.as_deref()))?;
        let typed = match (typed.trim(), &usual) {
            ("?", _) => {
                explain(question, talk, around);
                continue;
            }
            ("<", _) => return Some(Move::Back),
            ("", _) if before.is_some() => return Some(Move::On),
            ("", Some(usual)) => usual.clone(),
            ("", None) if matches!(question.usual, Usual::Needed) => {
                talk.say("  An answer is needed here.");
                continue;
            }
            ("", None) => return Some(Move::On),
            ("none" | "-", None) if !matches!(question.kind, Kind::Pain | Kind::YesNo) => {
                answers.forget(question.id);
                talk.keep(answers);
                return Some(Move::On);
            }
            (typed, _) => typed.to_owned(),
        };
        match taken(question, &typed, answers, around, known) {
            Ok(remarks) => {
                for remark in remarks {
                    talk.say(&format!("  Note: {remark}."));
                }
                talk.keep(answers);
                if !question.repeats {
                    return Some(Move::On);
                }
            }
            Err(why) => talk.say(&format!("  {why}.")),
        }
    }
}

fn prompt(question: &Question, before: Option<&str>, usual: Option<&str>) -> String {
    let shown = |answer: &str| match answer {
        "true" => "y".to_owned(),
        "false" => "n".to_owned(),
        "[]" => "none".to_owned(),
        list => list.trim_matches(['[', ']']).replace('"', ""),
    };
    match before.map(shown).or_else(|| usual.map(str::to_owned)) {
        Some(usual) => format!("{} [{usual}]: ", question.ask),
        None if matches!(question.usual, Usual::Needed) => format!("{}: ", question.ask),
        None if matches!(question.kind, Kind::YesNo | Kind::Pain) => {
            format!("{} [open]: ", question.ask)
        }
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
    let yaml = as_yaml(question.kind, typed, around, known.entries)?;
    if let Kind::Word(words) = question.kind {
        one_of(&yaml, &words())?;
    }
    let mut trial = answers.clone();
    if question.id == ANY && yaml == "false" {
        for id in ANY_OF {
            trial.take(id, yaml.clone(), false);
        }
    }
    trial.take(question.id, yaml, question.repeats);
    let (before, _) = found(answers, around, known);
    let (now, faults) = found(&trial, around, known);
    if let Some(fault) = faults.iter().find(|fault| fault.is_error()) {
        return Err(format!("{}: {}", fault.message, fault.help));
    }
    *answers = trial;
    Ok(now.into_iter().filter(|remark| !before.contains(remark)).collect())
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

/// What is remarkable about a profile with these answers, and what the checks of every profile file say of it.
fn found(answers: &Answers, around: &Around, known: Known<'_>) -> (Vec<String>, Vec<Diagnostic>) {
    let source = Source::new("answers", &profile_text(answers));
    let (profile, faults) = match read::<Profile>(&source) {
        Ok(read) => {
            let place = read.value.place.as_ref().and_then(|place| around.rooms.get(place));
            let faults = check::profile(&read, place, known);
            (Some(read.value), faults)
        }
        Err(faults) => (None, faults),
    };
    let remarks = faults.iter().filter(|fault| !fault.is_error());
    let mut told: Vec<String> =
        remarks.map(|fault| format!("{}: {}", fault.message, fault.help)).collect();
    let is_whole = profile.filter(|_| !faults.iter().any(Diagnostic::is_error));
    told.extend(is_whole.into_iter().flat_map(|profile| contradictions(&profile, around, known)));
    (told, faults)
}
