//! One session of one week as every sheet shows it: labels, names and numbers already in words.

pub(super) mod next;

use itertools::Itertools as _;
use serde::Serialize;

use super::wording::say;
use super::{Names, clean, head, heed, kit, phrase};
use crate::book::written::{has_load, planned_words};
use crate::input::catalog::Entry;
use crate::plan::file::{Group, Item, Plan, Session};
use crate::plan::next_time::{OWN_ELSE, OWN_STEP};
use crate::strength::working_load::FIRST_LOAD;
use crate::words::{GroupKind, LoadKind, Measure, Units};

/// A session in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Card {
    /// `Monday`.
    pub day: String,
    /// `18:30`, where the profile gives the hour.
    pub start: Option<String>,
    /// The expected end by the clock.
    pub end: Option<String>,
    /// `58 of 60 min`.
    pub minutes: Option<String>,
    /// Minutes planned, whole ones.
    pub planned_min: Option<u32>,
    /// The minutes that there are.
    pub limit_min: Option<u32>,
    /// The muscles that hold most of the sets.
    pub focus: String,
    /// What to lay out.
    pub kit: Vec<String>,
    /// The effort of every lift that says nothing else.
    pub effort: String,
    /// The tempo of every lift that says nothing else.
    pub tempo: String,
    /// How to find a load, and how to raise one that was found, where some lift asks for it.
    pub loads: String,
    /// What to do next time, where several lifts share it.
    pub next: String,
    /// Why the time is not filled.
    pub note: Option<String>,
    /// Minutes of preparation, `6 min`.
    pub prep_time: Option<String>,
    /// The preparation, in order.
    pub prep: Vec<Line>,
    /// The rest of the session, in order.
    pub groups: Vec<Part>,
}

/// A group in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Part {
    /// What it is.
    pub kind: GroupKind,
    /// `Pair`, `Finisher`, `Conditioning`, or empty.
    pub title: &'static str,
    /// Its exercises.
    pub lines: Vec<Line>,
}

/// An exercise in words; an empty text means that there is nothing to say.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub(crate) struct Line {
    /// `A`, or `B1` in a pair.
    pub label: String,
    /// The catalog's id.
    pub id: String,
    /// The trade's name.
    pub name: String,
    /// `4 × 8`, with `each side` where it is so.
    pub dose: String,
    /// `4 × 8` alone.
    pub count: String,
    /// Whether the number is per side.
    pub each_side: bool,
    /// What each set is planned as, for the boxes to write in.
    pub planned: Vec<String>,
    /// `42.5 kg total`.
    pub load: String,
    /// How the load was found or how to find it.
    pub load_note: String,
    /// `20 kg × 8, 32.5 kg × 4`.
    pub ramp: String,
    /// `rest 2:30`.
    pub rest: String,
    /// Seconds of rest after a set, in a pair of the round.
    pub rest_s: u32,
    /// `tempo 3-0-1-0`.
    pub tempo: String,
    /// In words or as reserve.
    pub effort: String,
    /// What to do when the last set left room.
    pub next: String,
    /// The number of repetitions, and the load, of the step that the card explains: `11: 95 kg`.
    pub step: String,
    /// What stands on the bar: `each side 20 + 1.25 kg`.
    pub plates: String,
    /// The name of a ready substitute.
    pub instead: String,
    /// Reminders.
    pub cues: Vec<String>,
    /// Effort, rest, tempo, ramp sets and plates in one line, where a sheet says them so.
    pub how: String,
    /// What is done as planned, in the words of the record.
    pub written: Written,
}

/// A line of a plan in the words that `weekwright log` reads.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub(crate) struct Written {
    /// The load, empty where the plan names none.
    pub load: String,
    /// Each set.
    pub sets: Vec<String>,
    /// Whether there is a load to write, and whether a line cannot do without it.
    pub takes_load: bool,
    pub needs_load: bool,
    /// What makes a plain number a load: `+` before it, or the unit after it.
    pub before: &'static str,
    pub after: &'static str,
}

impl Written {
    fn of(item: &Item, entry: &Entry, units: Units) -> Written {
        let (load, sets) = planned_words(item, entry, units);
        let (before, after) = match entry.load {
            // A number can be a band's mark, and would be read as a set without its unit.
            kind if has_load(kind) || kind == LoadKind::Band => ("", units.id()),
            LoadKind::BodyweightPlus => ("+", ""),
            LoadKind::Assisted => ("-", ""),
            _ => ("", ""),
        };
        let takes_load = !before.is_empty() || !after.is_empty();
        Written { load, sets, takes_load, needs_load: has_load(entry.load), before, after }
    }
}

