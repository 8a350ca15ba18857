//! A profile's text back into answers, so that a draft goes on and an existing profile is changed.

use serde_yaml::Value;

use super::answers::Answers;
use super::kind::scalar;
use super::profile_text::profile_text;

/// Keys of maps whose parts are answers of their own.
const MAPS: [&str; 4] = ["exercises", "screening", "conditioning", "emphasis"];

/// What stands before the questions that a draft has answers to: what a profile cannot be without has stand-ins there.
const ANSWERED: &str = "# Answered so far: ";

/// The text of a draft: a profile that can be planned to be looked at, and what of it was answered.
#[must_use]
pub fn draft_text(answers: &Answers) -> String {
    let keys: Vec<&str> = answers.iter().map(|(key, _)| key).collect();
    format!(
        "# A draft: the talk is not over. `weekwright intake` goes on with it.\n{ANSWERED}{}\n{}",
        keys.join(" "),
        profile_text(answers)
    )
}

/// The answers that a text gives: all of a profile, and of a draft those that were given.
#[must_use]
pub fn recalled(text: &str) -> Answers {
    let mut answers = all(text);
    if let Some(keys) = text.lines().find_map(|line| line.strip_prefix(ANSWERED)) {
        let keys: Vec<&str> = keys.split(' ').collect();
        answers.retain(|key| keys.contains(&key));
    }
    answers
}

fn all(text: &str) -> Answers {
    let mut answers = Answers::default();
    let Ok(Value::Mapping(keys)) = serde_yaml::from_str::<Value>(text) else { return answers };
    for (key, value) in &keys {
        let Some(key) = key.as_str() else { continue };
        match (key, value) {
            ("sessions", Value::Sequence(slots)) => sessions(slots, &mut answers),
            ("emphasis", Value::Mapping(muscles)) => {
                for wish in ["more", "less"] {
                    let wished = muscles.iter().filter(|(_, value)| value.as_str() == Some(wish));
                    let names: Vec<String> = wished.map(|(muscle, _)| flow(muscle)).collect();
                    if !names.is_empty() {
                        answers
                            .recall(&format!("emphasis.{wish}"), format!("[{}]", names.join(", ")));
                    }
                }
            }
            ("known_lifts", Value::Mapping(lifts)) => {
                for (id, lift) in lifts {
                    answers.recall(key, format!("{}: {}", flow(id), flow(lift)));
                }
            }
            ("other_training", Value::Sequence(sports)) => {
                sports.iter().for_each(|sport| answers.recall(key, flow(sport)));
            }
            (_, Value::Mapping(parts)) if MAPS.contains(&key) => {
                for (part, value) in parts {
                    answers.recall(
                        &format!("{key}.{}", part.as_str().unwrap_or_default()),
                        flow(value),
                    );
                }
            }
            _ => answers.recall(key, flow(value)),
        }
    }
    answers
}

/// Sessions as `mon@18:30 sat@09:00=45`; the minutes of the first are those of all that say none.
fn sessions(slots: &[Value], answers: &mut Answers) {
    let minutes = |slot: &Value| slot.get("minutes").map(flow);
    let usual = slots.first().and_then(minutes).unwrap_or_else(|| "60".to_owned());
    let days = slots.iter().map(|slot| {
        let day = slot.get("day").map(flow).unwrap_or_default();
        let at = slot.get("at").and_then(Value::as_str).map(|at| format!("@{at}"));
        let own = minutes(slot).filter(|own| *own != usual).map(|own| format!("={own}"));
        format!("{day}{}{}", at.unwrap_or_default(), own.unwrap_or_default())
    });
    answers.recall("days", days.collect::<Vec<_>>().join(" "));
    answers.recall("minutes", usual);
}

/// A value on one line.
fn flow(value: &Value) -> String {
    match value {
        Value::String(text) => scalar(text),
        Value::Sequence(entries) => {
            let entries: Vec<String> = entries.iter().map(flow).collect();
            format!("[{}]", entries.join(", "))
        }
        Value::Mapping(keys) => {
            let keys: Vec<String> =
                keys.iter().map(|(key, value)| format!("{}: {}", flow(key), flow(value))).collect();
            format!("{{{}}}", keys.join(", "))
        }
        other => serde_json::to_string(other).unwrap_or_default(),
    }
}
