//! What is typed into what stands in the file.

use std::collections::BTreeMap;

use super::around::Around;
use super::tolerant;
use crate::diagnostic::quoted;
use crate::input::catalog::Entry;
use crate::input::{clock as calendar, naming, suggest};
use crate::words::Region;

/// What kind of answer a question takes.
#[derive(Clone, Copy)]
pub(super) enum Kind {
    /// Any text on one line.
    Text,
    /// A number.
    Number,
    /// One word of a list.
    Word(fn() -> Vec<&'static str>),
    /// Words of a list, with commas or spaces between them.
    Words(fn() -> Vec<&'static str>),
    /// Exercises by id or name, with commas between them.
    Exercises,
    /// A room that has a file, or none.
    Place,
    /// Yes or no.
    YesNo,
    /// Weekdays, each with its hour and minutes where these differ.
    Days,
    /// A lift done lately.
    Lift,
    /// A day of the calendar.
    Date,
    /// A day of sport.
    Sport,
    /// Regions that hurt, or notes, with commas between them.
    Pain,
}

/// The answer as YAML, or what is wrong with it. Whether its words are known is seen later, by the
/// checks that every profile file goes through.
pub(super) fn as_yaml(
    kind: Kind,
    typed: &str,
    around: &Around,
    entries: &BTreeMap<String, Entry>,
) -> Result<String, String> {
    if typed.chars().any(char::is_control) {
        return Err("the answer holds a control character; type it again".to_owned());
    }
    match kind {
        Kind::Text => Ok(scalar(typed)),
        Kind::Number => tolerant::number(typed),
        Kind::Word(known) => Ok(scalar(&one_word(typed, &known()))),
        Kind::Words(known) => Ok(list(&some_words(typed, &known()))),
        Kind::Exercises => Ok(list(&exercises(typed, entries))),
        Kind::Place => place(typed, around),
        Kind::YesNo => yes_or_no(typed),
        Kind::Days => days(typed),
        Kind::Date => Ok(tolerant::day(typed, &around.today)),
        Kind::Lift => lift(typed, entries),
        Kind::Sport => sport(typed),
        Kind::Pain => Ok(list(&pain(typed))),
    }
}

/// A text that YAML reads back as the same text; in quotes unless it is a plain word.
pub(crate) fn scalar(text: &str) -> String {
    const NOT_TEXT: [&str; 8] = ["true", "false", "null", "yes", "no", "on", "off", "nan"];
    let is_plain = text.starts_with(|first: char| first.is_ascii_alphabetic())
        && text.chars().all(|letter| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_'))
        && !NOT_TEXT.contains(&text.to_lowercase().as_str());
    if is_plain || calendar::date(text).is_some() {
        text.to_owned()
    } else {
        serde_json::to_string(text).expect("every text can be quoted")
    }
}

pub(super) fn list(texts: &[String]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| scalar(text)).collect();
    format!("[{}]", texts.join(", "))
}

/// People write `Lat Pulldown` and `lat_pulldown` for `lat-pulldown`.
fn word(typed: &str) -> String {
    typed.trim().to_lowercase().replace([' ', '_'], "-")
}

/// The word of a list, also by another word for it.
fn one_word(typed: &str, known: &[&str]) -> String {
    let typed = word(typed);
    if known.contains(&typed.as_str()) {
        return typed;
    }
    tolerant::same(&typed, known).map_or(typed, str::to_owned)
}

/// Words with commas or `and` between them, or else with spaces.
fn some_words(typed: &str, known: &[&str]) -> Vec<String> {
    let parts = tolerant::parts(typed);
    let is_one = parts.len() == 1 && !known.contains(&one_word(typed, known).as_str());
    let parts: Vec<&str> = if is_one { typed.split(' ').collect() } else { parts };
    let words = parts.into_iter().map(|part| one_word(part, known));
    words.filter(|word| !word.is_empty() && word != "none").collect()
}

/// Exercises by any of their names. Without commas a text is one name where it is known as one.
fn exercises(typed: &str, entries: &BTreeMap<String, Entry>) -> Vec<String> {
    let parts = tolerant::parts(typed);
    let is_one = parts.len() == 1 && naming::id_of(typed, entries).is_some();
    let ids = |part: &str| naming::id_of(part, entries).is_some();
    let words: Vec<&str> = typed.split(' ').filter(|part| !part.is_empty()).collect();
    let parts = if parts.len() == 1 && !is_one && words.iter().all(|word| ids(word)) {
        words
    } else {
        parts
    };
    let id =
        |part: &str| naming::id_of(part, entries).map_or_else(|| part.to_owned(), str::to_owned);
    parts.into_iter().filter(|part| *part != "none").map(id).collect()
}

/// Regions by their words; what names none stays as a note.
fn pain(typed: &str) -> Vec<String> {
    let told = typed.split([',', ';']).flat_map(|part| part.split(" and ")).map(str::trim);
    let told =
        told.filter(|part| !matches!(part.to_lowercase().as_str(), "" | "none" | "no" | "nothing"));
    told.map(|part| {
        word(part)
            .parse::<Region>()
            .map_or_else(|_| part.to_owned(), |region| region.id().to_owned())
    })
    .collect()
}

fn place(typed: &str, around: &Around) -> Result<String, String> {
    let places: Vec<&str> = around.places.iter().map(String::as_str).collect();
    let meant = places.iter().find(|place| word(place) == word(typed));
    if typed == "none" {
        return Ok(scalar(typed));
    }
    if let Some(place) = meant {
        return Ok(scalar(place));
    }
    let words: Vec<&str> = places.into_iter().chain(["none"]).collect();
    let help = suggest::help(typed, &words, "`?` lists the places");
    Err(format!("there is no place {}: {help}", quoted(typed)))
}

fn yes_or_no(typed: &str) -> Result<String, String> {
    match typed.to_lowercase().as_str() {
        "y" | "yes" | "true" => Ok("true".to_owned()),
        "n" | "no" | "none" | "false" => Ok("false".to_owned()),
        _ => Err(format!("{} is neither: answer `y` or `n`", quoted(typed))),
    }
}

/// `mon thu 18:30`, `mon@18:30 sat@09:00=45` and `Monday, Wednesday and Friday at 6:30 pm`, each day as `mon@18:30=45`.
/// An hour behind several days is that of all before it that have none.
fn days(typed: &str) -> Result<String, String> {
    let plain =
        typed.replace(" am", "am").replace(" pm", "pm").replace(" AM", "am").replace(" PM", "pm");
    let parts =
        plain.split([' ', ',', ';', '&']).filter(|part| !matches!(*part, "" | "and" | "at" | "on"));
    let mut days: Vec<(String, Option<String>, Option<String>)> = Vec::new();
    for part in parts {
        let (part, minutes) =
            part.split_once('=').map_or((part, None), |(part, rest)| (part, Some(rest)));
        let minutes = minutes.map(tolerant::number).transpose()?;
        let (name, hour) =
            part.split_once('@').map_or((part, None), |(name, hour)| (name, Some(hour)));
        if hour.is_none() && tolerant::weekday(name).is_none() && tolerant::is_clock(name) {
            for (_, at, _) in days.iter_mut().filter(|(_, at, _)| at.is_none()) {
                *at = Some(tolerant::clock(name));
            }
            continue;
        }
        let id = tolerant::weekday(name).map_or_else(|| word(name), |day| day.id().to_owned());
        days.push((id, hour.map(tolerant::clock), minutes));
    }
    let told = days.into_iter().map(|(day, at, minutes)| {
        let at = at.map_or_else(String::new, |at| format!("@{at}"));
        let minutes = minutes.map_or_else(String::new, |minutes| format!("={minutes}"));
        format!("{day}{at}{minutes}")
    });
    Ok(told.collect::<Vec<_>>().join(" "))
}

/// `back-squat 50 x 5, 2 left` and `barbell bench press 60 kg x 8` as `back-squat: {load: 50, reps: 5, rir: 2}`.
fn lift(typed: &str, entries: &BTreeMap<String, Entry>) -> Result<String, String> {
    let typed = typed.replace(" x", "x").replace("x ", "x");
    let parts: Vec<&str> = typed.split(' ').collect();
    let is_number = |part: &&str| part.starts_with(|first: char| first.is_ascii_digit());
    let start = parts.iter().position(is_number).unwrap_or(parts.len());
    let name = parts[..start].join(" ");
    let id = naming::id_of(&name, entries).map_or_else(|| word(&name), str::to_owned);
    // A comma between digits is a decimal one.
    let figures = parts[start..].join(" ");
    let letters: Vec<char> = figures.chars().collect();
    let between = |at: usize| {
        let digit = |at: Option<&char>| at.is_some_and(char::is_ascii_digit);
        at > 0 && digit(letters.get(at - 1)) && digit(letters.get(at + 1))
    };
    let plain: String = letters
        .iter()
        .enumerate()
        .map(|(at, letter)| if *letter == ',' && between(at) { '.' } else { *letter })
        .collect();
    let figures = plain.split(|letter: char| !letter.is_ascii_digit() && letter != '.');
    let figures: Result<Vec<String>, String> =
        figures.filter(|figure| !figure.is_empty()).map(tolerant::number).collect();
    let id = scalar(&id);
    match figures?.as_slice() {
        [load, reps] => Ok(format!("{id}: {{load: {load}, reps: {reps}}}")),
        [load, reps, rir] => Ok(format!("{id}: {{load: {load}, reps: {reps}, rir: {rir}}}")),
        _ => Err("write exercise, load, repetitions and how many were left, as in \
                  `back-squat 50 x 5, 2 left`"
            .to_owned()),
    }
}

/// `sat hard lats quads` as `{day: sat, load: hard, muscles: [lats, quads]}`.
fn sport(typed: &str) -> Result<String, String> {
    let plain = typed.replace([',', ';'], " ");
    let parts: Vec<String> =
        plain.split(' ').filter(|part| !matches!(*part, "" | "and")).map(word).collect();
    let [on, load, muscles @ ..] = parts.as_slice() else {
        return Err(
            "write day, `easy` or `hard`, and muscles, as in `sat hard lats quads`".to_owned()
        );
    };
    let (on, at) = on.split_once('@').map_or((on.as_str(), None), |(on, at)| (on, Some(at)));
    let on = tolerant::weekday(on).map_or_else(|| on.to_owned(), |day| day.id().to_owned());
    let at = at.map_or_else(String::new, |at| format!("at: \"{}\", ", tolerant::clock(at)));
    Ok(format!("{{day: {}, {at}load: {}, muscles: {}}}", scalar(&on), scalar(load), list(muscles)))
}
