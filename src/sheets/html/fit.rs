//! How closely a card must be set so that it fits one page.
//!
//! The heights are those of the style sheet, in millimeters, a little on the large side; the check
//! in a browser counts the pages that come out.

use crate::sheets::block::{BlockCard, Row};

/// Height that a page leaves under the card's header and above its last line, on the lower of the
/// two papers (Letter: 279 mm less margins, header, facts and the stop line).
const ROOM: f64 = 257.0 - 21.0 - 12.0 - 9.0;

/// `airy`, `snug` or `tight`: the class that the style sheet knows.
pub(super) fn class(card: &BlockCard) -> &'static str {
    let facts = 4.6 * lines(&facts(card), 100.0);
    let height = |set: &Set| {
        let rows = card.groups.iter().flat_map(|group| &group.rows);
        facts + rows.map(|row| row_height(row, set)).sum::<f64>()
    };
    let sets = [("airy", &AIRY), ("snug", &SNUG), ("tight", &TIGHT)];
    sets.iter().find(|(_, set)| height(set) <= ROOM).map_or("tight", |(class, _)| class)
}

/// The measures of one way of setting.
struct Set {
    padding: f64,
    box_height: f64,
    boxes_abreast: u32,
    line: f64,
    letters: f64,
    cues: bool,
}

const AIRY: Set =
    Set { padding: 3.4, box_height: 8.5, boxes_abreast: 2, line: 4.1, letters: 40.0, cues: true };
const SNUG: Set = Set { padding: 2.2, box_height: 7.5, ..AIRY };
const TIGHT: Set =
    Set { padding: 1.6, box_height: 6.6, boxes_abreast: 3, line: 3.7, letters: 42.0, cues: false };

fn facts(card: &BlockCard) -> String {
    let prep = card.head.prep.iter().map(|line| format!("{} {}", line.name, line.dose));
    prep.collect::<Vec<_>>().join(" · ")
}

fn row_height(row: &Row, set: &Set) -> f64 {
    let line = &row.line;
    let how = format!("{} · {} · {}", line.effort, line.rest, line.tempo);
    let cues = if set.cues { line.cues.join(" · ") } else { String::new() };
    let texts = [&how, &line.ramp, &line.load_note, &line.next, &line.instead, &cues];
    let words: f64 = texts.iter().map(|text| lines(text, set.letters)).sum();
    let left = 5.2 * lines(&line.name, 28.0) + set.line * words;
    let cells = row.cells.iter().flatten();
    let boxes = cells.map(|cell| {
        let dose = 4.8 * lines(&cell.dose, 12.0)
            + 4.0 * (lines(&cell.load, 15.0) + lines(&cell.note, 15.0));
        dose + set.box_height * f64::from(cell.boxes.div_ceil(set.boxes_abreast)) + 1.0
    });
    set.padding + boxes.fold(left, f64::max)
}

/// Lines that a text takes at so many letters a line.
fn lines(text: &str, letters: f64) -> f64 {
    let count = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
    (f64::from(count) / letters).ceil()
}