impl Card {
    /// Puts a session into words.
    pub(crate) fn new(plan: &Plan, session: &Session, names: &Names<'_>) -> Self {
        let planned_min = session.minutes.as_ref().map(|m| m.planned_s.div_ceil(60));
        let start = session.at.as_deref().and_then(phrase::clock);
        let prep = session.groups.iter().filter(|group| group.kind == GroupKind::Prep);
        let mut groups = parts(plan, session, names);
        let [effort, tempo] = hoist(&mut groups);
        let prep_s = phrase::total(prep.clone().filter_map(|group| group.seconds));
        let text = |minutes: u32| phrase::clock_text(minutes, head::clock(plan));
        Card {
            day: session.day.name().to_owned(),
            start: start.map(text),
            end: start.zip(planned_min).map(|(start, long)| text(start + long)),
            minutes: session
                .minutes
                .as_ref()
                .zip(planned_min)
                .map(|(minutes, planned)| say!(minutes_of, planned, limit = minutes.limit)),
            focus: phrase::sentence(&head::muscles(&session.focus)),
            kit: kit::of_session(plan, session, names),
            planned_min,
            limit_min: session.minutes.as_ref().map(|minutes| minutes.limit),
            effort,
            tempo,
            loads: loads(&groups),
            next: String::new(),
            note: session.note.as_deref().map(clean::line),
            prep_time: (prep_s > 0).then(|| say!(time_min, minutes = prep_s.div_ceil(60))),
            prep: prep
                .flat_map(|group| &group.items)
                .map(|item| Line { dose: phrase::prep_dose(item), ..line(plan, item, names) })
                .collect(),
            groups,
        }
    }

    /// The card of a week that stands alone: what its lifts share about the next time is said once.
    pub(crate) fn alone(plan: &Plan, session: &Session, names: &Names<'_>) -> Self {
        let mut card = Card::new(plan, session, names);
        card.next = next::hoist(&mut [(1, &mut card)]);
        card
    }

    /// The preparation in one run of text: `Easy minutes on a machine: 3 min 45 s · Wall slide: 10 reps`.
    pub(crate) fn preparation(&self) -> String {
        let steps = self.prep.iter().map(|line| format!("{}: {}", line.name, line.dose));
        steps.collect::<Vec<_>>().join(" · ")
    }

    /// What holds for every lift, with the words that let a line differ.
    pub(crate) fn every(&self) -> String {
        every(&self.effort, &self.tempo)
    }
}

/// What a line says of its load where the header says the rest.
pub(crate) fn up() -> &'static str {
    say!(load_up)
}

/// What the header says about the loads of these lines.
pub(crate) fn loads(groups: &[Part]) -> String {
    let any = |start: &str| {
        groups.iter().flat_map(|part| &part.lines).any(|line| line.load_note.starts_with(start))
    };
    let said = [(FIRST_LOAD, say!(to_find)), (up(), say!(to_raise))];
    let said = said.into_iter().filter(|(start, _)| any(start)).map(|(_, text)| text);
    said.collect::<Vec<_>>().join(" ")
}

/// What a line says of a set that came harder than planned. It eases a number and is no second way up.
pub(crate) const EASE: &str = "if a set leaves one fewer than planned";

/// A note about the load with the rule that all lifts share left to the header.
fn shortened(note: String) -> String {
    let told = note.strip_prefix(OWN_STEP).and_then(|rest| rest.split_once(OWN_ELSE));
    told.map(|(reached, _)| format!("{} {reached}", up())).unwrap_or(note)
}

/// Effort and tempo of every lift in one line; empty where neither is shared.
pub(crate) fn every(effort: &str, tempo: &str) -> String {
    let said: Vec<&str> = [effort, tempo].into_iter().filter(|text| !text.is_empty()).collect();
    if said.is_empty() {
        return String::new();
    }
    phrase::sentence(&say!(every_lift, said = said.join(", ")))
}

/// Takes the effort and the tempo that most lifts share off their lines, and says them once.
fn hoist(groups: &mut [Part]) -> [String; 2] {
    let mut lifts: Vec<&mut Line> = groups
        .iter_mut()
        .filter(|part| part.kind != GroupKind::Conditioning)
        .flat_map(|part| &mut part.lines)
        .collect();
    let effort = shared(lifts.iter().map(|line| line.effort.as_str()));
    let tempo = shared(lifts.iter().map(|line| line.tempo.as_str()));
    for line in &mut lifts {
        for (text, said) in [(&mut line.effort, &effort), (&mut line.tempo, &tempo)] {
            if text == said {
                text.clear();
            }
        }
    }
    [effort, tempo]
}

/// The text that at least three lines and over half of those that say something have in common.
pub(crate) fn shared<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let texts: Vec<&str> = texts.filter(|text| !text.is_empty()).collect();
    let times = |wanted: &str| texts.iter().filter(|text| **text == wanted).count();
    let common =
        texts.iter().copied().find(|text| times(text) >= 3 && times(text) * 2 > texts.len());
    common.unwrap_or_default().to_owned()
}

fn parts(plan: &Plan, session: &Session, names: &Names<'_>) -> Vec<Part> {
    session
        .groups
        .iter()
        .filter(|group| group.kind != GroupKind::Prep)
        .enumerate()
        .map(|(place, group)| part(plan, group, &letter(place), names))
        .collect()
}

