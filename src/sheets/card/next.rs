//! What to do next time, said once for the lifts and weeks that share it.

use std::collections::{BTreeMap, BTreeSet};

use super::{Card, Line, phrase};
use crate::plan::next_time::{HEAVIER, REACHES, RUNNING};
use crate::sheets::wording::say;
use crate::words::GroupKind;

/// Takes off the lines what several of them say about the next time, and says it once. The weeks are
/// those of one card; what is not said in each of them names its weeks, and what is said of few lifts
/// names their labels.
pub(crate) fn hoist(weeks: &mut [(u32, &mut Card)]) -> String {
    let mut sentences: Vec<String> = Vec::new();
    if take_steps(weeks) {
        sentences.push(say!(next_steps).to_owned());
    }
    let labels = labels(weeks);
    for (text, said) in shared(weeks) {
        let lead = lead(weeks, &said, &labels);
        sentences.push(format!(
            "{}.",
            phrase::sentence(&format!("{lead}{}", text.trim_end_matches('.')))
        ));
        for (_, card) in weeks.iter_mut() {
            for line in lines_mut(card).filter(|line| line.next == text) {
                line.next.clear();
            }
        }
    }
    sentences.join(" ")
}

fn lines(card: &Card) -> impl Iterator<Item = &Line> {
    let work = card.groups.iter().filter(|part| part.kind != GroupKind::Conditioning);
    work.flat_map(|part| &part.lines)
}

fn lines_mut(card: &mut Card) -> impl Iterator<Item = &mut Line> {
    let work = card.groups.iter_mut().filter(|part| part.kind != GroupKind::Conditioning);
    work.flat_map(|part| &mut part.lines)
}

/// Turns the sentence about two sessions running into a number and a load. Whether there was one.
fn take_steps(weeks: &mut [(u32, &mut Card)]) -> bool {
    let mut found = false;
    for line in weeks.iter_mut().flat_map(|(_, card)| lines_mut(card)) {
        let Some((number, load)) =
            line.next.strip_prefix(REACHES).and_then(|rest| rest.split_once(RUNNING))
        else {
            continue;
        };
        // How the load is put together stands with it once it is the load of the week.
        let load = load.split_once(" (").map_or(load, |(load, _)| load);
        line.step = if load == HEAVIER { number.to_owned() } else { format!("{number}: {load}") };
        line.next.clear();
        found = true;
    }
    found
}

/// Which exercises say a text in which weeks.
type Said = BTreeSet<(u32, String)>;

/// What at least two exercises say, in the order of the card.
fn shared(weeks: &[(u32, &mut Card)]) -> Vec<(String, Said)> {
    let mut texts: Vec<(String, Said)> = Vec::new();
    for (week, card) in weeks {
        for line in lines(card).filter(|line| !line.next.is_empty()) {
            let place = texts.iter().position(|(text, _)| *text == line.next);
            let place = place.unwrap_or_else(|| {
                texts.push((line.next.clone(), Said::new()));
                texts.len() - 1
            });
            texts[place].1.insert((*week, line.id.clone()));
        }
    }
    texts.retain(|(_, said)| said.iter().map(|(_, id)| id).collect::<BTreeSet<_>>().len() > 1);
    texts
}

/// The label of each exercise in the week that has most of them.
fn labels(weeks: &[(u32, &mut Card)]) -> BTreeMap<String, String> {
    let fullest = weeks.iter().max_by_key(|(_, card)| lines(card).count());
    let lines = fullest.into_iter().flat_map(|(_, card)| lines(card));
    lines.map(|line| (line.id.clone(), line.label.clone())).collect()
}

/// `Weeks 1-2: `, `A, B: ` or `Week 4 (A, B): `; nothing where all weeks and most lifts say it.
fn lead(weeks: &[(u32, &mut Card)], said: &Said, labels: &BTreeMap<String, String>) -> String {
    let spoken: BTreeSet<u32> = said.iter().map(|(week, _)| *week).collect();
    let lifts: BTreeSet<&String> = said.iter().map(|(_, id)| id).collect();
    let all: BTreeSet<&String> = weeks
        .iter()
        .filter(|(week, _)| spoken.contains(week))
        .flat_map(|(_, card)| lines(card).map(|line| &line.id))
        .collect();
    let who = if lifts.len() * 2 > all.len() {
        String::new()
    } else {
        let names: BTreeSet<&str> =
            lifts.iter().filter_map(|id| labels.get(*id)).map(String::as_str).collect();
        names.into_iter().collect::<Vec<_>>().join(", ")
    };
    let when = if spoken.len() == weeks.len() { String::new() } else { span(&spoken) };
    match (when.as_str(), who.as_str()) {
        ("", "") => String::new(),
        ("", who) => format!("{who}: "),
        (when, "") => format!("{when}: "),
        (when, who) => format!("{when} ({who}): "),
    }
}

/// `week 4`, `weeks 1-2`, `weeks 1, 3`.
fn span(weeks: &BTreeSet<u32>) -> String {
    let list: Vec<u32> = weeks.iter().copied().collect();
    match list.as_slice() {
        [only] => say!(in_week, week = only),
        [from, .., to] if usize::try_from(to - from).is_ok_and(|more| more + 1 == list.len()) => {
            say!(in_weeks, first = from, last = to)
        }
        _ => {
            let list: Vec<String> = list.iter().map(u32::to_string).collect();
            say!(in_weeks_of, list = list.join(", "))
        }
    }
}
