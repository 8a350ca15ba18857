//! A profile's text with some keys changed, line by line. Comments, the order of keys and every key that stays as it is
//! are kept to the letter; what is lost are comments inside a list or map that changes.

use std::ops::Range;

use serde_yaml::Value;

use super::Kind;
use super::flow::{flow, lines};
use crate::diagnostic::Source;
use crate::input::marks::{Field, Marks, Parts};
use crate::sheets::wording::say;

/// A new profile, which says at its head where it is from.
pub(in crate::page) fn fresh(values: &[(&'static str, Option<Value>)]) -> String {
    let mut text = format!("# {}\n", say!(profile_file_head));
    for (key, value) in values {
        if let Some(value) = value {
            text.push_str(&lines(key, value));
        }
    }
    text
}

/// The text with the keys that differ from what it says; `None` where it is not one map with a key to a line.
pub(in crate::page) fn changed(
    text: &str,
    values: &[(&'static str, Option<Value>)],
) -> Option<String> {
    let text = &ended(text);
    let marks = Marks::parse(&Source::new("profile", text)).ok()?;
    let Parts::Map(fields) = &marks.root().parts else { return None };
    if fields.iter().any(|field| !is_at_line_start(text, field.key_bytes.start)) {
        return None;
    }
    let old: Value = serde_yaml::from_str(text).ok()?;
    let mut edits: Vec<(Range<usize>, String)> = Vec::new();
    let mut added: Vec<(usize, String)> = Vec::new();
    for (place, (key, value)) in values.iter().enumerate() {
        let was = old.get(key).filter(|was| !was.is_null());
        if is_same(key, was, value.as_ref()) {
            continue;
        }
        match (fields.iter().find(|field| field.key == *key), value) {
            (Some(field), Some(value)) => edits.push(in_place(text, field, key, value)),
            (Some(field), None) => edits.push((block(text, field), String::new())),
            (None, Some(value)) => {
                let before = values[..place]
                    .iter()
                    .rev()
                    .find_map(|(key, _)| fields.iter().find(|field| field.key == *key));
                let at = before.map_or(text.len(), |field| block(text, field).end);
                added.push((at, lines(key, value)));
            }
            (None, None) => {}
        }
    }
    edits.extend(added.into_iter().map(|(at, lines)| (at..at, lines)));
    // From the end, so that places stay true; of two at one place the later key is put in first.
    edits.sort_by_key(|(range, _)| range.start);
    let mut text = text.clone();
    for (range, new) in edits.into_iter().rev() {
        let range = range.start.min(text.len())..range.end.min(text.len());
        text.replace_range(range, &new);
    }
    Some(text)
}

/// Whether a key says the same.
fn is_same(key: &str, was: Option<&Value>, now: Option<&Value>) -> bool {
    let field = super::fields().iter().find(|field| field.key == key);
    field.map_or(was == now, |field| says_the_same(&field.kind, was, now))
}

/// What is ticked has no order, and an empty list of names is none. Elsewhere an empty list may be an answer.
fn says_the_same(kind: &Kind, was: Option<&Value>, now: Option<&Value>) -> bool {
    let list = |value: Option<&Value>| match value {
        Some(Value::Sequence(list)) => Some(list.clone()),
        None => Some(Vec::new()),
        Some(_) => None,
    };
    match kind {
        Kind::Ticks { .. } => match (list(was), list(now)) {
            (Some(was), Some(now)) => {
                was.len() == now.len() && was.iter().all(|one| now.contains(one))
            }
            _ => was == now,
        },
        Kind::Lines { .. } => list(was).is_some() && list(was) == list(now),
        Kind::Group(inner)
            if was.is_none_or(Value::is_mapping) && now.is_none_or(Value::is_mapping) =>
        {
            inner.iter().all(|field| {
                let of = |value: Option<&Value>| {
                    value?.get(&field.key).filter(|value| !value.is_null()).cloned()
                };
                says_the_same(&field.kind, of(was).as_ref(), of(now).as_ref())
            })
        }
        _ => was == now,
    }
}

/// A text whose last line has its end.
fn ended(text: &str) -> String {
    if text.is_empty() || text.ends_with('\n') { text.to_owned() } else { format!("{text}\n") }
}

fn is_at_line_start(text: &str, at: usize) -> bool {
    at == 0 || text.as_bytes().get(at - 1) == Some(&b'\n')
}

/// The whole lines of a key.
fn block(text: &str, field: &Field) -> Range<usize> {
    let last = field.node.bytes.end.max(field.key_bytes.end);
    // The end of a list or map may be told as the start of what follows it, behind the remarks that stand before that.
    let mut inside = text[..last].trim_end().len();
    while let Some(at) = text[..inside].rfind('\n').filter(|at| text[at + 1..].starts_with('#')) {
        inside = text[..at].trim_end().len();
    }
    let inside = inside.max(field.key_bytes.end);
    let end = text[inside..].find('\n').map_or(text.len(), |at| inside + at + 1);
    field.key_bytes.start..end
}

/// A single value is changed where it stands, so that a comment behind it stays; else the lines are written anew.
fn in_place(text: &str, field: &Field, key: &str, value: &Value) -> (Range<usize>, String) {
    let bytes = &field.node.bytes;
    let is_single = matches!(field.node.parts, Parts::None) && !bytes.is_empty();
    let new = lines(key, value);
    let old = &text[bytes.clone()];
    if is_single
        && !old.contains('\n')
        && !old.starts_with(['|', '>'])
        && new.matches('\n').count() == 1
    {
        return (bytes.clone(), flow(value));
    }
    (block(text, field), new)
}

#[cfg(test)]
mod tests {
    use super::super::typed::{of_text, values};
    use super::*;
    use crate::page::fields::Fields;

    const TEXT: &str = "# Head.\nclient: tide-01   # a code\ntraining_status: novice\ngoal: hypertrophy\n\n# When.\nsessions:\n  - {day: mon, minutes: 60}\n\
                        # Kit.\nequipment: [bench, dumbbells]\nweeks: 4";

    fn with(changes: &[(&str, &str)]) -> String {
        let mut typed = of_text(TEXT);
        for (name, text) in changes {
            typed.0.retain(|(other, _)| other != name);
            typed.0.push(((*name).to_owned(), (*text).to_owned()));
        }
        changed(TEXT, &values(&typed)).unwrap()
    }

    #[test]
    fn what_is_not_changed_stays_to_the_letter() {
        assert_eq!(with(&[]), format!("{TEXT}\n"));
        for text in [
            include_str!("../../../profiles/tide-01.yaml"),
            include_str!("../../../profiles/oar-02.yaml"),
            include_str!("../../../profiles/scull-07.yaml"),
            include_str!("../../../profiles/keel-04.yaml"),
            include_str!("../../../profiles/cox-05.yaml"),
        ] {
            assert_eq!(changed(text, &values(&of_text(text))).unwrap(), text);
        }
    }

    #[test]
    fn a_key_is_changed_added_or_taken_out_where_it_belongs() {
        assert!(with(&[("client", "tide-09")]).contains("client: tide-09   # a code\n"));
        assert!(with(&[("weeks", "8")]).ends_with("weeks: 8\n"));
        let shorter = with(&[("sessions.0.minutes", "45")]);
        let wanted = "\n# When.\nsessions:\n  - {day: mon, minutes: 45}\n# Kit.\n";
        assert!(shorter.contains(wanted), "{shorter}");
        let added = with(&[("birth_year", "1991"), ("start", "2027-01-04")]);
        assert!(added.contains("a code\nbirth_year: 1991\n"), "{added}");
        assert!(added.contains("start: 2027-01-04\n"), "{added}");
        let out = with(&[("weeks", "")]);
        assert!(!out.contains("weeks") && out.ends_with("dumbbells]\n"), "{out}");
    }

    #[test]
    fn a_wrong_number_is_kept_as_it_was_typed() {
        assert!(with(&[("weeks", "many")]).ends_with("weeks: many\n"));
        let typed = Fields(vec![("client".to_owned(), "x: [y".to_owned())]);
        assert!(fresh(&values(&typed)).ends_with("client: \"x: [y\"\n"));
    }

    #[test]
    fn no_key_is_named_twice() {
        let keys =
            || super::super::view::SECTIONS.iter().flat_map(|(_, keys)| keys.iter().copied());
        let all: Vec<&str> = keys().collect();
        let once: std::collections::BTreeSet<&str> = keys().collect();
        assert_eq!(all.len(), once.len());
    }
}
