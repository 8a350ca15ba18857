//! One session as a block of text.

use unicode_width::UnicodeWidthStr;

use super::page::{Page, wrap};
use crate::sheets::card::{Card, Line, Part};
use crate::sheets::phrase;
use crate::sheets::wording::say;

/// Where an exercise's name, dose and load start.
const LABEL: usize = 5;
const NAME: usize = 33;
const DOSE: usize = 20;

pub(super) fn write(page: &mut Page, card: &Card) {
    let time = match (&card.start, &card.end) {
        (Some(start), Some(end)) => format!("   {start}, {} {end}", say!(done_about)),
        (Some(start), None) => format!("   {start}"),
        _ => String::new(),
    };
    page.gap();
    let heading = format!("{}{time}", card.day.to_uppercase());
    page.banner(&heading, card.minutes.as_deref().unwrap_or_default());
    facts(page, card);
    for part in &card.groups {
        write_part(page, part);
    }
}

fn facts(page: &mut Page, card: &Card) {
    if !card.focus.is_empty() {
        page.hanging(&lead(say!(focus)), &card.focus);
    }
    if !card.kit.is_empty() {
        page.hanging(&lead(say!(kit)), &phrase::sentence(&card.kit.join(", ")));
    }
    for (place, line) in card.prep.iter().enumerate() {
        let start = lead(if place == 0 { say!(prep_short) } else { "" });
        page.hanging(&start, &format!("{}: {}", line.name, line.dose));
    }
    if !card.every().is_empty() {
        page.hanging(&lead(say!(lifts)), &card.every());
    }
    if !card.loads.is_empty() {
        page.hanging(&lead(say!(loads)), &card.loads);
    }
    if !card.next.is_empty() {
        page.hanging(&lead(say!(next)), &card.next);
    }
    if let Some(note) = &card.note {
        page.hanging(&lead(say!(note)), note);
    }
}

/// A word before what holds for the whole session.
fn lead(word: &str) -> String {
    format!("{word:<7}")
}

fn write_part(page: &mut Page, part: &Part) {
    page.gap();
    for line in &part.lines {
        main_row(page, line);
        details(page, line, part.title);
    }
}

/// Label, name, dose and load; on two rows where one is too narrow.
fn main_row(page: &mut Page, line: &Line) {
    let label = format!(" {}", line.label);
    let rest = page.width() - LABEL - NAME - DOSE;
    if line.name.width() < NAME && line.dose.width() < DOSE && line.load.width() <= rest {
        page.row(&[(&label, LABEL), (&line.name, NAME), (&line.dose, DOSE), (&line.load, 0)]);
        return;
    }
    for (place, name) in wrap(&line.name, page.width() - LABEL).iter().enumerate() {
        page.row(&[(if place == 0 { &label } else { "" }, LABEL), (name, 0)]);
    }
    let both = [line.dose.as_str(), &line.load].join("   ");
    let indent = if both.width() <= page.width() - LABEL - NAME { LABEL + NAME } else { LABEL };
    for part in wrap(&both, page.width() - indent) {
        page.row(&[("", indent), (&part, 0)]);
    }
}

/// What belongs to the row, quieter, under the name.
fn details(page: &mut Page, line: &Line, title: &str) {
    let title = if title == say!(group_pair) { "" } else { title };
    let step = if line.step.is_empty() { String::new() } else { format!("▸ {}", line.step) };
    let how: Vec<&str> = [title, &line.effort, &line.rest, &line.tempo, &step]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    let start = " ".repeat(LABEL);
    if !line.ramp.is_empty() {
        page.hanging(&start, &say!(ramp_is, ramp = line.ramp));
    }
    if !how.is_empty() {
        page.hanging(&start, &how.join(" · "));
    }
    let load = [line.plates.as_str(), &line.load_note];
    let load: Vec<&str> = load.into_iter().filter(|text| !text.is_empty()).collect();
    if !load.is_empty() {
        page.quiet_hanging(&start, &load.join("; "));
    }
    if !line.next.is_empty() {
        page.quiet_hanging(&start, &line.next);
    }
    if !line.instead.is_empty() {
        page.quiet_hanging(&start, &say!(or_instead, name = line.instead));
    }
}