fn part(plan: &Plan, group: &Group, letter: &str, names: &Names<'_>) -> Part {
    let last = group.items.len().saturating_sub(1);
    let lines = group.items.iter().enumerate().map(|(place, item)| {
        let mut line = line(plan, item, names);
        line.label = if last == 0 { letter.to_owned() } else { format!("{letter}{}", place + 1) };
        if group.kind == GroupKind::Conditioning {
            line.dose = phrase::short_dose(item);
        }
        if last > 0 {
            line.rest_s = group.items.iter().map(|item| item.rest_s).max().unwrap_or(0);
            line.rest = phrase::pair_rest(line.rest_s, letter, place + 1, last);
        }
        line
    });
    Part { kind: group.kind, title: title(group.kind, last), lines: lines.collect() }
}

fn title(kind: GroupKind, last: usize) -> &'static str {
    match kind {
        GroupKind::Prep => say!(group_prep),
        GroupKind::Finisher => say!(group_finisher),
        GroupKind::Conditioning => say!(group_conditioning),
        GroupKind::Single | GroupKind::Superset if last == 0 => "",
        GroupKind::Single | GroupKind::Superset => say!(group_pair),
    }
}

fn line(plan: &Plan, item: &Item, names: &Names<'_>) -> Line {
    let entry = names.entry(&item.exercise);
    let units = head::units(plan);
    let text = |text: &Option<String>| text.as_deref().map(clean::line).unwrap_or_default();
    let [plates, load_note] = phrase::plates(&phrase::without_estimate(&text(&item.load_note)));
    let lift = entry.filter(|entry| entry.pattern.is_some());
    let heed =
        head::profile(plan).zip(lift).and_then(|(profile, entry)| heed::words(profile, entry));
    let load_note = [&shortened(load_note), heed.unwrap_or_default()]
        .into_iter()
        .filter(|text| !text.is_empty())
        .join("; ");
    Line {
        label: String::new(),
        id: item.exercise.clone(),
        name: names.name(&item.exercise),
        dose: phrase::dose(item),
        count: phrase::count(item),
        each_side: item.each_side,
        planned: phrase::planned(item, units),
        load: phrase::load(item, entry, units),
        load_note,
        plates,
        ramp: phrase::ramp(&item.ramp, units),
        rest: if item.rest_s == 0 || item.sets == 1 && is_timed(entry.map(|entry| entry.measure)) {
            String::new()
        } else {
            Line::rest_text(item.rest_s)
        },
        rest_s: item.rest_s,
        tempo: item
            .tempo
            .as_deref()
            .map(|t| say!(tempo_is, tempo = clean::line(t)))
            .unwrap_or_default(),
        effort: phrase::effort(item, head::status(plan)),
        next: text(&item.next),
        step: String::new(),
        instead: item.instead.as_deref().map(|id| names.name(id)).unwrap_or_default(),
        cues: entry.map(|entry| cues(&entry.cues)).unwrap_or_default(),
        how: String::new(),
        written: entry.map(|entry| Written::of(item, entry, units)).unwrap_or_default(),
    }
}

/// Reminders, those for safety first: where there is room for one only, it is that.
fn cues(cues: &[String]) -> Vec<String> {
    let (first, rest): (Vec<&String>, Vec<&String>) =
        cues.iter().partition(|cue| is_for_safety(cue));
    first.into_iter().chain(rest).map(|cue| clean::line(cue)).collect()
}

/// Whether a reminder is of what keeps from harm: no sheet leaves it out.
pub(crate) fn is_for_safety(cue: &str) -> bool {
    const SAFETY: [&str; 4] = ["safety arms", "spotter", "hold on", "within reach"];
    let cue = cue.to_lowercase();
    SAFETY.iter().any(|word| cue.contains(word))
}

impl Line {
    /// `rest 2:30`.
    pub(crate) fn rest_text(rest_s: u32) -> String {
        say!(rest_is, time = phrase::seconds(rest_s))
    }
}

/// A single steady spell has no set to rest before.
const fn is_timed(measure: Option<Measure>) -> bool {
    matches!(measure, Some(Measure::Seconds | Measure::Meters | Measure::Calories))
}

/// `A` to `Z`, then `AA`.
pub(crate) fn letter(place: usize) -> String {
    let one = |place: usize| char::from(b'A' + u8::try_from(place % 26).unwrap_or(0));
    if place < 26 {
        one(place).to_string()
    } else {
        format!("{}{}", one(place / 26 - 1), one(place))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every exercise that tells of safety arms, a spotter or a hold tells it first.
    #[test]
    fn reminders_for_safety_come_first() {
        let catalog = crate::catalog::Catalog::built_in();
        let first = |id: &str| cues(&catalog.get(id).unwrap().cues)[0].clone();
        assert_eq!(first("bench-press"), "Use safety arms or a spotter");
        assert_eq!(first("goblet-squat"), catalog.get("goblet-squat").unwrap().cues[0]);
        let told = ["Press", "Hold on to a rail", "Breathe"].map(str::to_owned);
        assert_eq!(cues(&told), ["Hold on to a rail", "Press", "Breathe"]);
    }
}
