//! An exercise takes two lines of words on its card: how it is done, and a cue. What else there is to say stands once at
//! the head of the card, with the letters of those whom it is about.

use crate::sheets::block::BlockCard;
use crate::sheets::card::{EASE, Line, is_for_safety};
use crate::sheets::phrase;
use crate::sheets::wording::say;
use crate::strength::working_load::FIRST_LOAD;

/// Where a load was found, which is for the coach.
const BASIS: &str = "from ";

/// Puts the words of a card in their places.
pub(super) fn settle(card: &mut BlockCard) {
    let mut eases = false;
    let (mut loads, mut next, mut instead) = (Said::default(), Said::default(), Vec::new());
    for row in card.groups.iter_mut().flat_map(|group| &mut group.rows) {
        let line = &mut row.line;
        line.how = how(line);
        let note = std::mem::take(&mut line.load_note);
        let step = note.strip_prefix(FIRST_LOAD).and_then(|rest| rest.split_once(", "));
        loads.push(&line.label, step.map_or(note.as_str(), |(_, step)| step));
        let told = std::mem::take(&mut line.next);
        let is_easing = told.starts_with(EASE);
        eases |= is_easing;
        next.push(&line.label, if is_easing { "" } else { &told });
        let other = std::mem::take(&mut line.instead);
        if !other.is_empty() {
            instead.push(format!("{}: {other}", line.label));
        }
        keep_cues(&mut line.cues);
    }
    loads.0.retain(|(_, text)| !text.starts_with(BASIS));
    card.loads = joined(&card.loads, loads);
    let whole = if card.next.to_lowercase().starts_with(EASE) {
        eases = true;
        ""
    } else {
        card.next.as_str()
    };
    card.next = joined(whole, next);
    if eases {
        card.next = [say!(to_ease), &card.next].join(" ").trim_end().to_owned();
    }
    card.instead = instead.join(" · ");
}

/// Every cue for safety; where there is none, the first.
fn keep_cues(cues: &mut Vec<String>) {
    let for_safety = cues.iter().filter(|cue| is_for_safety(cue)).count();
    cues.truncate(for_safety.max(1));
}

/// Effort, rest, tempo, ramp sets and plates in one line.
fn how(line: &Line) -> String {
    let ramp = if line.ramp.is_empty() { String::new() } else { say!(ramp_is, ramp = line.ramp) };
    let parts = [&line.effort, &line.rest, &line.tempo, &ramp, &line.plates];
    let said: Vec<&str> =
        parts.into_iter().map(String::as_str).filter(|part| !part.is_empty()).collect();
    said.join(" · ")
}

/// Who says what: letters with the text that they share, in the order of the card.
#[derive(Default)]
struct Said(Vec<(Vec<String>, String)>);

impl Said {
    fn push(&mut self, label: &str, text: &str) {
        if text.is_empty() {
            return;
        }
        match self.0.iter_mut().find(|(_, said)| said == text) {
            Some((labels, _)) => labels.push(label.to_owned()),
            None => self.0.push((vec![label.to_owned()], text.to_owned())),
        }
    }
}

/// What holds for the whole card, then what some of its exercises say.
fn joined(whole: &str, said: Said) -> String {
    let parts = said
        .0
        .into_iter()
        .map(|(labels, text)| format!("{}: {}.", labels.join(", "), text.trim_end_matches('.')));
    let all = std::iter::once(phrase::sentence(whole)).chain(parts);
    all.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}
