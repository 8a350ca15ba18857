//! How closely a card must be set so that it fits one page.
//!
//! The measures are those of the style sheet in millimeters, with a wide typeface in mind; the check
//! in a browser counts the pages that come out.

use crate::sheets::Paper;
use crate::sheets::block::{BlockCard, Row, WeekLine};

/// Height of the card's header, the table's head and the stop line.
const FRAME: f64 = 46.0;

/// The measures of one way of setting.
struct Set {
    class: &'static str,
    /// Above and below a row.
    padding: f64,
    /// Of a box with its gap.
    box_height: f64,
    boxes_abreast: u32,
    /// Of a line of small text in the exercise's column, and the letters it holds.
    line: f64,
    letters: f64,
    /// Of a line with the exercise's name.
    name: f64,
    /// The most cues of an exercise.
    cues: usize,
}

/// From the roomiest way to the closest one; the closest writes repetitions only.
const SETS: [Set; 5] = [
    Set {
        class: "airy",
        padding: 3.3,
        box_height: 8.5,
        boxes_abreast: 2,
        line: 4.1,
        letters: 32.0,
        name: 5.2,
        cues: usize::MAX,
    },
    Set {
        class: "snug",
        padding: 2.1,
        box_height: 7.3,
        boxes_abreast: 2,
        line: 3.85,
        letters: 34.0,
        name: 5.2,
        cues: usize::MAX,
    },
    Set {
        class: "brief",
        padding: 2.1,
        box_height: 7.3,
        boxes_abreast: 2,
        line: 3.85,
        letters: 34.0,
        name: 5.2,
        cues: 1,
    },
    Set {
        class: "tight",
        padding: 1.5,
        box_height: 6.6,
        boxes_abreast: 3,
        line: 3.7,
        letters: 34.0,
        name: 4.8,
        cues: 0,
    },
    Set {
        class: "dense",
        padding: 1.2,
        box_height: 6.1,
        boxes_abreast: 6,
        line: 3.5,
        letters: 36.0,
        name: 4.6,
        cues: 0,
    },
];

/// The roomiest class of the style sheet in which the card fits, else the closest.
pub(super) fn class(card: &BlockCard, paper: Paper) -> &'static str {
    let room = height(paper) - 22.0 - FRAME - facts(card);
    let taken = |set: &Set| {
        card.groups
            .iter()
            .flat_map(|group| &group.rows)
            .map(|row| row_height(row, set))
            .sum::<f64>()
    };
    SETS.iter().find(|set| taken(set) <= room).map_or("dense", |set| set.class)
}

/// Whether the cover has room for the weeks beside the days, the cautions and the key to the cards.
pub(super) fn cover_holds(
    weeks: &[WeekLine],
    cautions: &[String],
    days: usize,
    paper: Paper,
) -> bool {
    /// The title, and the key to the cards with the headings.
    const FIXED: f64 = 38.0 + 78.0;
    let days = 15.0 + 6.8 * f64::from(u32::try_from(days).unwrap_or(u32::MAX));
    let weeks = weeks.iter().map(|week| 2.2 + 4.9 * lines(&week.note, 58.0).max(1.0));
    let cautions = cautions.iter().map(|caution| 1.0 + 5.3 * lines(caution, 84.0));
    FIXED + days + 15.0 + weeks.sum::<f64>() + cautions.sum::<f64>() <= height(paper) - 22.0
}

const fn height(paper: Paper) -> f64 {
    match paper {
        Paper::A4 => 297.0,
        Paper::Letter => 279.4,
    }
}

fn facts(card: &BlockCard) -> f64 {
    let prep = card.head.preparation();
    let kit = card.head.kit.join(", ");
    let texts = [&card.head.focus, &kit, &prep, &card.every, &card.next, &card.note];
    let texts = texts.into_iter().map(String::as_str).chain([card.first_load]);
    texts.map(|text| 5.1 * lines(text, 92.0)).sum()
}

fn row_height(row: &Row, set: &Set) -> f64 {
    let line = &row.line;
    let led = |word: &str, text: &str| {
        if text.is_empty() { String::new() } else { format!("{word} {text}") }
    };
    let (ramp, instead) = (led("Ramp", &line.ramp), led("Or instead:", &line.instead));
    let how = [
        line.effort.as_str(),
        &line.rest,
        &line.tempo,
        if line.each_side { "each side" } else { "" },
    ];
    let how = how.join(" · ");
    let cues = line.cues.iter().take(set.cues).map(String::as_str);
    let cues = cues.collect::<Vec<_>>().join(" · ");
    let texts = [&how, &ramp, &line.plates, &line.load_note, &line.next, &instead, &cues];
    let words: f64 = texts.iter().map(|text| lines(text, set.letters)).sum();
    let left = set.name * lines(&line.name, 23.0) + set.line * words;
    let cells = row.cells.iter().flatten().map(|cell| {
        let (ramp, next) = (led("Ramp", &cell.ramp), led("▸", &cell.next));
        let small = [&cell.load, &ramp, &cell.note, &next];
        4.7 * lines(&cell.dose, 11.0)
            + set.line * small.iter().map(|text| lines(text, 16.0)).sum::<f64>()
            + set.box_height * f64::from(cell.boxes.div_ceil(set.boxes_abreast))
    });
    set.padding + cells.fold(left, f64::max)
}

/// Lines that a text takes at so many letters a line, broken between words.
#[allow(clippy::cast_precision_loss, reason = "some hundred letters")]
fn lines(text: &str, letters: f64) -> f64 {
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
