//! An exercise over the weeks of a card: what holds in all of them, and what each has of its own.

use serde::Serialize;

use super::Column;
use super::by_week::{Said, by_week, marked};
use crate::plan::progression::WRITTEN_DOWN;
use crate::sheets::card::{Line, Written, up};
use crate::sheets::phrase::MOST_BOXES;

/// An exercise over the weeks.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Row {
    /// The exercise with the words that hold in every week; those that differ name their weeks.
    pub line: Line,
    /// One per column; `None` where the week goes without.
    pub cells: Vec<Option<Cell>>,
}

/// An exercise in one week.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct Cell {
    /// `3 × 8`.
    pub dose: String,
    /// `42.5 kg total`.
    pub load: String,
    /// The reserve, where it changes from week to week.
    pub effort: String,
    /// The ramp, where it changes from week to week.
    pub ramp: String,
    /// The next load, where it changes from week to week.
    pub next: String,
    /// How to load it in this week, where that is short and changes from week to week.
    pub note: String,
    /// Boxes to write in, with what is planned: one for each set, up to six.
    pub boxes: Vec<String>,
    /// The same in the words of the record.
    pub written: Written,
}

/// Takes the exercise out of each week's lines and puts its weeks side by side.
pub(super) fn row(columns: &[Column], base: &Line, left: &mut [Vec<Line>]) -> Row {
    let mut found: Vec<Option<Line>> = left
        .iter_mut()
        .map(|lines| {
            let place = lines.iter().position(|line| line.id == base.id)?;
            Some(lines.remove(place))
        })
        .collect();
    let raised = raised(&mut found);
    let weeks = || {
        columns.iter().zip(&found).filter_map(|(column, line)| Some((column.week, line.as_ref()?)))
    };
    let said = |text: fn(&Line) -> &String| -> Said {
        weeks().map(|(week, line)| (week, text(line).clone())).collect()
    };
    // What holds from some week on, or was found in the first one, needs no number of its week.
    let once = |text: fn(&Line) -> &String| -> String {
        let mut told = said(text);
        told.retain(|(_, text)| !text.is_empty() && text != WRITTEN_DOWN);
        by_week(&told)
    };
    let rests: Said = weeks()
        .map(|(week, line)| {
            let same = line.rest_s == base.rest_s || base.rest.is_empty();
            (week, if same { base.rest.clone() } else { Line::rest_text(line.rest_s) })
        })
        .collect();
    let mut row = Row {
        line: Line {
            rest: by_week(&rests),
            tempo: by_week(&said(|line| &line.tempo)),
            effort: by_week(&said(|line| &line.effort)),
            next: once(|line| &line.next),
            ramp: by_week(&said(|line| &line.ramp)),
            load_note: once(|line| &line.load_note),
            plates: by_week(&said(|line| &line.plates)),
            instead: by_week(&said(|line| &line.instead)),
            ..base.clone()
        },
        cells: found.iter().map(|line| line.as_ref().map(Cell::from)).collect(),
    };
    into_cells(&mut row, &found, RESERVE, |line| &mut line.effort, |cell| &mut cell.effort);
    into_cells(&mut row, &found, CELL, |line| &mut line.ramp, |cell| &mut cell.ramp);
    into_cells(&mut row, &found, CELL, |line| &mut line.plates, |cell| &mut cell.note);
    for (cell, raised) in row.cells.iter_mut().zip(raised) {
        if let (Some(cell), Some(raised)) = (cell, raised) {
            cell.note = raised;
        }
    }
    if let Some((sentence, steps)) = marked(&said(|line| &line.next), NEXT) {
        row.line.next = sentence;
        let mut steps = steps.into_iter();
        for cell in row.cells.iter_mut().flatten() {
            cell.next = steps.next().map(|(_, step)| step).unwrap_or_default();
        }
    }
    row
}

/// Takes off the lines when a found load goes up: that belongs to its week alone.
fn raised(found: &mut [Option<Line>]) -> Vec<Option<String>> {
    let notes = found.iter_mut().map(|line| {
        let note = &mut line.as_mut()?.load_note;
        note.starts_with(up()).then(|| std::mem::take(note))
    });
    notes.collect()
}

/// The mark that stands for a week's own next load.
pub(crate) const NEXT: &str = "▸";

/// Letters of a text that a cell has room for.
const CELL: usize = 44;

/// Letters of a reserve in figures, `RIR 2`; in words it stays with the exercise.
const RESERVE: usize = 6;

/// Moves a text from the row into the cells where it is short and changes from week to week.
fn into_cells(
    row: &mut Row,
    found: &[Option<Line>],
    most: usize,
    text: fn(&mut Line) -> &mut String,
    place: fn(&mut Cell) -> &mut String,
) {
    let mut lines: Vec<Option<Line>> = found.to_vec();
    let texts: Vec<Option<String>> =
        lines.iter_mut().map(|line| line.as_mut().map(|line| text(line).clone())).collect();
    let said: Vec<&String> = texts.iter().flatten().collect();
    let differ = said.windows(2).any(|pair| pair[0] != pair[1]);
    if !differ || said.iter().any(|text| text.chars().count() > most) {
        return;
    }
    text(&mut row.line).clear();
    for (cell, text) in row.cells.iter_mut().zip(texts) {
        if let (Some(cell), Some(text)) = (cell, text) {
            *place(cell) = text;
        }
    }
}

impl From<&Line> for Cell {
    fn from(line: &Line) -> Self {
        Cell {
            dose: line.count.clone(),
            load: line.load.clone(),
            effort: String::new(),
            ramp: String::new(),
            note: String::new(),
            next: line.step.clone(),
            written: line.written.clone(),
            boxes: line.planned.iter().take(MOST_BOXES as usize).cloned().collect(),
        }
    }
}
