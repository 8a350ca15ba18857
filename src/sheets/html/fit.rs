//! How closely a card must be set so that it fits one page.
//!
//! The measures are those of the style sheet in millimeters, with a wide typeface in mind; the check
//! in a browser counts the pages that come out.

use serde::Serialize;

use crate::sheets::Paper;
use crate::sheets::block::{BlockCard, BlockPart, Row};
use crate::sheets::wording::say;

/// The measures of one way of setting.
struct Set {
    class: &'static str,
    /// Of the card's header, the table's head and the stop line.
    frame: f64,
    /// Of a line of what holds for the whole card, and the letters it holds.
    fact: (f64, f64),
    /// Above and below a row.
    padding: f64,
    /// Of a line of small text in the exercise's column, and the letters it holds.
    line: f64,
    letters: f64,
    /// Of a line with the exercise's name.
    name: f64,
    /// Whether sets and repetitions of a week stand in its boxes alone.
    told_in_boxes: bool,
}

/// The place of the way that a card over two pages is cut for, and the name of the closest way.
const BRIEF: usize = 1;
const CLOSEST: &str = "bare";

/// From the roomiest way to the closest one. Boxes are never smaller: a pencil needs the room.
const SETS: [Set; 3] = [
    Set {
        class: "airy",
        frame: 46.0,
        fact: (5.1, 92.0),
        padding: 3.3,
        line: 4.1,
        letters: 30.0,
        name: 5.2,
        told_in_boxes: false,
    },
    Set {
        class: "brief",
        frame: 46.0,
        fact: (5.1, 92.0),
        padding: 2.1,
        line: 3.85,
        letters: 32.0,
        name: 5.2,
        told_in_boxes: false,
    },
    Set {
        class: "bare",
        frame: 43.0,
        fact: (4.3, 103.0),
        padding: 1.5,
        line: 3.65,
        letters: 31.0,
        name: 4.8,
        told_in_boxes: true,
    },
];

/// Of a box with its gap, and how many stand abreast in a column of four weeks.
const BOX: f64 = 8.3;
const ABREAST: u32 = 2;

/// A card as it goes to the printer.
#[derive(Serialize)]
pub(super) struct Page {
    /// The class of the style sheet.
    fit: &'static str,
    /// The card, or the part of it that stands on this page.
    card: BlockCard,
    /// Whether the page begins the card, and so tells what holds for all of it.
    begins: bool,
    /// Whether the card goes on overleaf.
    goes_on: bool,
}

impl Page {
    /// Whether a week of it names the load to take next.
    pub(super) fn has_steps(&self) -> bool {
        let rows = self.card.groups.iter().flat_map(|group| &group.rows);
        rows.flat_map(|row| row.cells.iter().flatten()).any(|cell| !cell.next.is_empty())
    }
}

/// The card on one page, set as roomily as it fits. A session that is too long for the closest way
/// of setting takes the back of the paper as well, rather than letters that nobody can read.
pub(super) fn pages(card: BlockCard, paper: Paper) -> Vec<Page> {
    let room = room(paper);
    if let Some(fit) = class(&card, &card.groups, room, true) {
        return vec![Page { fit, card, begins: true, goes_on: false }];
    }
    let parts = parts(&card, room);
    let last = parts.len().saturating_sub(1);
    let pages = parts.into_iter().enumerate().map(|(place, groups)| Page {
        fit: class(&card, &groups, room, place == 0).unwrap_or(CLOSEST),
        card: BlockCard { groups, ..card.clone() },
        begins: place == 0,
        goes_on: place < last,
    });
    pages.collect()
}

/// The roomiest class in which the groups fit on a page, with what holds for all of the card where it begins there.
fn class(card: &BlockCard, groups: &[BlockPart], room: f64, begins: bool) -> Option<&'static str> {
    let head = |set: &Set| set.frame + if begins { facts(card, set) } else { 0.0 };
    let rows = |set: &Set| groups.iter().map(|group| group_height(group, set)).sum::<f64>();
    SETS.iter().find(|set| head(set) + rows(set) <= room).map(|set| set.class)
}

/// The groups cut into pages, none of them torn.
fn parts(card: &BlockCard, room: f64) -> Vec<Vec<BlockPart>> {
    let set = &SETS[BRIEF];
    let mut parts = vec![Vec::new()];
    let mut left = room - set.frame - facts(card, set);
    for group in &card.groups {
        let tall = group_height(group, set);
        if tall > left && parts.last().is_some_and(|part| !part.is_empty()) {
            parts.push(Vec::new());
            left = room - set.frame;
        }
        left -= tall;
        parts.last_mut().expect("there is a first page").push(group.clone());
    }
    parts
}

fn group_height(group: &BlockPart, set: &Set) -> f64 {
    group.rows.iter().map(|row| row_height(row, set)).sum()
}

/// Millimeters between the margins, from top to bottom.
pub(super) const fn room(paper: Paper) -> f64 {
    height(paper) - 22.0
}

const fn height(paper: Paper) -> f64 {
    match paper {
        Paper::A4 => 297.0,
        Paper::Letter => 279.4,
    }
}

fn facts(card: &BlockCard, set: &Set) -> f64 {
    let prep = card.head.preparation();
    let kit = card.head.kit.join(", ");
    let texts = [
        &card.head.focus,
        &kit,
        &prep,
        &card.every,
        &card.loads,
        &card.next,
        &card.instead,
        &card.note,
    ];
    texts.iter().map(|text| set.fact.0 * lines(text, set.fact.1)).sum()
}

fn row_height(row: &Row, set: &Set) -> f64 {
    let line = &row.line;
    let led = |word: &str, text: &str| {
        if text.is_empty() { String::new() } else { format!("{word} {text}") }
    };
    let side = format!("{} · ", say!(each_side));
    let how = format!("{}{}", if line.each_side { side.as_str() } else { "" }, line.how);
    let cues = line.cues.join(" · ");
    let texts = [&how, &cues];
    let words: f64 = texts.iter().map(|text| lines(text, set.letters)).sum();
    let left = set.name * lines(&line.name, 23.0) + set.line * words;
    let cells = row.cells.iter().flatten().map(|cell| {
        let (ramp, next) = (led(say!(ramp), &cell.ramp), led("▸", &cell.next));
        let small = [&cell.load, &cell.effort, &ramp, &cell.note, &next];
        let dose = if set.told_in_boxes { 0.0 } else { 4.7 * lines(&cell.dose, 11.0) };
        let boxes = u32::try_from(cell.boxes.len()).unwrap_or(0).div_ceil(ABREAST);
        dose + set.line * small.iter().map(|text| lines(text, 16.0)).sum::<f64>()
            + BOX * f64::from(boxes)
    });
    set.padding + cells.fold(left, f64::max)
}

/// Lines that a text takes at so many letters a line, broken between words.
#[allow(clippy::cast_precision_loss, reason = "some hundred letters")]
pub(super) fn lines(text: &str, letters: f64) -> f64 {
    let (mut lines, mut used) = (0.0, letters);
    for word in text.split_whitespace() {
        let long = word.chars().count() as f64;
        if used + 1.0 + long > letters {
            // A word longer than a line is broken as well.
            lines += (long / letters).ceil().max(1.0);
            used = long % letters;
        } else {
            used += 1.0 + long;
        }
    }
    lines
}
