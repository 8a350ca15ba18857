//! What is typed into what stands in the file.

use super::talk::Around;
use crate::diagnostic::quoted;
use crate::input::{clock as calendar, suggest};
use crate::words::Weekday;

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
    /// Ids of exercises.
    Exercises,
    /// A room that has a file, or none.
    Place,
    /// Yes or no.
    YesNo,
    /// Weekdays, each with its hour where the hours differ.
    Days,
    /// A lift done lately.
    Lift,
    /// An hour of the day.
    Clock,
    /// A day of sport.
    Sport,
    /// Texts with commas between them.
    Texts,
}

/// The answer as YAML, or what is wrong with it. Whether its words are known is seen later, by the
/// checks that every profile file goes through.
pub(super) fn as_yaml(kind: Kind, typed: &str, around: &Around) -> Result<String, String> {
    if typed.chars().any(char::is_control) {
        return Err("the answer holds a control character; type it again".to_owned());
    }
    match kind {
        Kind::Text => Ok(scalar(typed)),
        Kind::Number => number(typed),
        Kind::Word(_) => Ok(scalar(&word(typed))),
        Kind::Words(_) | Kind::Exercises => Ok(list(&words(typed))),
        Kind::Place => place(typed, around),
        Kind::YesNo => yes_or_no(typed),
        Kind::Days => Ok(words(typed).iter().map(|typed| day(typed)).collect::<Vec<_>>().join(" ")),
        Kind::Clock => Ok(typed.to_owned()),
        Kind::Lift => lift(typed),
        Kind::Sport => sport(typed),
        Kind::Texts => {
            let texts = typed.split(',').map(str::trim).filter(|text| !text.is_empty());
            Ok(list(&texts.map(str::to_owned).collect::<Vec<_>>()))
        }
    }
}

/// A text that YAML reads back as the same text; in quotes unless it is a plain word.
pub(super) fn scalar(text: &str) -> String {
    const NOT_TEXT: [&str; 8] = ["true", "false", "null", "yes", "no", "on", "off", "nan"];
    let is_plain = text.starts_with(|first: char| first.is_ascii_alphabetic())
        && text.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '-')
        && !NOT_TEXT.contains(&text.to_lowercase().as_str());
    if is_plain || calendar::date(text).is_some() {
        text.to_owned()
    } else {
        serde_json::to_string(text).expect("every text can be quoted")
    }
}

fn list(texts: &[String]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| scalar(text)).collect();
    format!("[{}]", texts.join(", "))
}

/// People write `Lat Pulldown` and `lat_pulldown` for `lat-pulldown`.
fn word(typed: &str) -> String {
    typed.trim().to_lowercase().replace([' ', '_'], "-")
}

/// Words with commas between them, or else with spaces.
fn words(typed: &str) -> Vec<String> {
    let parts: Vec<&str> =
        if typed.contains(',') { typed.split(',').collect() } else { typed.split(' ').collect() };
    parts.into_iter().map(word).filter(|word| !word.is_empty() && word != "none").collect()
}

fn number(typed: &str) -> Result<String, String> {
    let is_plain = typed.chars().all(|letter| letter.is_ascii_digit() || letter == '.');
    match typed.parse::<f64>() {
        Ok(_) if is_plain => Ok(typed.to_owned()),
        _ => Err(format!("{} is no number: write digits, such as 60 or 62.5", quoted(typed))),
    }
}

fn place(typed: &str, around: &Around) -> Result<String, String> {
    let places: Vec<&str> = around.places.iter().map(String::as_str).collect();
    if typed == "none" || places.contains(&typed) {
        return Ok(scalar(typed));
    }
    let words: Vec<&str> = places.into_iter().chain(["none"]).collect();
    let help = suggest::help(typed, &words, "`?` lists the places");
    Err(format!("there is no place {}: {help}", quoted(typed)))
}

fn yes_or_no(typed: &str) -> Result<String, String> {
    match typed.to_lowercase().as_str() {
        "y" | "yes" | "true" => Ok("true".to_owned()),
        "n" | "no" | "false" => Ok("false".to_owned()),
        _ => Err(format!("{} is neither: answer `y` or `n`", quoted(typed))),
    }
}

/// `Monday` and `mo` for `mon`; an hour after the sign `@` stays.
fn day(typed: &str) -> String {
    let (name, hour) = typed.split_once('@').unwrap_or((typed, ""));
    let is_meant = |day: &&Weekday| name.len() >= 2 && day.name().to_lowercase().starts_with(name);
    let id = Weekday::ALL.iter().find(is_meant).map_or(name, |day| day.id());
    if hour.is_empty() { id.to_owned() } else { format!("{id}@{}", clock(hour)) }
}

/// `7:30` and `7` for `07:30` and `07:00`.
pub(super) fn clock(typed: &str) -> String {
    let (hours, minutes) = typed.split_once(':').unwrap_or((typed, "00"));
    format!("{hours:0>2}:{minutes:0>2}")
}

/// `back-squat 50 x 5, 2 left` as `back-squat: {load: 50, reps: 5, rir: 2}`.
fn lift(typed: &str) -> Result<String, String> {
    let parts: Vec<&str> = typed.split(' ').collect();
    let is_number = |part: &&str| part.starts_with(|first: char| first.is_ascii_digit());
    let start = parts.iter().position(is_number).unwrap_or(parts.len());
    let id = scalar(&word(&parts[..start].join(" ")));
    let figures = parts[start..].join(" ");
    let figures = figures.split(|letter: char| !letter.is_ascii_digit() && letter != '.');
    let figures: Result<Vec<String>, String> =
        figures.filter(|figure| !figure.is_empty()).map(number).collect();
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
    let parts = words(&typed.replace(',', " "));
    let [on, load, muscles @ ..] = parts.as_slice() else {
        return Err(
            "write day, `easy` or `hard`, and muscles, as in `sat hard lats quads`".to_owned()
        );
    };
    let on = day(on);
    let (on, at) = on.split_once('@').unwrap_or((&on, ""));
    let at = if at.is_empty() { String::new() } else { format!("at: \"{at}\", ") };
    Ok(format!("{{day: {}, {at}load: {}, muscles: {}}}", scalar(on), scalar(load), list(muscles)))
}
